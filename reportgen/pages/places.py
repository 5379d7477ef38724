"""Where the data folders lie: inside the wheel, or at the top of a checkout."""

from pathlib import Path

from reportgen.words import text


def data(name: str) -> Path:
    """The folder `themes` or `content_demo`.

    Raises:
        FileNotFoundError: Neither place has it (a broken installation).
    """
    package = Path(__file__).resolve().parent.parent
    for place in (package / "_data" / name, package.parent / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(text("pages.places.missing", name=name))
