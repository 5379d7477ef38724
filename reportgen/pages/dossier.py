"""One dossier page: page data and drawings go into a theme, one HTML text comes out."""

from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import Executor, Future
from dataclasses import dataclass
from pathlib import Path
from typing import Any, ClassVar, Literal

from markupsafe import Markup

from reportgen.pages import assets, drawing, listing
from reportgen.pages.phrases import phrase
from reportgen.pages.policy import policy
from reportgen.pages.stamp import Stamp, line_text
from reportgen.pages.themes import BUILT_IN, Theme, load, markup
from reportgen.pages.write import write
from reportgen.view.page import Block, Figure, Page, Table
from reportgen.view.reader import plain
from reportgen.words import Phrase

#: A figure as Vega-Lite; the default is `reportgen.charts.draw` in the palette of style variables.
Charts = Callable[[Figure], Mapping[str, Any]]

#: Runs before the body is read: what needs the script shows from the first paint on, and nothing moves later.
FIRST_SCRIPT = 'document.documentElement.classList.add("scripted")'


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """A file that the page carries along, to be saved from it with or without script.

    Attributes:
        name: File name it is saved under.
        label: What a reader sees.
        media_type: Such as application/gzip.
        base64: Its bytes, packed.
        sha256: Hex digest of the file's own bytes, before they were packed.
        file: Path it had, relative to the lifter's folder, with forward slashes.
        size: Length of the file's own bytes.
        role: What it is to the dossier: source or facts.
    """

    name: str
    label: str
    media_type: str
    base64: str
    sha256: str
    file: str = ""
    size: int = 0
    role: str = "source"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownFigure:
    """A figure as a template may see it: words and pictures, none of the tables behind them."""

    kind: ClassVar[Literal["figure"]] = "figure"
    id: str
    title: str
    sentence: Phrase
    summary: str
    table: Table
    wide: Markup
    narrow: Markup
    over_time: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownSection:
    """A section with its figures drawn."""

    id: str
    title: str
    lead: Phrase
    blocks: tuple[Block | ShownFigure, ...]


def write_dossier(
    page: Page,
    out: Path,
    *,
    theme: str | Path = BUILT_IN,
    other_unit: Page | None = None,
    extras: Iterable[Extra] = (),
    stamp: Stamp | None = None,
    helper: Executor | None = None,
) -> None:
    """Render a dossier and put it in its place, whole or not at all.

    Args:
        page: What it says.
        out: The HTML file.
        theme: Name of a built-in theme or a folder.
        other_unit: The same page viewed in the other unit of weight; with it charts follow the unit switch.
        extras: Files to carry along.
        stamp: What it was made from, and its line in a squad's index.
        helper: A second process that draws half of the figures; the page is the same without.

    Raises:
        WriteProblem: The file could not be written; an older one still stands.
        ThemeProblem: The theme fails; names its file and line.
    """
    html = render_dossier(page, theme=theme, other_unit=other_unit, extras=extras, stamp=stamp, helper=helper)
    write(out, html)


def render_dossier(
    page: Page,
    *,
    theme: str | Path = BUILT_IN,
    other_unit: Page | None = None,
    extras: Iterable[Extra] = (),
    stamp: Stamp | None = None,
    charts: Charts | None = None,
    helper: Executor | None = None,
) -> str:
    """The whole HTML of one dossier; the same arguments give the same text.

    Args:
        page: What it says.
        theme: Name of a built-in theme or a folder.
        other_unit: The same page viewed in the other unit of weight.
        extras: Files to carry along.
        stamp: What it was made from, and its line in a squad's index.
        charts: Draws a figure as Vega-Lite, instead of `reportgen.charts`.
        helper: A second process that draws half of the figures.

    Raises:
        ThemeProblem: The theme fails; names its file and line.
        ValueError: Two figures share an id, or a chart can't be drawn.
    """
    used = load(theme)
    extras = tuple(extras)
    unit = page.head.unit
    make = charts or _our_charts()
    figures = _figures(page)
    if len({f.id for f in figures}) != len(figures):
        raise ValueError("two figures share an id")
    twins = _twins(figures, other_unit, make, helper) if helper is not None else None
    drawn = _drawn(figures, make, helper)
    if twins is None:
        twins = _twins(figures, other_unit, make, None)
    values = {
        **frame(
            used,
            title=page.title,
            running_head=(f"{page.head.name} · {plain(page.head.goal, unit)}", page.head.as_of),
            stamp=stamp,
            carried=str(listing.mark((one.role, one.file, one.sha256) for one in extras)),
        ),
        "page": page.head,
        "sections": tuple(_shown(page, drawn)),
        "footer": page.footer,
        "extras": extras,
        "charts": markup(assets.packed_charts(_live(drawn, twins))),
        "say": lambda parts: phrase(parts, unit),
    }
    html = used.render("dossier.html", values)
    return html if stamp is None else stamp.sized(html)


def frame(
    theme: Theme,
    *,
    title: str,
    running_head: tuple[str, str] | None,
    scripts: tuple[str, ...] = ("unpack.js", "answers.js", "page.js"),
    stamp: Stamp | None = None,
    carried: str = "",
) -> dict[str, Any]:
    """What every page of a theme needs around its words: style, scripts, policy, icon.

    Args:
        theme: Whose page it is.
        title: The document's title.
        running_head: Left and right words on top of each printed page; None for none.
        scripts: The theme's scripts for this kind of page; they become one.
        stamp: What it was made from; None leaves it out.
        carried: The mark over the list of files that it carries; empty leaves it out.
    """
    style = assets.style(theme, running_head=running_head or ())
    own = "\n".join(map(theme.text, scripts))
    return {
        "title": title,
        "made_from": stamp.text if stamp is not None else "",
        "squad_line": line_text(stamp.line) if stamp is not None else "",
        "carried": carried,
        "icon": assets.icon(),
        "style": markup(style),
        "first_script": markup(FIRST_SCRIPT),
        "script": markup(own),
        "runtime": markup(assets.packed_runtime()),
        "licences": assets.licences(),
        "policy": policy(scripts=(FIRST_SCRIPT, own, assets.runtime()), styles=(style,)),
    }


def _our_charts() -> Charts:
    from reportgen import charts

    palette = charts.Palette()
    return lambda figure: charts.spec(figure, palette)


def _drawn(figures: list[Figure], make: Charts, helper: Executor | None) -> dict[str, drawing.Drawing]:
    """Every figure drawn, in order; every other one by the helper where there is one."""
    waiting: dict[str, Future[drawing.Drawing]] = {}
    mine = []
    for place, figure in enumerate(figures):
        spec = make(figure)
        if helper is not None and place % 2:
            waiting[figure.id] = helper.submit(drawing.draw, spec, figure.id, over_time=figure.over_time)
        else:
            mine.append((figure, spec))
    drawn = {figure.id: drawing.draw(spec, figure.id, over_time=figure.over_time) for figure, spec in mine}
    drawn |= {name: future.result() for name, future in waiting.items()}
    return {figure.id: drawn[figure.id] for figure in figures}


def _shown(page: Page, drawn: Mapping[str, drawing.Drawing]) -> Iterable[ShownSection]:
    for section in page.sections:
        blocks = tuple(_shown_figure(b, drawn[b.id]) if isinstance(b, Figure) else b for b in section.blocks)
        yield ShownSection(id=section.id, title=section.title, lead=section.lead, blocks=blocks)


def _shown_figure(figure: Figure, drawn: drawing.Drawing) -> ShownFigure:
    return ShownFigure(
        id=figure.id,
        title=figure.title,
        sentence=figure.sentence,
        summary=figure.summary,
        table=figure.table,
        wide=drawn.wide,
        narrow=drawn.narrow,
        over_time=drawn.over_time,
    )


def _twins(
    figures: Iterable[Figure], other: Page | None, make: Charts, helper: Executor | None
) -> dict[str, Future[str] | str]:
    """The compiled charts that differ in the other unit, without a picture; by the helper if there is one."""
    others = {} if other is None else {figure.id: figure for figure in _figures(other)}
    found: dict[str, Future[str] | str] = {}
    for figure in figures:
        twin = others.get(figure.id)
        if twin is None or _same(figure, twin):
            continue
        spec = make(twin)
        if helper is not None:
            found[figure.id] = helper.submit(drawing.compile_only, spec, over_time=twin.over_time)
        else:
            found[figure.id] = drawing.compile_only(spec, over_time=twin.over_time)
    return found


def _live(
    drawn: Mapping[str, drawing.Drawing], twins: Mapping[str, Future[str] | str]
) -> dict[str, tuple[str, ...]]:
    """Every compiled chart, and its twin in the other unit where there is one."""
    live: dict[str, tuple[str, ...]] = {}
    for name, one in drawn.items():
        twin = twins.get(name)
        text = twin.result() if isinstance(twin, Future) else twin
        live[name] = (one.live,) if text is None else (one.live, text)
    return live


def _same(one: Figure, two: Figure) -> bool:
    """Whether two figures draw the same chart: most of those that print no weights do."""
    return (
        one.options == two.options
        and one.data.keys() == two.data.keys()
        and all(frame.equals(two.data[name]) for name, frame in one.data.items())
    )


def _figures(page: Page) -> list[Figure]:
    return [block for section in page.sections for block in section.blocks if isinstance(block, Figure)]
