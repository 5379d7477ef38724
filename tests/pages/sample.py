"""An invented page with eleven figures, for the tests of pages and of the browser."""

import datetime as dt
import math
from collections.abc import Mapping
from typing import Any

import altair as alt
import pandas as pd
from markupsafe import Markup

from reportgen.model.look import Look
from reportgen.pages import render_dossier
from reportgen.view.options import Level, Levels
from reportgen.view.page import (
    Block,
    Cell,
    Figure,
    Finding,
    Head,
    Page,
    Paragraph,
    Picture,
    Points,
    Prose,
    Section,
    SquadLine,
    SquadPage,
    SquadRow,
    Table,
)
from reportgen.words import Phrase, Weight
from tests import kept

FIRST = dt.date(2025, 3, 3)
KG_PER_LB = 0.45359237


def _in(kg: float, unit: str) -> float:
    return round(kg if unit == "kg" else kg / KG_PER_LB, 2)


def _levels(unit: str, label: str) -> Levels:
    return Levels(unit="lb" if unit == "lb" else "kg", goal=Level(at=_in(64, unit), label=label))


def table(caption: str, rows: int = 6, *, folded: bool = True, word: str = "training") -> Table:
    return Table(
        caption=caption,
        head=("day", "lift", "load", "how"),
        rows=tuple(
            (
                Cell((f"{d + 1} Mar 2026",)),
                Cell(("snatch",)),
                Cell((Weight(50.0 + d / 2),), number=True),
                Cell((word,), tone="missed" if d == 2 else "made"),
            )
            for d in range(rows)
        ),
        folded=folded,
    )


def running(name: str, title: str, unit: str, word: str) -> Figure:
    days = [FIRST + dt.timedelta(days=7 * n) for n in range(52)]
    loads = [48 + 10 * (1 - math.exp(-n / 18)) for n in range(52)]
    frame = pd.DataFrame(
        {"date": pd.to_datetime(days), "weight": [_in(round(x * 2) / 2, unit) for x in loads]}
    )
    frame["mark"] = ["missed" if n % 9 == 4 else "made" for n in range(52)]
    frame["reading"] = [
        f"{d:%-d %b %Y}: snatch {w} {unit}, {word}" for d, w in zip(days, frame["weight"], strict=True)
    ]
    return Figure(
        id=name,
        title=title,
        sentence=(
            "The best snatch rose by ",
            Weight(9.5, True),
            " to ",
            Weight(57.5),
            f" since 3 Mar 2025; {word}.",
        ),
        summary="A line that steps up with each new best.",
        chart="running",
        data={"rows": frame},
        options=_levels(unit, f"goal {word}"),
        table=table(f"{title}, day by day ({word})", word=word),
        over_time=True,
    )


def ranges(name: str, title: str, unit: str, word: str) -> Figure:
    lifts = ["back squat", "power snatch", "low hang snatch", "snatch balance", word]
    frame = pd.DataFrame(
        {
            "lift": lifts,
            "low": [_in(55 + n, unit) for n in range(5)],
            "high": [_in(63 + 1.5 * n, unit) for n in range(5)],
            "reading": [f"{lift}: is enough for so much" for lift in lifts],
        }
    )
    return Figure(
        id=name,
        title=title,
        sentence=("The back squat lies ", Weight(3.5), " under what usually goes with this goal."),
        summary="One bar a lift over the goal lift.",
        chart="ranges",
        data={"rows": frame},
        options=_levels(unit, "goal"),
        table=table(f"{title} in figures"),
    )


def weeks(name: str, title: str, unit: str, word: str) -> Figure:
    starts = [FIRST + dt.timedelta(days=7 * n) for n in range(52)]
    rows = [
        {
            "week": pd.Timestamp(d),
            "kind": kind,
            "sessions": (n * k + n) % 3,
            "reading": f"{d:%-d %b %Y}: {kind}, {word}",
        }
        for n, d in enumerate(starts)
        for k, kind in ((2, "full lift"), (3, "derivative only"))
    ]
    return Figure(
        id=name,
        title=title,
        sentence=("In 9 of 52 weeks the snatch from the floor was not trained at all.",),
        summary="One bar a week.",
        chart="weeks",
        data={"rows": pd.DataFrame(rows)},
        table=table(f"{title} in figures"),
        over_time=True,
    )


def rates(name: str, title: str, unit: str, word: str) -> Figure:
    zones = ["under 70 %", "70 to 80 %", "80 to 90 %", "90 % and over"]
    frame = pd.DataFrame(
        {
            "zone": zones,
            "rate": [0.99, 0.95, 0.84, 0.57],
            "low": [0.97, 0.9, 0.75, 0.42],
            "high": [1.0, 0.98, 0.9, 0.71],
            "reading": [f"{z}: made so many, {word}" for z in zones],
        }
    )
    return Figure(
        id=name,
        title=title,
        sentence=("From 90 % up more than two in five are missed, most of them forward.",),
        summary="One mark a zone with its interval.",
        chart="rates",
        data={"rows": frame},
        table=table(f"{title} in figures"),
    )


def charts(figure: Picture) -> Mapping[str, Any]:
    """Draw a sample figure as Vega-Lite, in the colours of the page's style."""
    rows = figure.data["rows"]
    base = alt.Chart(rows)
    say = alt.Tooltip("reading:N")
    text_axis = alt.Axis(title=None, grid=False, domain=False, ticks=False)
    chart: Any
    if figure.chart == "running":
        goal = figure.given(Levels).goal
        assert goal is not None
        rule = alt.Chart(pd.DataFrame({"goal": [goal.at]}))
        chart = alt.layer(
            base.mark_line(interpolate="step-after", color="var(--made)").encode(
                x=alt.X("date:T", title=None),
                y=alt.Y("weight:Q", title=figure.given(Levels).unit).scale(zero=False),
            ),
            base.mark_point(size=36, filled=True, opacity=1).encode(
                x="date:T",
                y="weight:Q",
                color=alt.Color("mark:N", legend=None).scale(
                    domain=["made", "missed"], range=["var(--made)", "var(--missed)"]
                ),
                tooltip=say,
            ),
            rule.mark_rule(color="var(--goal)", strokeDash=[6, 3], strokeWidth=2).encode(y="goal:Q"),
            rule.mark_text(text=goal.label, align="left", dy=-7, color="var(--goal)").encode(
                x=alt.value(2), y="goal:Q"
            ),
        ).properties(height=220)
    elif figure.chart == "ranges":
        chart = (
            base.mark_bar(height=10, color="var(--step-3)")
            .encode(
                x=alt.X("low:Q", title=figure.given(Levels).unit).scale(zero=False),
                x2="high:Q",
                y=alt.Y("lift:N", axis=text_axis),
                tooltip=say,
            )
            .properties(height=190)
        )
    elif figure.chart == "weeks":
        chart = (
            base.mark_bar()
            .encode(
                x=alt.X("week:T", title=None),
                y=alt.Y("sessions:Q", title="sessions"),
                color=alt.Color("kind:N", legend=alt.Legend(orient="top", title=None)).scale(
                    range=["var(--series-1)", "var(--step-3)"]
                ),
                tooltip=say,
            )
            .properties(height=150)
        )
    else:
        chart = alt.layer(
            base.mark_rule(color="var(--muted)").encode(
                x=alt.X("low:Q", title="made of tried"), x2="high:Q", y="zone:N"
            ),
            base.mark_point(filled=True, size=60, opacity=1, color="var(--made)").encode(
                x="rate:Q", y=alt.Y("zone:N", axis=text_axis, sort=None), tooltip=say
            ),
        ).properties(height=150)
    drawn: dict[str, Any] = (
        chart.configure_axis(
            labelColor="var(--muted)",
            titleColor="var(--muted)",
            gridColor="var(--grid)",
            domainColor="var(--rule)",
            tickColor="var(--rule)",
            labelFontSize=12,
            titleFontSize=12,
            titleFontWeight="normal",
        )
        .configure_legend(labelColor="var(--ink)", labelFontSize=12)
        .configure_text(fontSize=12)
        .configure_view(stroke=None)
        .to_dict()
    )
    return drawn


MAKERS = (running, ranges, weeks, rates)


def section(n: int, title: str, *blocks: Block, lead: Phrase = ()) -> Section:
    return Section(id=f"part-{n}", title=title, lead=lead, blocks=blocks)


TITLES = (
    "Running best against the goal",
    "What it is enough for",
    "How often it was trained",
    "Made of tried",
    "Body mass",
    "Where the goal weight has been",
    "Load by week",
    "Misses by kind",
    "Weeks before each test day",
    "Positions",
    "How much of the squat reaches the bar",
)


def findings(word: str) -> tuple[Finding, Finding]:
    first = Finding(
        id="need-1",
        rank=1,
        area="skill",
        claim=("The power snatch lies ", Weight(4.0), f" under what usually goes with this goal ({word})."),
        at_stake=(Weight(4.0), " of the goal lift"),
        confidence="fair",
        evidence=(
            (("Power snatch ", Weight(46.0), " on 12 Feb 2026"), f"training.csv, line 812 {word}", "#part-2"),
            (("Eleven of fourteen misses forward",), "training.csv, lines 640 to 911", "#part-3"),
        ),
        settle=("A power snatch tested on a day of its own.",),
        caution=("Do not test it tired.",),
        conflicts=(("The low hang snatch says otherwise.",),),
        figure="part-2",
    )
    second = Finding(
        id="need-2",
        rank=2,
        area="programming",
        claim=("No single at 90 % or more for five weeks.",),
        at_stake=(),
        confidence="high",
        evidence=((("Last heavy single on 24 Jan 2026",), "training.csv, line 866", ""),),
        settle=("Two heavy singles in the next block.",),
    )
    return first, second


def head(word: str, unit: str) -> Head:
    return Head(
        name=f"Maren Holt {word}" if word != "in training" else "Maren Holt",
        edition="review",
        goal=("snatch ", Weight(64.0)),
        present=(Weight(58.0), " on 21 Feb 2026"),
        gap=(Weight(6.0),),
        sentence=(
            "The squat is strong enough for the goal; what holds the snatch back is speed under the bar, and "
            "no single near the limit for five weeks.",
        ),
        as_of="1 March 2026",
        span="3 March 2025 to 1 March 2026, 4 870 sets",
        unit="lb" if unit == "lb" else "kg",
        alerts=((f"Open pain: left wrist since 20 Feb 2026, {word}. Nothing is proposed for it.",),),
    )


def page(word: str = "in training", unit: str = "kg") -> Page:
    """A whole page; `word` stands wherever a file's own words may stand."""
    made = [MAKERS[n % 4](f"figure-{n}", title, unit, word) for n, title in enumerate(TITLES)]
    stands: Phrase = ("The goal is a snatch of ", Weight(64.0), ". The present best is ", Weight(58.0), ".")
    note = Prose(
        title=f"Screening {word}",
        when="3 Feb 2026",
        label="screening",
        html=Markup("<p>Ankles <strong>better</strong>.</p><h4>Next</h4><ul><li>wrists</li></ul>"),
    )
    return Page(
        title=f"{word} Maren Holt, snatch",
        head=head(word, unit),
        sections=(
            section(1, "Where the lift stands", made[0], table("Heaviest of the last weeks"), lead=stands),
            section(
                2, "What carries the goal", made[1], Paragraph(text=(f"Not tested: overhead squat, {word}.",))
            ),
            section(3, "What to work on", *findings(word), lead=("Ranked by how many sources agree.",)),
            section(4, "How often it was trained", *made[2:5]),
            section(5, "Loads and misses", *made[5:8]),
            section(6, "Test days and tapers", made[8]),
            section(7, "Positions and technique", *made[9:], table("Checkpoints", folded=False)),
            section(
                8,
                "Next block",
                Points(items=(("Two full sessions a week",), (Weight(50.0), " to start")), numbered=True),
                Paragraph(text=("This is a proposal to a coach.",), tone="caution"),
            ),
            section(9, "Notes", note),
            section(10, "What was read", table("Rows read, used and set aside", folded=False)),
        ),
        footer=("Written from the lifter's own files. Not medical advice.",),
    )


def html(word: str = "in training") -> str:
    """The page as it is written, in both units."""
    both = page(word), page(word, "lb")
    return kept.once(f"sample {word}", lambda: render_dossier(both[0], other_unit=both[1], charts=charts))


def squad(word: str = "speed under the bar") -> SquadPage:
    def row(n: int, name: str) -> SquadRow:
        line = SquadLine(
            name=name,
            href=f"{name[:5].lower()}.html",
            goal=("snatch ", Weight(60.0 + n)),
            present=(Weight(55.0 + n),),
            gap=(Weight(5.0 - n),),
            first_need=word if n else "no heavy singles",
            rows_set_aside=n,
            look=Look(as_of=dt.date(2026, 3, 1), last=dt.date(2026, 2, 20 + n)),
            goal_kg=60.0 + n,
            gap_kg=5.0 - n,
            best=(("2025-03-03", 50.0), ("2025-07-01", 52.0 + n), ("2026-02-20", 55.0 + n)),
            unit="lb" if n == 2 else "kg",
        )
        return SquadRow(
            line=line,
            why=(f"Retest due: {word}.",) if n == 0 else (),
            days=60 - 20 * n,
            by="10 Apr 2026",
            sessions="7 of 8 planned",
            last=f"{20 + n} Feb 2026",
            ago=9 - n,
            need=word if n else "no heavy singles",
            area="technique" if n else "programming",
        )

    return SquadPage(
        title="Squad of the north hall",
        coach="Ana Varga",
        rows=tuple(row(n, name) for n, name in enumerate(("Maren Holt", "Ilse Brandt", "Tomas Lind"))),
        failed=(("jonas", "training.csv is empty"),),
        first=dt.date(2025, 3, 1),
        last=dt.date(2026, 3, 1),
        weeks=2,
    )
