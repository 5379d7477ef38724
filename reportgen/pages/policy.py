"""What a page may do, pinned to its own text: this style, these scripts, nothing else."""

import base64
import hashlib


def pinned(text: str) -> str:
    """The source expression that allows exactly this inline text."""
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return f"'sha256-{base64.b64encode(digest).decode('ascii')}'"


def policy(*, scripts: tuple[str, ...], styles: tuple[str, ...]) -> str:
    """A content security policy for a page that fetches nothing.

    Args:
        scripts: Every inline script, the one that is unpacked later too, exactly as it stands in its element.
        styles: Every inline style sheet.
    """
    rules = (
        ("default-src", "'none'"),
        ("script-src", " ".join(map(pinned, scripts)) or "'none'"),
        ("style-src", " ".join(map(pinned, styles)) or "'none'"),
        ("img-src", "data:"),
        ("font-src", "data:"),
        ("base-uri", "'none'"),
        ("form-action", "'none'"),
    )
    return "; ".join(f"{name} {sources}" for name, sources in rules)
