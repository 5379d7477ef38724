"""One palette of roles; its values are CSS variables, so that light, dark and print come from the page."""

from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """A colour for each role; every value is something that SVG takes as a colour.

    Attributes:
        ink: Text and the lines that matter.
        muted: Axis text and what stands back.
        grid: Grid lines, axes, baselines.
        ground: The page behind the chart.
        goal: The goal: always a long dashed line.
        made: Made lifts: always a filled dot.
        missed: Missed lifts: always a cross.
        test: Test days: always an open diamond.
        taper: Tapers: always a soft band.
        gap: Time or data that is missing: always a light ground.
        series: Kinds without an order.
        steps: Kinds with an order, weakest first.
    """

    ink: str = "var(--ink)"
    muted: str = "var(--muted)"
    grid: str = "var(--grid)"
    ground: str = "var(--ground)"
    goal: str = "var(--goal)"
    made: str = "var(--made)"
    missed: str = "var(--missed)"
    test: str = "var(--test)"
    taper: str = "var(--taper)"
    gap: str = "var(--gap)"
    series: tuple[str, ...] = tuple(f"var(--series-{n})" for n in range(1, 7))
    steps: tuple[str, ...] = tuple(f"var(--step-{n})" for n in range(1, 6))
