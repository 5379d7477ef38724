"""A sealed copy opened from the disk: the dossier for the right passphrase, else a clear sentence."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from reportgen.pages import seal
from reportgen.pages.dossier import FIRST_SCRIPT
from reportgen.pages.sealing import _SEALED, Sealed, _read
from tests.pages import sample

WORDS = "vier kühle Wörter hier"
SAID = "#lock-said"


@pytest.fixture(scope="session")
def sealed(pages: dict[str, Path]) -> Path:
    html = sample.html()
    path = pages["calm"].with_name("sealed.html")
    path.write_text(seal(html, WORDS), encoding="utf-8")
    pages["sealed"] = path
    damaged = path.read_text(encoding="utf-8")
    middle = damaged.index('"body":"') + 5000
    other = "A" if damaged[middle] != "A" else "B"
    pages["damaged"] = path.with_name("damaged.html")
    pages["damaged"].write_text(damaged[:middle] + other + damaged[middle + 1 :], encoding="utf-8")
    whole = path.read_text(encoding="utf-8")
    broken = {
        "cut": whole[: whole.index('"body":"') + 5000],
        "script": whole.replace("class Told extends", "class Told  extends"),
        "first": whole.replace(f"<script>{FIRST_SCRIPT}<", f"<script>{FIRST_SCRIPT};<"),
    }
    ours = _read(whole)
    for name, rounds in (("half a round", 0.5), ("rounds for hours", 10**12)):
        # The sum is right: who makes such a page can make the sum, too.
        made: Any = Sealed(rounds=rounds, salt=ours.salt, nonce=ours.nonce, body=ours.body)  # type: ignore[arg-type]
        broken[name] = whole.replace(_SEALED.findall(whole)[0], made.json())
    for name, text in broken.items():
        assert text != whole
        pages[name] = path.with_name(f"{name}.html")
        pages[name].write_text(text, encoding="utf-8")
    return path


def type_in(page: Any, words: str) -> None:
    page.locator("#passphrase").fill(words)
    page.keyboard.press("Enter")


def test_the_right_passphrase_opens_the_whole_page(sealed: Path, visit: Callable[..., Any]) -> None:
    page = visit("sealed")
    assert page.title() == "A sealed dossier"
    assert sample.page().head.name not in page.content()
    type_in(page, " vier ku\u0308hle Wo\u0308rter hier ")
    page.wait_for_selector(".sheet")
    assert page.title() == sample.page().title
    assert page.locator("h1").inner_text() == sample.page().head.name
    assert page.locator("#passphrase").count() == 0
    page.locator("#figure-0 button[data-period='84']").click()
    page.locator("button[data-unit=lb]").first.click()
    page.wait_for_function("() => document.querySelectorAll('.chart.alive').length === 11")
    page.locator("[data-chart=figure-0]").focus()
    page.keyboard.press("Home")
    page.wait_for_selector(".reading.shown")
    assert page.evaluate("window.refused") == []
    assert page.heard == []


@pytest.mark.parametrize("blank", ["\u3000", "\u2003", "\x1f\x85\u205f"])
def test_blanks_of_any_script_around_the_passphrase_do_not_count(
    blank: str, sealed: Path, visit: Callable[..., Any]
) -> None:
    page = visit("sealed")
    type_in(page, blank)
    assert page.locator(SAID).inner_text() == "Type the passphrase first."
    type_in(page, f"{blank}{WORDS}{blank}")
    page.wait_for_selector(".sheet")


def test_a_page_sealed_with_blanks_around_opens_without_them(
    sealed: Path, pages: dict[str, Path], visit: Callable[..., Any]
) -> None:
    html = pages["calm"].read_text(encoding="utf-8")
    pages["blanks"] = sealed.with_name("blanks.html")
    pages["blanks"].write_text(seal(html, f"\u3000{WORDS}\u2003"), encoding="utf-8")
    page = visit("blanks")
    type_in(page, WORDS)
    page.wait_for_selector(".sheet")


def test_once_open_the_running_head_is_there(sealed: Path, visit: Callable[..., Any]) -> None:
    page = visit("sealed")
    heads = "() => [...document.styleSheets[0].cssRules].filter(r => /@top-left/.test(r.cssText)).length"
    before = page.evaluate(heads)
    type_in(page, WORDS)
    page.wait_for_selector(".sheet")
    assert page.evaluate(heads) == before + 1


def test_a_wrong_passphrase_is_told_so_and_another_may_be_tried(
    sealed: Path, visit: Callable[..., Any]
) -> None:
    page = visit("sealed")
    type_in(page, "   ")
    assert page.locator(SAID).inner_text() == "Type the passphrase first."
    type_in(page, "four other words here")
    page.wait_for_function("() => /does not open it/.test(document.querySelector('#lock-said').textContent)")
    assert page.locator(".sheet").count() == 0
    type_in(page, WORDS)
    page.wait_for_selector(".sheet")
    assert page.evaluate("window.refused") == []


def test_a_damaged_file_is_told_so(sealed: Path, visit: Callable[..., Any]) -> None:
    page = visit("damaged")
    type_in(page, WORDS)
    page.wait_for_function("() => /is damaged/.test(document.querySelector('#lock-said').textContent)")
    assert page.locator(".sheet").count() == 0


@pytest.mark.parametrize("name", ["half a round", "rounds for hours"])
def test_rounds_that_are_none_of_ours_are_refused_at_once_and_keep_no_browser_at_work(
    name: str, sealed: Path, visit: Callable[..., Any]
) -> None:
    page = visit(name)
    type_in(page, WORDS)
    page.wait_for_function("() => /is damaged/.test(document.querySelector('#lock-said').textContent)")
    assert page.locator("#lock button").is_enabled()
    assert page.locator(".sheet").count() == 0


@pytest.mark.parametrize("name", ["cut", "script"])
def test_a_page_whose_script_did_not_run_says_so_and_opens_nothing(
    name: str, sealed: Path, visit: Callable[..., Any]
) -> None:
    page = visit(name)
    address = page.url
    page.locator(SAID).wait_for(state="visible")
    assert "script did not run" in page.locator(SAID).inner_text()
    assert "reportgen recover opens it, too" in page.locator(SAID).inner_text()
    assert page.locator("#lock button").is_disabled()
    type_in(page, WORDS)
    page.locator("#lock button").click(force=True)
    page.wait_for_timeout(200)
    assert page.url == address
    # The changed script is refused, as it has to be; no form is sent anywhere.
    assert page.evaluate("window.refused") == (["script-src-elem inline"] if name == "script" else [])


def test_the_form_works_when_only_the_first_script_was_changed(
    sealed: Path, visit: Callable[..., Any]
) -> None:
    page = visit("first")
    assert page.locator(SAID).inner_text() == ""
    type_in(page, WORDS)
    page.wait_for_selector(".sheet")


def test_an_undamaged_page_never_says_that_its_script_did_not_run(
    sealed: Path, visit: Callable[..., Any]
) -> None:
    page = visit("sealed")
    assert page.locator(SAID).inner_text() == ""
    assert page.locator("#lock button").is_enabled()
    assert (page.evaluate("window.refused"), page.heard) == ([], [])


def test_without_script_it_says_what_is_needed(sealed: Path, visit: Callable[..., Any]) -> None:
    page = visit("sealed", java_script_enabled=False)
    assert "allow JavaScript" in page.locator("main").inner_text()
    assert not page.locator("#lock").is_visible()
    assert "did not run" not in page.locator("main").inner_text()


def test_a_browser_that_cannot_open_it_says_so(sealed: Path, visit: Callable[..., Any]) -> None:
    page = visit("sealed", init="delete Crypto.prototype.subtle")
    assert "browser can’t open" in page.locator(SAID).inner_text()
    assert not page.locator("#lock").is_visible()


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_the_lock_fits_and_its_targets_are_large(width: int, sealed: Path, visit: Callable[..., Any]) -> None:
    page = visit("sealed", viewport={"width": width, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    for box in page.locator("#passphrase, #lock button, .reveal label, #reveal").all():
        assert box.bounding_box()["height"] >= 24
