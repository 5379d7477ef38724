"""What a coach or a lifter answers in a page: typed, saved, added to the folder, told by the next dossier."""

import csv
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from reportgen.cli.main import main
from tests.browser.test_demo import LIFTER
from tests.written import write_once

ASKED = "[data-answer] details.answer"


def run(*words: object) -> str:
    result = CliRunner().invoke(main, [str(word) for word in words])
    assert result.exit_code == 0, result.output
    return result.stdout


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, pages: dict[str, Path]) -> Path:
    """The lifter's folder, its review and its progress dossier written."""
    folder = Path(shutil.copytree(LIFTER, tmp_path_factory.mktemp("answers") / LIFTER.name))
    out = folder.parent / "pages"
    write_once(out, LIFTER)
    write_once(out, LIFTER, "--edition", "progress")
    pages["review"], pages["asks"] = out / f"{LIFTER.name}.html", out / f"{LIFTER.name}-progress.html"
    return folder


def answer(page: Any, number: int, verdict: str = "", why: str = "", check: str = "") -> Any:
    box = page.locator(ASKED).nth(number)
    if box.get_attribute("open") is None:
        box.locator("summary").click()
    if verdict:
        box.get_by_label(verdict, exact=True).check()
    box.locator("textarea").fill(why)
    if check:
        box.get_by_label("Look again on").fill(check)
    return box


def saved(page: Any, to: Path) -> Path:
    with page.expect_download() as download:
        page.locator(".ways a").click()
    path = to / str(download.value.suggested_filename)
    download.value.save_as(path)
    return path


def test_a_review_answered_in_the_page_is_told_by_the_next_facts_and_the_next_page(
    folder: Path, visit: Callable[..., Any], tmp_path: Path
) -> None:
    page = visit("review")
    names = [e.get_attribute("data-answer") for e in page.locator("article[data-answer]").all()]
    answer(page, 0, "change", '=one, "two"\nthree times', "2026-12-24")
    assert page.evaluate("window.refused") == []
    assert page.heard == []
    file = saved(page, tmp_path)
    assert file.name == "decisions.csv"
    other = Path(shutil.copytree(folder, tmp_path / "other"))
    assert "1 row added" in run("answers", other, file)
    said = json.loads(run("facts", other))["said_and_done"][-1:]
    assert [(row["finding"], row["verdict"], row["why"], row["check"]) for row in said] == [
        (names[0], "changed", '\'=one, "two" three times', "2026-12-24"),
    ]
    before = (other / "decisions.csv").read_bytes()
    assert "nothing added" in run("answers", other, file)
    assert (other / "decisions.csv").read_bytes() == before
    run("write", other, "--out", tmp_path / "out", "--jobs", "1")
    assert "three times" in (tmp_path / "out" / "other.html").read_text(encoding="utf-8")


def test_questions_answered_in_a_progress_dossier_become_a_note(
    folder: Path, visit: Callable[..., Any], tmp_path: Path
) -> None:
    page = visit("asks")
    answer(page, 1, why="Yes.\nAnd the bar <b>stays</b> light.")
    file = saved(page, tmp_path)
    other = Path(shutil.copytree(folder, tmp_path / "other"))
    assert "written" in run("answers", other, file)
    assert "nothing added" in run("answers", other, file)
    (note,) = (other / "notes").glob("*-answers.md")
    assert note.name == file.name == "2026-11-07-answers.md"
    head, _, body = note.read_text(encoding="utf-8").partition("\n\n")
    asked = page.locator("li[data-answer]").nth(1).evaluate("e => e.firstChild.textContent.trim()")
    assert head.splitlines() == [
        "Date: 2026-11-07", "Kind: remark", "Title: Answers to the questions of 7 Nov 2026"
    ]  # fmt: skip
    assert body.startswith(f"Question 2: {asked}")
    assert body.endswith("\n\nAnswer: Yes.\nAnd the bar <b>stays</b> light.\n")
    assert "1 file" not in run("check", other)
    assert json.loads(run("facts", other))["facts_version"] == 1


def test_the_rows_are_csv_whatever_is_typed_and_none_is_a_formula(
    folder: Path, visit: Callable[..., Any]
) -> None:
    page = visit("review")
    for words, safe in (("@sum", "'@sum"), ("+1", "'+1"), ('-2;"x",', '\'-2;"x",'), ("a\u202eb\tc", "a b c")):
        answer(page, 0, "keep", words)
        head, row = csv.reader(page.locator(".rows textarea").input_value().splitlines())
        assert head == ["date", "finding", "verdict", "why", "check"]
        assert row[3] == safe


def test_an_answer_without_a_verdict_is_told_and_one_taken_back_is_gone(
    folder: Path, visit: Callable[..., Any]
) -> None:
    page = visit("review")
    box = answer(page, 0, why="first the ankles")
    assert "is not in the rows" in page.locator(".missing").inner_text()
    assert not page.locator(".rows").is_visible()
    box.get_by_label("keep", exact=True).check()
    assert page.locator(".missing").inner_text() == ""
    assert page.locator(".rows").is_visible()
    box.get_by_role("button", name="Take the answer back").click()
    assert not page.locator(".rows").is_visible()


def test_the_page_warns_before_answers_are_lost_and_not_once_they_are_saved(
    folder: Path, visit: Callable[..., Any], tmp_path: Path
) -> None:
    page = visit("review")
    asked: list[str] = []

    def stay(one: Any) -> None:
        asked.append(one.type)
        one.dismiss()

    page.on("dialog", stay)
    answer(page, 0, "keep", "yes")
    with page.expect_event("dialog"):
        page.close(run_before_unload=True)
    saved(page, tmp_path)
    with page.expect_event("close"):
        page.close(run_before_unload=True)
    assert asked == ["beforeunload"]


def test_on_a_phone_the_text_can_be_shared_and_fits(folder: Path, visit: Callable[..., Any]) -> None:
    stub = "navigator.share = async one => { document.documentElement.dataset.shared = one.text; };"
    page = visit("asks", init=stub, viewport={"width": 360, "height": 740}, is_mobile=True, has_touch=True)
    answer(page, 0, why="Until the autumn.")
    page.get_by_role("button", name="Share").click()
    assert "Answer: Until the autumn." in page.locator("html").get_attribute("data-shared")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    small = "e => e.checkVisibility() && e.getBoundingClientRect().height < 36"
    assert (
        page.evaluate(
            f"[...document.querySelectorAll('.answers button, .answer summary')].filter({small}).length"
        )
        == 0
    )


def test_each_form_is_reached_by_keys_and_named_for_its_finding(
    folder: Path, visit: Callable[..., Any]
) -> None:
    page = visit("review", forced_colors="active")
    page.locator(f"{ASKED} summary").first.focus()
    for key in ("Enter", "Tab", "Space", "ArrowRight", "Tab"):
        page.keyboard.press(key)
    page.keyboard.type("by keys")
    assert ",changed,by keys," in page.locator(".rows textarea").input_value()
    for box in page.locator(ASKED).all():
        box.evaluate("e => e.open = true")
    names = [e.get_attribute("aria-label") for e in page.locator(f"{ASKED} [role=group]").all()]
    heads = page.locator("article[data-answer] h3").all_inner_texts()
    assert [name.split(": ", 1)[1] for name in names] == heads
    assert page.get_by_role("radio", name="keep").count() == len(heads)
    assert page.get_by_role("textbox", name="Why").count() == len(heads)


def test_paper_and_a_page_without_script_have_a_line_to_write_on_and_no_form(
    folder: Path, visit: Callable[..., Any]
) -> None:
    for script in (True, False):
        page = visit("review", java_script_enabled=script)
        assert not page.locator(".answer-line").first.is_visible()
        if script:
            answer(page, 0, "keep", "said before")
        page.emulate_media(media="print")
        assert page.locator(".answer-line").first.is_visible()
        assert not page.locator(".answers").is_visible()
        assert not any(one.is_visible() for one in page.locator("details.answer").all())
    page = visit("asks", java_script_enabled=False)
    assert page.get_by_role("heading", name="Your answers").is_visible()
    assert page.locator(".bare").is_visible()
    assert not page.locator(".how").is_visible()
    page.emulate_media(media="print")
    line = "e => getComputedStyle(e, '::after').borderBottomStyle"
    assert page.locator("li[data-answer]").first.evaluate(line) == "solid"


#: Letters that a reader sees, without those within pictures.
SEEN = """() => {
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    let length = 0;
    while (walk.nextNode()) {
        const words = walk.currentNode.data.replace(/\\s+/g, " ").trim(), by = walk.currentNode.parentElement;
        if (by.checkVisibility() && by.getBoundingClientRect().width > 1) length += words.length;
    }
    return length;
}"""


def test_a_page_without_script_says_as_much_as_with_it(folder: Path, visit: Callable[..., Any]) -> None:
    for name in ("review", "asks", "squad"):
        said = [visit(name, java_script_enabled=script).evaluate(SEEN) for script in (True, False)]
        assert said[1] >= 0.98 * said[0], name
