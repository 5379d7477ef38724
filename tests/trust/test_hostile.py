"""Hostile folders, pages and themes: each has a bound and a message, and nothing of them is obeyed."""

import base64
import gzip
import hashlib
import os
import time
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
from click.testing import CliRunner

from reportgen import pages, view
from reportgen.analysis.dossier import build
from reportgen.cli.main import main
from reportgen.intake import exit_code, find_lifters, read_folder, read_squad
from reportgen.model.letters import shown
from reportgen.pages import ArchiveProblem, ThemeProblem, recover, render_dossier, themes
from reportgen.trade import load
from reportgen.view.prose import clean
from reportgen.words import said
from tests.pages import sample
from tests.searches import far
from tests.trust.logs import HEAD, TOML, lay, ledger, messages, read

LOG = HEAD + "2026-03-01,snatch,50,1\n"
COLUMNS = far(200_000, 900_000)
EVIL = "<img src=x onerror=alert(1)></script><script>alert(1)</script>{{7*7}}"


def ran(*arguments: str | Path) -> tuple[int, str, str]:
    done = CliRunner().invoke(main, [str(one) for one in arguments])
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done.exit_code, done.stdout, done.stderr


class _Seen(HTMLParser):
    """Tags and attributes as a browser would understand them."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.found: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.found += [(name, value or "") for name, value in attrs]


def seen(html: str) -> _Seen:
    parser = _Seen()
    parser.feed(html)
    return parser


def test_markup_in_every_field_and_file_name_stays_text_on_the_page(tmp_path: Path) -> None:
    files = {
        "training": f"date,lift,kg,reps,variant,aid,session,remark\n"
        f'2026-03-01,snatch,50,1,"{EVIL}","{EVIL}","{EVIL}","{EVIL}"\n2026-03-02,snatch,55,1,,,,\n'
        f'2026-03-02,"{EVIL}",55,1,,,,\n',
        "attempts": f'date,event,lift,attempt,kg,made\n2026-03-02,"{EVIL}",snatch,1,50,yes\n',
        "pain": f'date,place,score,remark\n2026-03-01,"{EVIL}",3,"{EVIL}"\n',
        "away": f'from,to,reason,remark\n2026-03-01,2026-03-01,rest,"{EVIL}"\n',
        "screening": f'date,item,reading,conditions,remark\n2026-03-01,knee to wall,9,"{EVIL}","{EVIL}"\n',
        "technique": f'date,checkpoint,grade,clip,remark\n2026-03-01,start hips,off,"{EVIL}","{EVIL}"\n',
        "decisions": f'date,finding,verdict,why\n2026-03-01,"{EVIL}",kept,"{EVIL}"\n',
    }
    folder = lay(tmp_path / "r<b>una&", files.pop("training"), TOML.replace("Runa Velde", EVIL), **files)
    (folder / "notes").mkdir()
    note = f"Date: 2026-03-01\nKind: review\nTitle: {EVIL}\n\n{EVIL}\n\n[press](javascript:alert(1))\n"
    (folder / "notes" / "<img src=x>.md").write_text(note + "![x](x.png) [y](data:text/html;base64,eA==)\n")
    (folder / "<script>.csv").write_text("a\n")
    intake = read_folder(folder)
    assert intake.records is not None
    dossier = build(intake.records, load())
    found = seen(
        render_dossier(
            view.build(dossier, load()),
            extras=pages.carried(dossier.records.sources, dossier.facts),
        )
    )
    calm = seen(render_dossier(sample.page("calm"), charts=sample.charts))
    assert found.tags.count("script") == calm.tags.count("script")
    assert not {"img", "iframe", "object", "embed", "form", "base"} & set(found.tags)
    assert not [name for name, _ in found.found if name.startswith("on") or name == "style"]
    links = [value for name, value in found.found if name in ("href", "src", "action")]
    assert all(link.startswith(("#", "data:application/gzip;", "data:image/")) for link in links), links


@pytest.mark.parametrize(
    "link",
    ["javascript:alert(1)", "JaVa\tScript:alert(1)", "data:text/html,x", "vbscript:x", "//evil", "file:///x"],
)
def test_links_of_notes_lead_to_plain_addresses_only(link: str) -> None:
    for text in (f"[a]({link})", f"<{link}>", f'<a href="{link}">a</a>', f"[a]\n\n[a]: {link}"):
        assert [value for name, value in seen(clean(text)).found if name == "href"] == []


@pytest.mark.parametrize(
    "text", ["[" * 20_000, "![" * 20_000, "[a](" * 20_000, "".join(" " * 4 * i + "- x\n" for i in range(400))]
)
def test_a_note_made_to_take_hours_is_shown_as_it_stands(text: str) -> None:
    start = time.monotonic()
    assert clean(text + "<b>").count("&lt;b&gt;") == 1
    assert time.monotonic() - start < 10


def test_a_path_in_a_lifters_name_is_no_path(tmp_path: Path) -> None:
    lay(tmp_path / "squad" / "runa", LOG, TOML.replace("Runa Velde", "../../../evil"))
    code, out, _ = ran("write", tmp_path / "squad", "--out", tmp_path / "out", "--jobs", "1")
    assert code == 0, out
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == ["index.html", "runa.html"]
    assert not list(tmp_path.rglob("evil*"))


def test_a_folder_name_that_steers_the_terminal_is_written_out(tmp_path: Path) -> None:
    lay(tmp_path / "ru\x1b[31m\u202ena", HEAD + "2026-03-01,snatch,50,1\n2026-03-01,wobble,50,1\n")
    (tmp_path / "ru\x1b[31m\u202ena" / "\x1b[2Jx.csv").write_text("a\n")
    for words in (("check", tmp_path), ("write", tmp_path, "--out", tmp_path / "out", "--jobs", "1")):
        code, out, err = ran(*words)
        assert code == (words[0] == "check")
        assert "\x1b[31m" not in out + err
        assert "\x1b[2J" not in out + err
        assert "\u202e" not in out + err
        assert "\\x1b" in out + err


def test_a_folder_name_that_is_no_text_is_written_out(tmp_path: Path) -> None:
    try:
        folder = lay(tmp_path / os.fsdecode(b"ru\xffna"), LOG, TOML.replace('name = "Runa Velde"\n', ""))
    except OSError:
        pytest.skip("this system refuses such names")
    intake = read_folder(folder)
    assert intake.records is not None
    assert (intake.records.folder, intake.records.lifter.name) == ("ru\\udcffna", "ru\\udcffna")


def test_a_theme_name_that_is_no_theme_is_one_clear_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(tmp_path / "s" / "runa", LOG)
    monkeypatch.chdir(tmp_path)
    # The last one leads back to our own theme, as seen from where our themes lie.
    for theme in ("../../etc/passwd", "plain/../../plain", "no-such\x1b[31m", "../themes/plain"):
        code, _, err = ran(
            "write", tmp_path / "s", "--out", tmp_path / "out", "--theme", theme, "--jobs", "1"
        )
        assert code == 2
        assert "no such theme" in err
        assert "\x1b[31m" not in err
    assert not (tmp_path / "out").exists()


def test_links_out_of_the_folder_are_never_followed(tmp_path: Path) -> None:
    outside = lay(tmp_path / "outside", LOG)
    (outside / "notes").mkdir()
    (outside / "notes" / "a.md").write_text("Date: 2026-03-01\nKind: remark\nTitle: secret\n\nsecret\n")
    squad = tmp_path / "squad"
    inner = lay(squad / "runa", LOG)
    (inner / "notes").symlink_to(outside / "notes")
    (inner / "bodymass.csv").symlink_to("/dev/zero")
    (squad / "other").symlink_to(outside)
    intake = read_folder(inner)
    assert intake.records is not None
    assert intake.records.notes == ()
    assert ledger(intake, "bodymass.csv").rows_read == 0
    assert "leads out of the folder" in messages(intake, "bodymass.csv")[0]
    assert [one.name for one in find_lifters(squad)] == ["runa"]
    assert "leads out of the folder" in said(read_squad(squad)[1][0].message)
    code, _, _ = ran("write", squad, "--out", tmp_path / "out", "--jobs", "1", "--strict")
    assert code == 1
    assert "secret" not in (tmp_path / "out" / "runa.html").read_text()


def test_a_pipe_in_place_of_a_file_is_told_and_never_waited_for(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG)
    if not hasattr(os, "mkfifo"):
        pytest.skip("this system has no pipes by name")
    os.mkfifo(folder / "bodymass.csv")
    code, _, err = ran("write", folder, "--out", tmp_path / "out", "--jobs", "1", "--strict")
    assert code == 1
    assert "bodymass.csv is no file, expected a plain file" in err
    os.mkfifo(tmp_path / "page.html")
    code, _, err = ran("recover", tmp_path / "page.html")
    assert (code, "no file" in err) == (2, True)


def test_a_file_of_2_gb_is_not_read_whole(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG)
    with (folder / "bodymass.csv").open("wb") as file:
        file.truncate(2 * 2**30)
    intake = read_folder(folder)
    assert messages(intake, "bodymass.csv") == ["1: bodymass.csv is too large, expected at most 64 MB"]
    assert exit_code(intake) == 1
    with (tmp_path / "page.html").open("wb") as file:
        file.truncate(2 * 2**30)
    with pytest.raises(ArchiveProblem, match="larger than"):
        pages.page_text(tmp_path / "page.html")


def test_columns_beyond_all_measure_are_counted_and_refused(tmp_path: Path) -> None:
    head = "date,lift,kg,reps," + ",".join(f"c{n}" for n in range(COLUMNS))
    assert messages(read(tmp_path / "a", head + "\n2026-03-01,snatch,50,1\n")) == [
        f"1: training.csv has {COLUMNS // 1000}\u202f004 columns, expected at most 200"
    ]
    wide = LOG + "2026-03-02,snatch,50,1" + ",x" * COLUMNS + "\n"
    assert messages(read(tmp_path / "b", wide)) == [
        "3: 'x' stands beyond the last heading: a cell too many, as a comma in a number makes one"
    ]


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ("z = " + "[" * 20_000, "brackets inside brackets"),
        ("z = " + "[" * 200 + "]" * 200, "brackets inside brackets"),
        ("z = " + "{a=" * 200 + "1" + "}" * 200, "brackets inside brackets"),
        ("a." * 20_000 + "a = 1", "a key of too many parts"),
        ("[" + "a." * 20_000 + "a]", "a key of too many parts"),
        ("goal.x = 0x" + "f" * 20_000, "a number is too long"),
        ("z = " + "9" * 20_000, "a number is too long"),
        ("".join(f"[a{n}]\n" for n in range(60_000)), "longer than 256 kB"),
    ],
)
def test_toml_made_to_break_its_reader_is_refused_at_once(more: str, words: str, tmp_path: Path) -> None:
    start = time.monotonic()
    intake = read(tmp_path / "a", LOG, more + "\n" + TOML.replace("[[goal]]", "[[goals]]"))
    assert time.monotonic() - start < 5
    (problem,) = intake.fatal
    assert said(problem.message).startswith("lifter.toml is not TOML from here on")
    assert words in said(problem.message)


def carried(content: bytes, file: str = "training.csv", role: str = "source") -> str:
    packed = base64.b64encode(gzip.compress(content)).decode()
    digest = hashlib.sha256(content).hexdigest()
    place = f'data-role="{role}" data-file="{file}" data-sha256="{digest}"'
    return f'<a {place} href="data:application/gzip;base64,{packed}">x</a>'


def test_sources_that_unpack_without_end_are_refused_together(tmp_path: Path) -> None:
    # Ten files of 10 MB each stay under any bound of one file; what counts is the sum.
    bomb = "".join(carried(bytes(10 * 2**20), f"{n}.csv") for n in range(10))
    with pytest.raises(ArchiveProblem, match="unpacks to more than"):
        recover(bomb)
    (tmp_path / "page.html").write_text(bomb)
    code, _, err = ran("recover", tmp_path / "page.html", "--out", tmp_path / "to")
    assert (code, "unpacks to more than" in err) == (2, True)
    assert not (tmp_path / "to").exists()


@pytest.mark.parametrize(
    ("page", "words"),
    [
        (carried(b"[" * 100_000, role="facts"), "nested too deep"),
        (carried(b'{"as_of": NaN}', role="facts"), "NaN is no number"),
        (carried(b"1", "a") + carried(b"1", "a/b"), "as a file and as a folder"),
        (carried(b"1", "a/b") + carried(b"1", "a"), "as a file and as a folder"),
        (carried(b"1", "a\x1b[31m.csv"), "refused"),
        ("<![[s>" + carried(b"1"), "markup can't be read"),
        (carried(b"1", "../a.csv"), "leads out of the folder"),
        (carried(b"1", "/etc/a.csv"), "leads out of the folder"),
    ],
)
def test_a_page_made_to_harm_recover_gives_one_clear_line(page: str, words: str, tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text(page)
    code, _, err = ran("recover", tmp_path / "page.html", "--out", tmp_path / "to")
    assert code == 2
    assert words in err
    assert "\x1b" not in err
    assert not (tmp_path / "to").exists()


def test_recover_leaves_nothing_where_one_file_cannot_be_written(tmp_path: Path) -> None:
    page = carried(b"1", "a.csv") + carried(b"1", "x" * 300 + ".csv")  # a name too long for any disk
    (tmp_path / "page.html").write_text(page)
    code, _, err = ran("recover", tmp_path / "page.html", "--out", tmp_path / "to")
    assert (code, str(tmp_path / "to") in err) == (2, True)
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]


@pytest.mark.parametrize(
    ("template", "words"),
    [
        ("{{ ''.__class__.__mro__ }}", "'__class__' of 'str' object is unsafe"),
        ("{{ page.__init__.__globals__ }}", "'__init__' of 'Head' object is unsafe"),
        ("{{ say.__globals__ }}", "'__globals__' of 'function' object is unsafe"),
        ("{{ page|attr('__class__') }}", "'__class__' of 'Head' object is unsafe"),
        ("{{ '{0.__class__}'.format(page) }}", "'__class__' of 'Head' object is unsafe"),
        ("{{ 'x' * 9999999999 }}", "may not use * here"),
        ("{{ [0] * 999999999 }}", "may not use * here"),
        ("{{ 9**9**9 }}", "may not use ** here"),
        ("{% for a in range(999999999) %}{% endfor %}", "Range too big"),
        ("{% include 'dossier.html' %}", "includes itself without end"),
        ("{% include '../../../../etc/passwd' %}", "passwd is missing"),
        ("{% import 'os' as os %}{{ os.system('true') }}", "the template os is missing"),
        ("{{ page.name|safe }}", "No filter named 'safe'"),
    ],
)
def test_a_theme_that_tries_to_leave_its_sandbox_is_refused(
    template: str, words: str, tmp_path: Path
) -> None:
    (tmp_path / "dossier.html").write_text(template)
    start = time.monotonic()
    with pytest.raises(ThemeProblem) as problem:
        render_dossier(replace(sample.page("calm"), sections=()), theme=tmp_path)
    assert str(tmp_path) in str(problem.value)
    assert words in str(problem.value)
    assert time.monotonic() - start < 20


def test_a_theme_whose_page_grows_without_end_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(themes, "MOST_PAGE_LETTERS", 100_000)
    (tmp_path / "dossier.html").write_text(
        "{% for a in range(9999) %}{{ 'x' ~ a ~ 'yyyyyyyyyy' }}{% endfor %}"
    )
    with pytest.raises(ThemeProblem, match="grows beyond"):
        render_dossier(sample.page("calm"), theme=tmp_path, charts=sample.charts)


@pytest.mark.parametrize(
    "text", ["a = " + "[" * 20_000, "a = " + "9" * 9000, "light." + "a." * 7000 + "a = 1"]
)
def test_a_palette_made_to_break_its_reader_is_refused(text: str, tmp_path: Path) -> None:
    (tmp_path / "palette.toml").write_text(text)
    with pytest.raises(ThemeProblem, match=r"palette\.toml"):
        themes.load(tmp_path)


def test_a_theme_of_huge_files_is_refused(tmp_path: Path) -> None:
    with (tmp_path / "page.css").open("wb") as file:
        file.truncate(2 * 2**30)
    with pytest.raises(ThemeProblem, match="larger than"):
        themes.files(tmp_path)
    with pytest.raises(ThemeProblem, match="larger than"):
        themes.load(tmp_path).text("page.css")


def test_letters_of_other_scripts_are_not_written_out() -> None:
    assert shown("Łucja Ångström 🏋🏽‍♀️ שלום\u00a0x") == "Łucja Ångström 🏋🏽‍♀️ שלום\u00a0x"
    assert shown("a\x1b[2J\u202eb\n\udcff") == "a\\x1b[2J\\x202eb\\x0a\\udcff"
