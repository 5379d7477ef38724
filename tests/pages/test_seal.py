"""A sealed page gives back what was sealed, with the right passphrase only, and tells nothing before."""

import base64
import gzip
import html
import json
import random
import re
import zlib
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.pages import SealProblem, is_sealed, render_dossier, seal, unseal
from reportgen.pages.assets import unpack
from reportgen.pages.sealing import _MOST_ROUNDS, _SEALED, _STEP, ROUNDS, Sealed, _packed, _read
from tests.pages import sample
from tests.searches import examples

ROOT = Path(__file__).parents[2]
MODULE = import_module("reportgen.pages.sealing")
WORDS = "vier kühle Wörter hier"


@pytest.fixture(scope="module", autouse=True)
def quick() -> Iterator[None]:
    """A passphrase is stretched a thousand times less than it is for a coach."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(MODULE, "ROUNDS", ROUNDS // 1000)
        yield


@pytest.fixture(scope="module")
def page() -> str:
    return render_dossier(sample.page(), charts=sample.charts)


@pytest.fixture(scope="module")
def sealed(page: str, quick: None) -> str:
    return seal(page, WORDS)


def test_the_page_comes_back_letter_for_letter(page: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(MODULE, "ROUNDS", ROUNDS)
    sealed = seal(page, WORDS)
    assert _read(sealed).rounds == 1_000_000
    assert is_sealed(sealed)
    assert not is_sealed(page)
    assert unseal(sealed, WORDS) == page


def test_letters_composed_in_another_way_and_blanks_around_open_it(page: str, sealed: str) -> None:
    assert unseal(sealed, " vier ku\u0308hle Wo\u0308rter hier\n") == page


@pytest.mark.parametrize("other", ["Vier kühle Wörter hier", "vier kuhle Worter hier", WORDS + "x"])
def test_another_passphrase_is_told_so(other: str, sealed: str) -> None:
    with pytest.raises(SealProblem, match="this passphrase does not open it"):
        unseal(sealed, other)


@pytest.mark.parametrize("empty", ["", " \n"])
def test_an_empty_passphrase_seals_nothing(empty: str) -> None:
    with pytest.raises(SealProblem, match="empty"):
        seal("<p>words</p>", empty)


def test_the_sealed_file_tells_nothing_of_the_lifter(page: str, sealed: str) -> None:
    lifter = sample.page()
    # The sealed body is noise, in which any few letters turn up by chance, the first ones of LZMA too.
    body = base64.b64encode(_read(sealed).body).decode()
    assert sealed.count(body) == 1
    shell = sealed.replace(body, "")
    packed = [unpack(block) for block in re.findall(r"AgAAEAD/[\w+/=]{40,}", shell)]
    whole = re.sub(r"[\w+/=]{200,}", "", shell) + "".join(packed)
    for name in lifter.head.name.split():
        assert name in page
        assert name.casefold() not in whole.casefold()
    for words in ("squad-line", "made-from", "{@top-left{content", 'class="verdict"', lifter.title):
        assert words not in whole
    assert "<title>A sealed dossier</title>" in sealed
    assert "<noscript>" in sealed


def test_the_policy_of_the_shell_allows_exactly_its_own_and_the_page_s_scripts(
    page: str, sealed: str
) -> None:
    def scripts(text: str) -> set[str]:
        return set(re.findall(r"'sha256-[^']+'", re.search(r"script-src ([^;]*);", html.unescape(text))[1]))  # type: ignore[index]

    assert scripts(page) < scripts(sealed)
    assert len(scripts(sealed)) == len(scripts(page)) + 1
    assert "unsafe" not in sealed.split("</head>", maxsplit=1)[0]


def test_sealed_twice_it_is_never_the_same(page: str, sealed: str) -> None:
    one, two = _read(sealed), _read(seal(page, WORDS))
    assert one.salt != two.salt
    assert one.nonce != two.nonce
    assert one.body != two.body


def _changed(sealed: str, **values: object) -> str:
    found = _SEALED.search(sealed)
    assert found is not None
    data = json.loads(found[1]) | values
    return sealed.replace(found[1], json.dumps(data))


@pytest.mark.parametrize(
    "values",
    [
        {"body": "AAAA"},
        {"body": "?"},
        {"salt": "AAAAAAAAAAAAAAAAAAAAAA=="},
        {"nonce": "AAAAAAAAAAAAAAAA"},
        {"nonce": ""},
        {"rounds": 1},
        {"rounds": 0.5},
        {"rounds": 1_000_000.0},
        {"rounds": "1000000"},
        {"rounds": True},
        {"rounds": "many"},
        {"rounds": 10**12},
        {"rounds": 1e400},
        {"rounds": None},
        {"sum": 0},
    ],
)
def test_a_damaged_file_is_told_so_before_any_work(values: dict[str, object], sealed: str) -> None:
    with pytest.raises(SealProblem, match="is damaged"):
        unseal(_changed(sealed, **values), WORDS)


@pytest.mark.parametrize("number", ["1e400", "-1e400", "NaN", "9" * 5000, "[" * 100_000])
def test_a_number_that_is_none_is_damage(number: str, sealed: str) -> None:
    with pytest.raises(SealProblem, match="is damaged"):
        unseal(re.sub(r'"rounds":\d+', f'"rounds":{number}', sealed), WORDS)


def test_a_sealed_page_whose_opening_tag_was_changed_is_damaged_and_no_open_page(sealed: str) -> None:
    start = sealed.index('<script type="application/json" id="sealed">')
    for at in range(start, start + 46):
        changed = sealed[:at] + chr(ord(sealed[at]) ^ 1) + sealed[at + 1 :]
        assert is_sealed(changed)
        with pytest.raises(SealProblem, match="is damaged"):
            unseal(changed, WORDS)


def test_the_script_leaves_the_same_blanks_away_as_the_program() -> None:
    script = (ROOT / "themes" / "plain" / "seal.js").read_text(encoding="utf-8")
    found = re.findall(r"/\^?(\[\\t-[^]]+\])\+\$?/", script)
    assert len(found) == 2
    letters = [chr(n) for n in range(0x110000)]
    for one in found:
        assert [c for c in letters if re.fullmatch(one, c)] == [c for c in letters if not c.strip()]


@pytest.mark.parametrize("blank", ["\u3000", "\u2003", "\x1f", "\x85", "\u205f"])
def test_blanks_of_any_script_around_a_passphrase_open_it(blank: str, page: str, sealed: str) -> None:
    assert unseal(sealed, f"{blank}{WORDS}{blank}") == page


@pytest.mark.parametrize("rounds", [0, 0.5, 10_000_001, 10**12, -1])
def test_rounds_that_are_none_of_ours_are_refused_though_the_sum_is_right(
    rounds: float, sealed: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = _read(sealed)
    other = Sealed(rounds=rounds, salt=old.salt, nonce=old.nonce, body=old.body)  # type: ignore[arg-type]
    monkeypatch.setattr("hashlib.pbkdf2_hmac", lambda *_: pytest.fail("work was done for it"))
    with pytest.raises(SealProblem, match="is damaged"):
        unseal(_changed(sealed, rounds=rounds, sum=other.sum), WORDS)


def test_the_script_takes_as_many_rounds_as_the_program() -> None:
    script = (ROOT / "themes" / "plain" / "seal.js").read_text(encoding="utf-8")
    assert re.findall(r"MOST_ROUNDS = (\d+);", script) == [str(_MOST_ROUNDS)]


@pytest.mark.parametrize("length", [0, 1, 2000, 65_480, 65_500, 65_510, 65_540, 150_000])
def test_what_is_sealed_is_as_long_as_a_whole_number_of_steps(length: int) -> None:
    letters = random.Random(length).randbytes(length).decode("latin-1")  # hardly packs
    packed = _packed(letters)
    assert len(packed) % _STEP == 0
    assert gzip.decompress(packed).decode("utf-8") == letters
    # Nothing of it stands behind the end, where a browser would refuse it.
    engine = zlib.decompressobj(wbits=31)
    engine.decompress(packed)
    assert (engine.eof, engine.unused_data) == (True, b"")


def test_two_pages_of_about_the_same_length_give_sealed_files_of_the_same_length(page: str) -> None:
    one, two = (seal(text, WORDS) for text in (page, page + "<p>Three more weeks of training.</p>" * 40))
    assert len(one) == len(two)


def test_a_page_sealed_before_it_was_filled_up_opens_all_the_same() -> None:
    old = (ROOT / "tests" / "trust" / "old" / "sealed-1.html").read_text(encoding="utf-8")
    assert len(_read(old).body) < 200
    assert "<p>A page of before sealed copies were filled up.</p>" in unseal(old, WORDS)


def test_a_file_cut_off_is_told_so(sealed: str) -> None:
    with pytest.raises(SealProblem, match="is damaged"):
        unseal(sealed[: len(sealed) // 2], WORDS)


def test_a_later_format_is_told_so(sealed: str) -> None:
    with pytest.raises(SealProblem, match="does not know"):
        unseal(_changed(sealed, format=2), WORDS)


def test_an_open_page_is_not_taken_for_a_sealed_one(page: str) -> None:
    with pytest.raises(SealProblem, match="is not sealed"):
        unseal(page, WORDS)


def test_parameters_are_bound_to_what_is_sealed(sealed: str) -> None:
    old = _read(sealed)
    fewer = Sealed(rounds=old.rounds + 1, salt=old.salt, nonce=old.nonce, body=old.body)
    with pytest.raises(SealProblem, match="does not open it"):
        unseal(_changed(sealed, rounds=fewer.rounds, sum=fewer.sum), WORDS)


@examples(3, 8, gate=8)
@given(text=st.text(max_size=200), words=st.text(min_size=1, max_size=30).filter(lambda w: w.strip() != ""))
def test_any_text_comes_back_with_any_passphrase(text: str, words: str) -> None:
    text = text.encode("utf-8", "replace").decode("utf-8")
    try:
        sealed = seal(text, words)
    except UnicodeEncodeError:
        assert any("\ud800" <= c <= "\udfff" for c in words)
        return
    assert unseal(sealed, words) == text
