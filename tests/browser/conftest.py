"""One Chromium for all tests of pages; without one they are skipped, unless CI says it must be there."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from reportgen.pages import render_squad
from tests.pages import sample

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
HOSTILE = "\"'><img src=x onerror=window.ran=1></text></script><script>window.ran=1</script>{{7*7}}"


def chromium() -> str | None:
    return os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    missing = chromium() is None and os.environ.get("CI") != "true"
    for item in items:
        if item.path.is_relative_to(here):
            item.add_marker(pytest.mark.browser)
            if missing:
                item.add_marker(pytest.mark.skip(reason="no Chromium on this machine"))


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium(), headless=True, args=FLAGS)
        yield running
        running.close()


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A calm dossier, one whose every word is hostile, and a squad's index."""
    folder = tmp_path_factory.mktemp("pages")
    texts = {name: sample.html(word) for name, word in (("calm", "in training"), ("hostile", HOSTILE))}
    texts["squad"] = render_squad(sample.squad(HOSTILE))
    for name, text in texts.items():
        (folder / f"{name}.html").write_text(text, encoding="utf-8")
    return {name: folder / f"{name}.html" for name in texts}


@pytest.fixture(scope="session")
def idle() -> dict[str, list[Any]]:
    """Blank pages that wait for a test, by the settings of their context."""
    return {}


@pytest.fixture
def visit(browser: Any, pages: dict[str, Path], idle: dict[str, list[Any]]) -> Iterator[Callable[..., Any]]:
    """Open a page in an offline context; `page.heard` gathers what it asks for and complains of.

    A context with its window costs several times what most pages do: one that a test is done with serves the
    next test that wants such settings, after a blank page. What is opened within one test is each its own,
    but where the page is named that goes `on`.
    """
    opened: list[tuple[list[Any], Any]] = []

    def go(name: str = "calm", *, init: str = "", on: Any = None, **context: Any) -> Any:
        if on is not None:
            on.goto(pages[name].as_uri(), wait_until="load")
            return on
        size = context.pop("viewport", {"width": 1280, "height": 900})
        alike = [] if init else idle.setdefault(repr(sorted(context.items())), [])
        page = alike.pop() if alike else fresh(browser, init, viewport=size, **context)
        opened.append((alike, page))
        if page.viewport_size != size:
            page.set_viewport_size(size)
        page.heard = []
        page.goto(pages[name].as_uri(), wait_until="load")
        return page

    yield go
    for alike, page in opened:
        if page.is_closed():
            page.context.close()
            continue
        page.emulate_media(media="null")
        page.mouse.move(0, 0)
        page.goto("about:blank")
        alike.append(page)


def fresh(browser: Any, init: str, **context: Any) -> Any:
    """A page in a context of its own."""
    made = browser.new_context(reduced_motion="reduce", **context)
    made.set_offline(True)
    made.add_init_script(
        "window.refused = []; document.addEventListener('securitypolicyviolation',"
        " e => window.refused.push(e.effectiveDirective + ' ' + e.blockedURI))"
    )
    if init:
        made.add_init_script(init)
    page = made.new_page()
    page.set_default_timeout(8000)
    page.on("request", lambda r: None if r.url.startswith(("data:", "file:")) else page.heard.append(r.url))
    page.on("console", lambda m: page.heard.append(m.text))
    page.on("pageerror", lambda e: page.heard.append(str(e)))
    return page
