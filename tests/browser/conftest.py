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


@pytest.fixture
def visit(browser: Any, pages: dict[str, Path]) -> Iterator[Callable[..., Any]]:
    """Open a page in a fresh offline context; `page.heard` gathers what it asks for and complains of."""
    contexts = []

    def go(name: str = "calm", *, init: str = "", **context: Any) -> Any:
        context.setdefault("viewport", {"width": 1280, "height": 900})
        opened = browser.new_context(reduced_motion="reduce", **context)
        contexts.append(opened)
        opened.set_offline(True)
        opened.add_init_script(
            "window.refused = []; document.addEventListener('securitypolicyviolation',"
            " e => window.refused.push(e.effectiveDirective + ' ' + e.blockedURI))"
        )
        if init:
            opened.add_init_script(init)
        page = opened.new_page()
        page.set_default_timeout(8000)
        heard: list[str] = []
        page.on("request", lambda r: None if r.url.startswith(("data:", "file:")) else heard.append(r.url))
        page.on("console", lambda m: heard.append(m.text))
        page.on("pageerror", lambda e: heard.append(str(e)))
        page.goto(pages[name].as_uri(), wait_until="load")
        page.heard = heard
        return page

    yield go
    for context in contexts:
        context.close()
