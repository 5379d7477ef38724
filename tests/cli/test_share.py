"""Copies to share hold nothing that names the lifter; pages that need not be written again are left alone."""

import base64
import contextlib
import gzip
import re
import zlib
from functools import cache
from pathlib import Path

import pytest

from reportgen.analysis import share
from reportgen.cli import private, sharing
from reportgen.cli.blanks import HEADINGS
from reportgen.model.private import PARTS
from reportgen.pages import assets
from reportgen.pages.assets import pack, unpack
from reportgen.view.page import Head, Page
from tests.cli.test_commands import LOG, TOML, lay, run
from tests.each import each
from tests.searches import far

BUILT_IN = Path(__file__).parents[2] / "themes" / "plain"
HEAD = Head(name="", edition="", goal=(), present=(), gap=(), sentence=(), as_of="", span="", unit="kg")

NAME = "Xanthippe"
FILES = {
    "lifter.toml": f'name = "{NAME}"\nborn = 1917\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
    f'[lift_names]\n"{NAME} special" = "snatch"\n',
    "training.csv": "date,lift,kg,sets,reps,variant,aid,session,remark\n"
    f"2026-03-02,snatch,50,3,2,{NAME} style,{NAME} straps,{NAME},{NAME}\n2026-03-04,back squat,90,3,5,,,,\n"
    f"2026-03-04,{NAME} lift,90,3,5,,,,\n",
    "attempts.csv": "date,event,kind,lift,attempt,kg,made,miss\n"
    f"2026-03-05,{NAME} open,contest,snatch,1,50,yes,\n",
    "bodymass.csv": f"date,kg,{NAME}\n2026-03-02,63.5,\n",
    "screening.csv": "date,item,side,kg,reading,grade,conditions,remark\n"
    f"2026-03-02,knee to wall,left,,8,,{NAME},{NAME}\n",
    "technique.csv": "date,lift,kg,checkpoint,grade,clip,remark\n"
    f"2026-03-02,snatch,50,start hips,off,{NAME}.mp4,{NAME}\n",
    "mobility.csv": "date,area,minutes\n2026-03-02,ankles,10\n",
    "pain.csv": "date,place,lift,score,kind,settled,remark\n"
    f"2026-03-02,left {NAME} knee,snatch,4,ache,,{NAME}\n",
    "away.csv": f"from,to,reason,remark\n2026-03-06,2026-03-07,illness,{NAME}\n",
    "decisions.csv": f"date,finding,verdict,why,check\n2026-03-05,position_not_reached,kept,{NAME},\n",
    "plan.csv": f"date,lift,kg,sets,reps,remark\n2026-03-03,snatch,50,3,2,{NAME}\n",
    "notes/xanthippe.md": f"Date: 2026-03-02\nKind: remark\nTitle: {NAME}\n\n{NAME} slept badly.\n",
}


def lay_files(folder: Path) -> Path:
    """Lay out a folder in which the lifter is named in every file that can hold a word."""
    for name, text in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def named(tmp_path: Path) -> Path:
    """A lifter who is named in every file that can hold a word."""
    folder = lay_files(tmp_path / "squad" / "xanthippe")
    (tmp_path / "squad" / "squad.toml").write_text(f'coach = "{NAME}"\n', encoding="utf-8")
    return folder


def whole(page: Path) -> str:
    """The text of a page with every packed block in it unpacked."""
    text = page.read_text(encoding="utf-8")
    for block in re.findall(r"[A-Za-z0-9+/=]{40,}", text):
        for way in (unpack, lambda one: gzip.decompress(base64.b64decode(one, validate=True)).decode()):
            with contextlib.suppress(zlib.error, OSError, EOFError, ValueError):
                text += "\n" + way(block)
    return text


def test_the_search_itself_finds_a_name_in_a_packed_block(named: Path, tmp_path: Path) -> None:
    run("write", named, "--out", tmp_path / "out")
    page = tmp_path / "out" / "xanthippe.html"
    assert whole(page).count(NAME) > page.read_text(encoding="utf-8").count(NAME) > 0


def test_a_shared_squad_holds_the_name_nowhere(named: Path, tmp_path: Path) -> None:
    done = run("write", named.parent, "--out", tmp_path / "out", "--share")
    assert done.exit_code == 0, done.output
    pages = sorted((tmp_path / "out").iterdir())
    assert [page.name for page in pages] == ["index.html", "lifter-1.html"]
    for page in pages:
        text = whole(page)
        assert NAME.lower() not in text.lower()
        assert "1917" not in text
    text = whole(pages[1])
    assert '"screening":null' in text
    assert '"pain":null' in text
    assert "illness" not in text.replace(private.listed(), "")
    assert "position_not_reached" not in text
    assert "A copy to share, without the name and every remark, the birth year, body mass, screening" in text
    assert '"body_mass_kg":null' in text


def test_the_index_of_a_shared_squad_names_no_folder_that_failed_and_quotes_no_file(
    named: Path, tmp_path: Path
) -> None:
    lay(named.parent / "marwenka-holtquist", toml="standards = 'Marwenka'")
    done = run("write", named.parent, "--out", tmp_path / "out", "--share", "--jobs", "1")
    assert "marwenka-holtquist" in done.output  # the terminal is the coach's own
    text = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert "marwenka" not in text.lower()
    assert "<b>lifter-1</b>: could not be written" in text
    assert (tmp_path / "out" / "lifter-2.html").exists()


@pytest.mark.parametrize("file", ["dossier.html", "extra.css"])
def test_a_theme_that_names_the_lifter_writes_no_shared_page_and_says_where(
    named: Path, tmp_path: Path, file: str
) -> None:
    theme = tmp_path / "theme"
    theme.mkdir()
    text = (BUILT_IN / "dossier.html").read_text(encoding="utf-8")
    (theme / file).write_text(
        "/* for XANTHIPPE */" if file == "extra.css" else text.replace("</main>", "For xanthippe.</main>"),
        encoding="utf-8",
    )
    asked = ("write", named, "--out", tmp_path / "out", "--theme", theme)
    done = run(*asked, "--share")
    assert done.exit_code == 2, done.output
    assert (
        f"not written: 'xanthippe' of the lifter's name stands in it, in the theme's file {file}"
        in done.output
    )
    assert not list((tmp_path / "out").glob("*.html"))
    assert run(*asked, "--share", "--keep", "name").exit_code == 0


def test_a_name_that_is_a_word_of_every_page_can_be_shared_and_its_other_words_are_still_searched(
    tmp_path: Path,
) -> None:
    folder = lay(tmp_path / "a", toml=TOML.replace("Runa Velde", "Snatch Lloyd May"))
    assert run("write", folder, "--out", tmp_path / "out", "--share").exit_code == 0
    (tmp_path / "theme").mkdir()
    (tmp_path / "theme" / "extra.css").write_text("/* Velde */", encoding="utf-8")
    (folder / "lifter.toml").write_text(TOML.replace("Runa Velde", "Snatch Velde"), encoding="utf-8")
    done = run("write", folder, "--out", tmp_path / "out", "--share", "--theme", tmp_path / "theme")
    assert "'velde' of the lifter's name" in done.output


#: First names that are words of English, of code or of this page; any invented lifter may have them.
NAMES = (
    "Max Mark Grace Will Rose May June April Art Bill Jack Rob Drew Faith Hope Joy Dawn Eve Ivy Lily "
    "Olive Violet Ruby Pearl Amber Jade Gene Frank Ernest Earnest Rich Chance Chase Miles Grant Ward "
    "Dean Earl Duke Reed Clay Cliff Dale Glen Forest Heath Lane Page Paige Penny Robin Jay Martin "
    "Skip Buck Chuck Pat Sue Don Ray Rusty Sandy Summer Autumn Star Storm Victor Norm Guy Angel Basil "
    "Ginger Sage Daisy Iris Melody Harmony Carol Al Bo Jo Li Ty Snatch Data Figure Lloyd Table Span "
    "Class Section Value Index Main Label Line Set Base Key Id"
)
WORDS = tuple(NAMES.split(" "))


#: One of them for each name, all of them in thorough runs.
LEAKS = ("{name}.", "({small}'s)", "{large}")
ONE_OF = far(len(LEAKS), 1)
unpacked_once = cache(unpack)
real = sharing._readable


@cache
def readable_once(page: str) -> tuple[tuple[str, str], ...]:
    return tuple(real(page))


@pytest.fixture(scope="module")
def everybodys(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A page to share of somebody whose name is the last of these words, written for real."""
    name = " ".join(WORDS[-14:])
    folder = lay(tmp_path_factory.mktemp("words") / "a", toml=TOML.replace("Runa Velde", name))
    done = run("write", folder, "--out", folder.parent / "out", "--share", "--jobs", "1")
    assert done.exit_code == 0, done.output
    return (folder.parent / "out" / "lifter-1.html").read_text(encoding="utf-8")


@each("number, name", enumerate(WORDS))
def test_a_name_that_is_a_word_is_let_through_as_often_as_on_everybodys_page_and_no_more_often(
    everybodys: str, number: int, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(assets, "unpack", unpacked_once)
    monkeypatch.setattr(
        sharing, "_readable", lambda page: readable_once(page) if page == everybodys else real(page)
    )
    page = Page(title="", head=HEAD, sections=())
    assert sharing.searched(everybodys, name, page, lambda: everybodys) == ()
    for leak in LEAKS[number % ONE_OF :: ONE_OF]:
        told = leak.format(name=name, small=name.lower(), large=name.upper())
        text = everybodys.replace("</main>", f"<p>{told}</p></main>")
        assert text != everybodys
        with pytest.raises(sharing.NamedError, match=f"'{name.lower()}' of the lifter's name"):
            sharing.searched(text, name, page, lambda: everybodys)


def test_a_word_for_a_name_that_a_step_too_few_let_through_is_found_on_the_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    toml = TOML.replace("Runa Velde", "Max Rose")
    folder = lay(tmp_path / "a", toml=toml)
    tried = "date,event,kind,lift,attempt,kg,made\n2026-03-05,open of Max,contest,snatch,1,50,yes\n"
    (folder / "attempts.csv").write_text(tried, encoding="utf-8")
    asked = ("write", folder, "--out", tmp_path / "out", "--share", "--jobs", "1", "--again")
    assert run(*asked).exit_code == 0
    monkeypatch.setattr(share, "_without_words", lambda records, _: records)
    done = run(*asked)
    assert done.exit_code == 2, done.output
    assert "'max' of the lifter's name stands in it" in done.output


def test_a_theme_of_ones_own_may_use_words_of_code_and_not_the_lifters_name(tmp_path: Path) -> None:
    theme = tmp_path / "theme"
    theme.mkdir()
    (theme / "extra.css").write_text("@media (max-width: 30em) { .mark { color: red } }", encoding="utf-8")
    assert sharing.named_in_theme(str(theme), "Max Mark") is None
    (theme / "extra.css").write_text("/* for Max */", encoding="utf-8")
    assert sharing.named_in_theme(str(theme), "Max Mark") == ("max", "in the theme's file extra.css")
    assert sharing.named_in_theme("plain", "Max Mark") is None


def test_body_mass_is_left_out_unless_a_goal_rests_on_it_and_the_page_says_which(tmp_path: Path) -> None:
    pages = []
    for name, toml in (("a", TOML), ("b", TOML.replace("kg = 64", "times_body_mass = 1.0"))):
        folder = lay(tmp_path / name, toml=toml)
        (folder / "bodymass.csv").write_text("date,kg\n2026-03-02,57.3\n", encoding="utf-8")
        out = tmp_path / f"out-{name}"
        assert run("write", folder, "--out", out, "--share", "--jobs", "1").exit_code == 0
        pages.append(whole(next(out.iterdir())))
    assert "57.3" not in pages[0]
    assert "body mass, screening" in pages[0]
    assert "57.3" in pages[1]
    assert "the birth year, screening" in pages[1]
    assert "Body mass is in it, since a goal is set by it." in pages[1]


@pytest.mark.parametrize("file", ["README.md", "content_demo/README.md"])
def test_the_list_of_what_is_left_out_is_the_same_in_the_guide_and_in_the_program(file: str) -> None:
    text = " ".join((BUILT_IN.parents[1] / file).read_text(encoding="utf-8").split())
    assert f"leaves out {private.listed()}" in text
    assert all(f"`{part}`" in text for part in PARTS)
    assert private.listed() in " ".join(run("write", "--help").output.split())


def test_notes_that_are_kept_may_name_the_lifter_and_the_terminal_says_so(
    named: Path, tmp_path: Path
) -> None:
    done = run("write", named, "--out", tmp_path / "out", "--share", "--keep", "notes")
    assert done.exit_code == 0, done.output
    assert "the notes that are kept name the lifter ('xanthippe')" in done.stderr
    text = whole(tmp_path / "out" / "lifter-1.html")
    assert text.count(NAME) == 2  # the note's title and its words, as they were written
    assert "may name somebody" in text


def test_the_last_net_looks_into_what_is_packed() -> None:
    page = Page(title="", head=HEAD, sections=())
    for text, where in (
        ('{"facts_version":1,"x":"holtquist_knee"}', "in the facts that it carries"),
        ('{"a figure":"Marwenka"}' + " " * 50, "in the data of a figure"),
    ):
        for packed in (base64.b64encode(gzip.compress(text.encode())).decode(), pack(text)):
            with pytest.raises(sharing.NamedError, match=where):
                sharing.searched(f'<a href="data:x;base64,{packed}">', "Marwenka Holtquist", page, str)
    assert sharing.searched("Holtquistian marwenkas", "Marwenka Holtquist Li", page, str) == ()
    with pytest.raises(sharing.NamedError, match="b l"):
        sharing.searched("<p>B.L.</p>", "B L", page, str)
    with pytest.raises(sharing.NamedError, match="李明"):
        sharing.searched("<p>李明</p>", "李明", page, str)


def test_a_shared_copy_carries_no_sources(named: Path, tmp_path: Path) -> None:
    run("write", named, "--out", tmp_path / "out", "--share")
    done = run("recover", tmp_path / "out" / "lifter-1.html", "--out", tmp_path / "back")
    assert done.exit_code == 2
    assert "carries no source files" in done.stderr


def test_what_is_asked_for_stays(named: Path, tmp_path: Path) -> None:
    run("write", named, "--out", tmp_path / "out", "--share", "--keep", "name", "--keep", "screening")
    text = whole(tmp_path / "out" / "xanthippe-share.html")
    assert NAME in text
    assert "knee to wall" in text.lower()
    assert "slept badly" not in text


def test_keep_goes_with_share_only(named: Path) -> None:
    done = run("write", named, "--keep", "name")
    assert done.exit_code == 2
    assert "--keep goes with --share" in done.stderr


def test_a_proposal_that_what_is_left_out_would_change_is_left_out_too(named: Path) -> None:
    from reportgen.analysis.dossier import build
    from reportgen.intake import read_folder
    from reportgen.trade import load

    records = read_folder(named).records
    assert records is not None
    whole_facts = build(records, load()).facts
    shared = build(share.strip(records, frozenset()), load()).facts
    assert shared.block != whole_facts.block
    assert share.safe(shared, whole_facts).block is None
    assert share.safe(whole_facts, whole_facts).block == whole_facts.block


def test_every_file_that_can_hold_a_word_is_in_the_test() -> None:
    assert set(HEADINGS) <= set(FILES)


def test_an_unchanged_lifter_is_left_alone_and_a_changed_one_is_not(tmp_path: Path) -> None:
    for name in ("a", "b"):
        lay(tmp_path / "squad" / name)
    out = tmp_path / "out"
    run("write", tmp_path / "squad", "--out", out, "--jobs", "1")
    before = {page.name: page.read_bytes() for page in out.iterdir()}
    stood = (out / "a.html").stat().st_mtime_ns
    again = run("write", tmp_path / "squad", "--out", out, "--jobs", "1")
    assert again.stdout.count("unchanged, left as it is") == 2
    assert (out / "a.html").stat().st_mtime_ns == stood
    assert {page.name: page.read_bytes() for page in out.iterdir()} == before
    (tmp_path / "squad" / "b" / "training.csv").write_text(
        LOG + "2026-03-06,snatch,52,1,1\n", encoding="utf-8"
    )
    changed = run("write", tmp_path / "squad", "--out", out, "--jobs", "1")
    assert "a.html: unchanged" in changed.stdout
    assert "b.html: 4 rows used" in changed.stdout


@pytest.mark.parametrize("more", [["--as-of", "2026-03-03"], ["--without-sources"], ["--again"]])
def test_other_options_write_the_page_again(tmp_path: Path, more: list[str]) -> None:
    folder = lay(tmp_path / "a")
    run("write", folder, "--out", tmp_path / "out")
    assert "unchanged" not in run("write", folder, "--out", tmp_path / "out", *more).stdout


def test_an_unchanged_lifter_keeps_the_exit_code_of_what_was_set_aside(tmp_path: Path) -> None:
    folder = lay(tmp_path / "a", LOG + "2026-03-05,snacth,50,1,1\n")
    asked = ("write", folder, "--out", tmp_path / "out")
    assert [run(*asked, *more).exit_code for more in ((), ("--strict",), ())] == [0, 1, 0]


def test_a_page_of_something_else_is_written_over(tmp_path: Path) -> None:
    folder = lay(tmp_path / "a")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "a.html").write_text("<p>something else", encoding="utf-8")
    assert "rows used" in run("write", folder, "--out", tmp_path / "out").stdout


def test_nameless_pages_of_two_lifters_written_apart_do_not_take_each_others_place(tmp_path: Path) -> None:
    for name in ("a", "b"):
        lay(tmp_path / "squad" / name)
    (tmp_path / "pw").write_text("a long enough passphrase\n", encoding="utf-8")
    for name in ("b", "a"):
        assert run("write", tmp_path / "squad" / name, "--out", tmp_path / "out", "--share").exit_code == 0
        sealed = ("--passphrase-file", tmp_path / "pw")
        assert run("write", tmp_path / "squad" / name, "--out", tmp_path / "out", *sealed).exit_code == 0
    assert sorted(page.name for page in (tmp_path / "out").iterdir()) == [
        "dossier-1.html",
        "dossier-2.html",
        "lifter-1.html",
        "lifter-2.html",
    ]


def test_a_copy_to_share_that_keeps_the_name_leaves_the_whole_dossier(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa")
    run("write", folder, "--out", tmp_path / "out")
    whole = (tmp_path / "out" / "runa.html").read_bytes()
    run("write", folder, "--out", tmp_path / "out", "--share", "--keep", "name")
    assert (tmp_path / "out" / "runa.html").read_bytes() == whole
    assert (tmp_path / "out" / "runa-share.html").exists()
