"""One palette of roles; its values are CSS variables, so that light, dark and print come from the page."""

from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """A colour for each role; every value is something that SVG takes as a colour."""

    ink: str = "var(--ink)"  # text and the lines that matter
    muted: str = "var(--muted)"  # axis text and what stands back
    grid: str = "var(--grid)"  # grid lines, axes, baselines
    ground: str = "var(--ground)"  # the page behind the chart
    goal: str = "var(--goal)"  # the goal: always a long dashed line
    made: str = "var(--made)"  # made lifts: always a filled dot
    missed: str = "var(--missed)"  # missed lifts: always a cross
    test: str = "var(--test)"  # test days: always an open diamond
    taper: str = "var(--taper)"  # tapers: always a soft band
    gap: str = "var(--gap)"  # time or data that is missing: always a light ground
    series: tuple[str, ...] = tuple(f"var(--series-{n})" for n in range(1, 7))  # kinds without an order
    #: Kinds with an order, weakest first.
    steps: tuple[str, ...] = tuple(f"var(--step-{n})" for n in range(1, 6))
