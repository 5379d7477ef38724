"""Words half as long again fit a phone: nothing reaches over its edge sideways."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.words.tongue import EDITIONS, spoken_pages


@pytest.fixture(scope="module")
def spoken(pages: dict[str, Path]) -> dict[str, Path]:
    folder = pages["calm"].parent
    for name, html in spoken_pages(folder / "spoken").items():
        pages[f"spoken-{name}"] = folder / f"spoken-{name}.html"
        pages[f"spoken-{name}"].write_text(html, encoding="utf-8")
    return pages


@pytest.mark.parametrize("name", [*EDITIONS, "index"])
def test_longer_words_do_not_widen_a_page_on_a_phone(
    name: str, spoken: dict[str, Path], visit: Callable[..., Any]
) -> None:
    page = visit(f"spoken-{name}", viewport={"width": 360, "height": 740}, is_mobile=True, has_touch=True)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.evaluate("document.querySelectorAll('details').forEach(e => { e.open = true })")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert page.heard == []
