"""A dossier that only a passphrase opens: the whole page sealed, around it a page that asks.

The page is packed with gzip and sealed with AES-256-GCM under a key that PBKDF2 makes of the passphrase. The
parameters are bound to it as additional data, and a sum over all that is sealed tells a damaged file from a
wrong passphrase. The salt is random: sealed twice, a page never gives the same bytes.

What is packed is filled up to a whole number of steps, so that the file's length tells next to nothing of how
much a lifter logged. The filling stands in gzip's own comment, which every reader of gzip leaves out.
"""

import base64
import hashlib
import json
import os
import re
import unicodedata
import zlib
from pathlib import Path
from typing import Any, Final

from reportgen.model.values import dataclass
from reportgen.pages import assets
from reportgen.pages.dossier import FIRST_SCRIPT, frame
from reportgen.pages.policy import policy
from reportgen.pages.themes import BUILT_IN, load, markup
from reportgen.words import text

FORMAT: Final = 1
ROUNDS: Final = 1_000_000
_KDF: Final = "PBKDF2-SHA-256"
_CIPHER: Final = "AES-256-GCM"
_SALT_BYTES: Final = 16
_NONCE_BYTES: Final = 12
#: The packed page is as long as a whole number of these [bytes]; a log of two rows takes 3, each demo 4.
_STEP: Final = 64 * 1024
#: A page from elsewhere may ask for no more work than this, and unpack to no more.
_MOST_ROUNDS: Final = 10_000_000
_MOST_BYTES: Final = 128 * 1024 * 1024
_OPEN: Final = '<script type="application/json" id="sealed">'
_SEALED: Final = re.compile(re.escape(_OPEN) + r"(\{[^<]*\})</script>")


class SealProblem(Exception):  # noqa: N818 - it is a problem to report, named like the others
    """A page can't be sealed or opened; the message says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealed:
    """What stands in a sealed page. `body` is the packed page, encrypted, with GCM's tag at its end."""

    rounds: int
    salt: bytes
    nonce: bytes
    body: bytes

    @property
    def bound(self) -> bytes:
        """The parameters as additional data: who changes one opens nothing."""
        words = (
            "sealed dossier",
            FORMAT,
            _KDF,
            self.rounds,
            _base64(self.salt),
            _CIPHER,
            _base64(self.nonce),
        )
        return ";".join(map(str, words)).encode("ascii")

    @property
    def sum(self) -> str:
        """SHA-256 over parameters and body, as hex."""
        return hashlib.sha256(self.bound + self.body).hexdigest()

    def json(self) -> str:
        """As it stands in the page; nothing in it is markup."""
        return json.dumps(
            {
                "format": FORMAT,
                "kdf": _KDF,
                "rounds": self.rounds,
                "salt": _base64(self.salt),
                "cipher": _CIPHER,
                "nonce": _base64(self.nonce),
                "sum": self.sum,
                "body": _base64(self.body),
            },
            separators=(",", ":"),
        )


def is_sealed(page: str) -> bool:
    """Whether a page is a sealed one, or was before it was damaged: either of two marks tells."""
    return _OPEN in page or f"<title>{text('pages.sealed.title')}</title>" in page


def seal(page: str, passphrase: str, *, theme: str | Path = BUILT_IN) -> str:
    """A page that asks for the passphrase and then shows `page`, with nothing of it in the open.

    Args:
        page: The HTML of a dossier made with the same theme.
        passphrase: Brought to Unicode's form NFC; blanks around it do not count.
        theme: Gives style, scripts and the page around.

    Raises:
        SealProblem: The passphrase is empty.
        ThemeProblem: The theme fails; names its file and line.
    """
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

    salt, nonce = os.urandom(_SALT_BYTES), os.urandom(_NONCE_BYTES)
    bare = Sealed(rounds=ROUNDS, salt=salt, nonce=nonce, body=b"")
    body = AESGCM(_key(passphrase, bare)).encrypt(nonce, _packed(page), bare.bound)
    used = load(theme)
    # No words for the running head, they name the lifter: seal.js adds it to the opened page.
    values = frame(used, title=text("pages.sealed.title"), running_head=None)
    scripts = (FIRST_SCRIPT, str(values["script"]), used.text("seal.js"), assets.runtime())
    values |= {
        "sealed": markup(Sealed(rounds=ROUNDS, salt=salt, nonce=nonce, body=body).json()),
        "seal_script": markup(scripts[2]),
        "policy": policy(scripts=scripts, styles=(str(values["style"]),)),
    }
    made = used.render("sealed.html", values)
    if _SEALED.search(made) is None:
        raise SealProblem(text("pages.seal.theme"))
    return made


def unseal(page: str, passphrase: str) -> str:
    """The dossier in a sealed page, exactly as it was.

    Args:
        page: The HTML of a sealed page.
        passphrase: The one it was sealed with.

    Raises:
        SealProblem: It is not sealed, damaged, or the passphrase is another.
    """
    from cryptography.exceptions import InvalidTag
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

    sealed = _read(page)
    try:
        packed = AESGCM(_key(passphrase, sealed)).decrypt(sealed.nonce, sealed.body, sealed.bound)
    except InvalidTag as error:
        raise SealProblem(text("pages.seal.another")) from error
    engine = zlib.decompressobj(wbits=31)
    try:
        content = engine.decompress(packed, _MOST_BYTES + 1)
        if not engine.eof or len(content) > _MOST_BYTES:
            raise SealProblem(text("pages.seal.not_ours"))
        return content.decode("utf-8")
    except (zlib.error, UnicodeDecodeError) as error:
        raise SealProblem(text("pages.seal.not_ours")) from error


def _packed(page: str) -> bytes:
    """The page in a wrapper of gzip without a name and a time, filled up to a whole number of steps.

    Filled in front, in a comment (RFC 1952): DecompressionStream refuses bytes behind the end, and programs
    of before the filling open it, too.
    """
    engine = zlib.compressobj(9, zlib.DEFLATED, 31)
    packed = engine.compress(page.encode("utf-8")) + engine.flush()
    flags, head = 3, 10
    comment = b" " * (-(len(packed) + 1) % _STEP) + b"\0"
    return packed[:flags] + b"\x10" + packed[flags + 1 : head] + comment + packed[head:]


def _read(page: str) -> Sealed:
    if not is_sealed(page):
        raise SealProblem(text("pages.seal.open"))
    damaged = text("pages.seal.damaged")
    found = _SEALED.search(page)
    if found is None:
        raise SealProblem(damaged)
    try:
        data: dict[str, Any] = json.loads(found[1])
        if data["format"] != FORMAT or data["kdf"] != _KDF or data["cipher"] != _CIPHER:
            raise SealProblem(text("pages.seal.format"))
        salt, nonce, body = (
            base64.b64decode(data[name], validate=True) for name in ("salt", "nonce", "body")
        )
        if type(data["rounds"]) is not int:  # half a round, or true, which Python counts as one
            raise SealProblem(damaged)
        sealed = Sealed(rounds=data["rounds"], salt=salt, nonce=nonce, body=body)
        whole = sealed.sum == data["sum"]
    except (ValueError, KeyError, TypeError, OverflowError, RecursionError) as error:
        raise SealProblem(damaged) from error
    if not whole or len(nonce) != _NONCE_BYTES or not 0 < sealed.rounds <= _MOST_ROUNDS:
        raise SealProblem(damaged)
    return sealed


def _key(passphrase: str, sealed: Sealed) -> bytes:
    # A phone's keyboard likes to add a blank: none around counts, and `strip` of seal.js takes the same away.
    words = unicodedata.normalize("NFC", passphrase).strip()
    if not words:
        raise SealProblem(text("pages.seal.empty"))
    return hashlib.pbkdf2_hmac("sha256", words.encode("utf-8"), sealed.salt, sealed.rounds, 32)


def _base64(content: bytes) -> str:
    return base64.b64encode(content).decode("ascii")
