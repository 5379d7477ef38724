"""A page in pounds says no kilogram, to the eye or to the ear, but where it offers the switch.

The platform has kilograms whatever the reader's unit is: attempts are asked for in whole kilograms and loaded
with kilogram discs, so the block's test day has both. A lifter's own notes and the rows of files are quoted.
"""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from reportgen import face
from reportgen.model.dossier import Dossier
from reportgen.model.lifter import Squad
from reportgen.view import Edition

ROOT = Path(__file__).parents[2]
POUNDS = (ROOT / "content_demo/squad/tobin-marlsworth", ROOT / "tests/cases/legs_in_pounds")
SILENT = frozenset({"script", "style", "pre", "template"})
VOID = frozenset({"meta", "link", "input", "br", "hr", "img"})


class Heard(HTMLParser):
    """Everything of a page that is seen or heard, without the switch, the platform and quotations."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.said: list[str] = []
        self.path: list[tuple[str, bool]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        away = (
            tag in SILENT
            or "switch unit" in (values.get("class") or "")
            or values.get("id") in ("problems", "block")
        )
        away = away or values.get("class") == "prose"
        if not (away or any(away for _, away in self.path)):
            names = ("aria-label", "alt", "title", "data-label", "aria-description", "placeholder")
            self.said += [values[name] or "" for name in names if name in values]
        if tag not in VOID:
            self.path.append((tag, away))

    def handle_endtag(self, tag: str) -> None:
        while self.path and self.path.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        if not any(away for _, away in self.path):
            self.said.append(data)


def kilograms(html: str) -> list[str]:
    heard = Heard()
    heard.feed(html)
    return [words for words in heard.said if re.search(r"\bkg\b|kilogram|\btonnes?\b", words)]


@pytest.fixture(scope="module", params=POUNDS, ids=lambda folder: folder.name)
def lifter(request: pytest.FixtureRequest) -> Dossier:
    return face.read(request.param)


def test_a_kilogram_is_found_in_words_and_labels_but_not_at_the_switch() -> None:
    html = '<p>5 kg</p><svg aria-label="6 kg"></svg><div class="switch unit"><button>kg</button></div>'
    assert kilograms(html) == ["5 kg", "6 kg"]


@pytest.mark.parametrize("edition", ["review", "progress", "season"])
def test_no_page_of_a_pound_lifter_says_kilograms(edition: Edition, lifter: Dossier, tmp_path: Path) -> None:
    made = face.render(lifter, "a", edition=edition, sources=False)
    assert kilograms(made.html) == []
    index = face.index((Squad(), "Squad"), [made.line], [], tmp_path, "plain", edition)
    assert kilograms(index.read_text(encoding="utf-8")) == []
