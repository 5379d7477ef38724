"""A theme from outside prints what was decided, reaches nothing else, and names its mistakes."""

import shutil
from pathlib import Path

import pytest

from reportgen.pages import ThemeProblem, places, render_dossier, themes
from tests.pages import sample

BUILT_IN = places.data("themes") / "plain"
SMALL = sample.page().__class__(title="Small", head=sample.page().head, sections=(), footer=())


def own(tmp_path: Path, **files: str) -> Path:
    folder = tmp_path / "own"
    folder.mkdir()
    for name, text in files.items():
        (folder / name.replace("__", ".")).write_text(text, encoding="utf-8")
    return folder


def test_one_file_of_ones_own_takes_the_place_of_ours(tmp_path: Path) -> None:
    folder = own(tmp_path, page__css="body { margin: 1px }")
    page = render_dossier(SMALL, theme=folder)
    assert "body{margin:1px}" in page
    assert 'class="verdict"' in page  # the templates are still ours


def test_a_palette_of_ones_own_may_change_one_colour(tmp_path: Path) -> None:
    theme = themes.load(own(tmp_path, palette__toml='[light]\ngoal = "#123456"\n'))
    assert theme.palette["light"]["goal"] == "#123456"
    assert theme.palette["light"]["made"] == themes.load().palette["light"]["made"]
    assert theme.palette["dark"]["goal"] == themes.load().palette["dark"]["goal"]


@pytest.mark.parametrize(
    ("file", "text", "place"),
    [
        ("dossier__html", "{% if %}", "dossier.html:1"),
        ("dossier__html", "fine\n\n{{ page.nothing_like_it }}", "dossier.html:3"),
        ("dossier__html", "\n{{ say(3) }}", "dossier.html:2"),
        ("page__css", "a {}\nb { background: url(http://x.invalid/a.png) }", "page.css:2"),
        ("page__css", "@import 'x.css';", "page.css:1"),
        ("page__css", "\n\n</style><script>alert(1)</script>", "page.css:3"),
        ("page__js", "\nlet x = '</script>';", "page.js:2"),
        ("palette__toml", "[light]\ngoal = 'red; } body { display: none'\n", "palette.toml"),
        ("palette__toml", "[light\n", "palette.toml"),
        ("palette__toml", "[noon]\ngoal = '#123456'\n", "palette.toml"),
    ],
)
def test_a_theme_that_fails_names_its_file_and_line(file: str, text: str, place: str, tmp_path: Path) -> None:
    folder = own(tmp_path, **{file: text})
    with pytest.raises(ThemeProblem) as problem:
        render_dossier(SMALL, theme=folder)
    assert str(folder / place) in str(problem.value)


@pytest.mark.parametrize(
    "text",
    [
        "{{ ''.__class__.__mro__ }}",
        "{{ say.__globals__ }}",
        "{{ page.__init__.__globals__ }}",
        "{{ self._TemplateReference__context }}",
        "{{ sections.__class__ }}",
        "{{ page.name | safe }}",
        "{{ cycler.__init__.__globals__.os.popen('id').read() }}",
    ],
)
def test_a_template_reaches_nothing_but_the_page(text: str, tmp_path: Path) -> None:
    with pytest.raises(ThemeProblem):
        render_dossier(SMALL, theme=own(tmp_path, dossier__html=text))


def test_a_template_sees_no_table_that_it_could_write_somewhere(tmp_path: Path) -> None:
    folder = own(tmp_path, dossier__html="{{ sections[0].blocks[0].data }}")
    with pytest.raises(ThemeProblem, match="has no attribute 'data'"):
        render_dossier(sample.page(), theme=folder, charts=sample.charts)


def test_a_template_reads_no_file_out_of_its_folder(tmp_path: Path) -> None:
    (tmp_path / "secret.html").write_text("secret")
    with pytest.raises(ThemeProblem, match="missing"):
        render_dossier(SMALL, theme=own(tmp_path, dossier__html="{% include '../secret.html' %}"))


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "secret.html").write_text("secret")
    folder = own(tmp_path, dossier__html="{% include 'note.html' %}")
    try:
        (folder / "note.html").symlink_to(tmp_path / "secret.html")
    except OSError:
        pytest.skip("this system makes no links")
    with pytest.raises(ThemeProblem):
        render_dossier(SMALL, theme=folder)


def test_a_theme_that_is_not_there_is_a_problem() -> None:
    with pytest.raises(ThemeProblem, match="no such theme"):
        themes.load("no-such-theme")


def test_a_whole_copy_of_ours_gives_the_same_page(tmp_path: Path) -> None:
    shutil.copytree(BUILT_IN, tmp_path / "copy")
    assert render_dossier(SMALL, theme=tmp_path / "copy") == render_dossier(SMALL)


def test_a_style_of_ones_own_can_be_added_to_ours(tmp_path: Path) -> None:
    page = render_dossier(SMALL, theme=own(tmp_path, extra__css="body { margin: 1px }"))
    assert ".verdict{" in page
    assert page.index(".verdict{") < page.index("body{margin:1px}")


def test_an_added_style_may_not_fetch_either(tmp_path: Path) -> None:
    with pytest.raises(ThemeProblem, match=r"extra\.css:1"):
        render_dossier(SMALL, theme=own(tmp_path, extra__css="@import 'x.css';"))


def test_the_archive_theme_prints_the_sums_and_keeps_the_charts_letters() -> None:
    folder = places.data("themes") / "archive"
    assert {path.name for path in folder.iterdir()} == {"extra.css", "palette.toml"}
    page = render_dossier(SMALL, theme="archive")
    assert "--book:Georgia" in page
    assert ".chart text, .reading, .mark{font-family:var(--text);}" in page
    assert "--made:#1f3a5c" in page
