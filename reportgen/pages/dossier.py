"""One dossier page: page data and drawings go into a theme, one HTML text comes out."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any, ClassVar, Literal, TypeGuard, TypeVar

from markupsafe import Markup

from reportgen.charts import Palette
from reportgen.charts import spec as draw
from reportgen.model.values import dataclass
from reportgen.pages import assets, drawing, listing
from reportgen.pages.phrases import phrase
from reportgen.pages.policy import policy
from reportgen.pages.stamp import Stamp, line_text
from reportgen.pages.store import Store
from reportgen.pages.themes import BUILT_IN, Theme, load, markup
from reportgen.view.page import Block, Figure, Finding, Head, Page, Picture, Table
from reportgen.view.reader import plain
from reportgen.words import Phrase

Shown = TypeVar("Shown", bound=Block | Head)
#: A figure as Vega-Lite; the default is `reportgen.charts.draw` in the palette of style variables.
Charts = Callable[[Picture], Mapping[str, Any]]

#: Runs before the body is read: what needs the script shows from the first paint on, and nothing moves later.
FIRST_SCRIPT = 'document.documentElement.classList.add("scripted")'


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """A file that the page carries along, to be saved from it with or without script."""

    name: str  # file name it is saved under
    label: str  # what a reader sees
    media_type: str  # such as application/gzip
    base64: str  # its bytes, packed
    sha256: str  # hex digest of the file's own bytes, before they were packed
    file: str = ""  # path it had, relative to the lifter's folder, with forward slashes
    size: int = 0  # length of the file's own bytes
    role: str = "source"  # what it is to the dossier: source or facts


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


def render_dossier(
    page: Page,
    *,
    theme: str | Path = BUILT_IN,
    other_unit: Page | None = None,
    extras: Iterable[Extra] = (),
    stamp: Stamp | None = None,
    charts: Charts | None = None,
    store: Path | None = None,
) -> str:
    """The whole HTML of one dossier; the same arguments give the same text.

    Args:
        page: What it says.
        theme: Name of a built-in theme or a folder.
        other_unit: The same page viewed in the other unit of weight.
        extras: Files to carry along.
        stamp: What it was made from, and its line in a squad's index.
        charts: Draws a figure as Vega-Lite, instead of `reportgen.charts`.
        store: A folder where drawings are kept for the next time; the text is the same without.

    Raises:
        ThemeProblem: The theme fails; names its file and line.
        ValueError: Two figures share an id, or a chart can't be drawn.
    """
    used = load(theme)
    extras = tuple(extras)
    unit = page.head.unit
    make = charts or partial(draw, palette=Palette())
    figures = _figures(page)
    if len({f.id for f in figures}) != len(figures):
        raise ValueError("two figures share an id")
    kept, others = Store(store), [] if other_unit is None else _figures(other_unit)
    drawn = _drawn(figures, others, make, kept)
    lives = {name: live for name, (_, live) in drawn.items()}
    smalls = _small_lives(page, other_unit, make, kept)
    values = {
        **frame(
            used,
            title=page.title,
            running_head=(f"{page.head.name} · {plain(page.head.goal, unit)}", page.head.as_of),
            stamp=stamp,
            carried=str(listing.mark((one.role, one.file, one.sha256) for one in extras)),
        ),
        "page": _without_tables(page.head),
        "picture": next((_drawn_as(f, drawn[f.id][0]) for f in figures if _beside(f, page)), None),
        "sections": tuple(_shown(page, drawn)),
        "stills": {one.id: drawing.still(make(one), one.id, kept=kept) for one in _smalls(page)},
        "footer": page.footer,
        "extras": extras,
        "charts": markup(assets.packed_charts(lives | smalls, _otherwise(page, other_unit))),
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
    own = assets.script(theme, scripts)
    return {
        "title": title,
        "made_from": stamp.text if stamp is not None else "",
        "squad_line": line_text(stamp) if stamp is not None else "",
        "carried": carried,
        "icon": assets.icon(),
        "style": markup(style),
        "first_script": markup(FIRST_SCRIPT),
        "script": markup(own),
        "runtime": markup(assets.packed_runtime()),
        "licences": assets.licences(),
        "policy": policy(scripts=(FIRST_SCRIPT, own, assets.runtime()), styles=(style,)),
    }


def _drawn(
    figures: list[Figure], others: list[Figure], make: Charts, kept: Store
) -> dict[str, tuple[drawing.Drawing, tuple[str, ...]]]:
    """Every figure drawn, and its compiled chart, with a twin in the other unit where that differs."""
    units = {figure.id: figure for figure in others}
    made: dict[str, tuple[drawing.Drawing, tuple[str, ...]]] = {}
    for figure in figures:
        twin, calendar = units.get(figure.id, figure), figure.over_time
        one = drawing.drawn(make(figure), figure.id, over_time=calendar, kept=kept)
        lives = [one.live]
        if not _same(figure, twin):
            lives.append(drawing.compiled(make(twin), over_time=calendar, kept=kept))
        made[figure.id] = one, tuple(lives)
    return made


def _small_lives(
    page: Page, other_unit: Page | None, make: Charts, kept: Store
) -> dict[str, tuple[str, ...]]:
    """The small pictures compiled, with a twin in the other unit where that differs."""
    twins = {} if other_unit is None else {one.id: one for one in _smalls(other_unit)}
    return {
        one.id: tuple(
            drawing.compiled(make(each), over_time=False, kept=kept)
            for each in (one, twins.get(one.id, one))
            if each is one or not _same(one, each)
        )
        for one in _smalls(page)
    }


def _otherwise(page: Page, other_unit: Page | None) -> dict[str, str]:
    """The summaries of its figures and small pictures in the other unit, by id, where they differ."""
    own, other = (
        {one.id: one.summary for one in (*_figures(made), *_smalls(made))}
        for made in (page, other_unit or page)
    )
    return {name: said for name, said in other.items() if name in own and said != own[name]}


def _shown(page: Page, drawn: Mapping[str, tuple[drawing.Drawing, object]]) -> Iterator[dict[str, Any]]:
    """Sections as a template may see them: figures drawn, what stands open apart from what is folded."""
    for section in page.sections:
        here = [(n, one) for n, one in enumerate(section.blocks) if not _beside(one, page)]
        blocks = [
            (n, _drawn_as(b, drawn[b.id][0]) if isinstance(b, Figure) else _without_tables(b))
            for n, b in here
        ]
        upto = len(section.blocks) if section.open is None else section.open
        yield {
            "id": section.id,
            "title": section.title,
            "lead": section.lead,
            "blocks": tuple(one for n, one in blocks if n < upto),
            "folded": tuple(one for n, one in blocks if n >= upto),
            "more": section.more,
        }


def _without_tables(part: Shown) -> Shown:
    """A finding or the head, its small picture without what it was drawn from."""
    if not isinstance(part, Finding | Head) or part.small is None:
        return part
    return replace(part, small=replace(part.small, data={}, options=None))


def _beside(block: Block, page: Page) -> TypeGuard[Figure]:
    """Whether it stands in the head, not in its section."""
    return isinstance(block, Figure) and block.id == page.head.figure


def _drawn_as(figure: Figure, drawn: drawing.Drawing) -> ShownFigure:
    words = {name: getattr(figure, name) for name in ("id", "title", "sentence", "summary", "table")}
    return ShownFigure(**words, wide=drawn.wide, narrow=drawn.narrow, over_time=drawn.over_time)


def _same(one: Picture, two: Picture) -> bool:
    """Whether two figures draw the same chart: most of those that print no weights do."""
    return (
        one.options == two.options
        and one.data.keys() == two.data.keys()
        and all(frame.equals(two.data[name]) for name, frame in one.data.items())
    )


def _figures(page: Page) -> list[Figure]:
    return [block for section in page.sections for block in section.blocks if isinstance(block, Figure)]


def _smalls(page: Page) -> list[Picture]:
    """The small pictures of its findings; the head's is the first of them."""
    return [
        block.small
        for section in page.sections
        for block in section.blocks
        if isinstance(block, Finding) and block.small is not None
    ]
