"""The columns of every kind of file, and which of them it needs."""

from typing import Final

from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of table file."""

    file: str  # its name in the lifter's folder
    #: Every column that it may have, by our name, in the order of the page on formats.
    columns: tuple[str, ...]
    needed: tuple[tuple[str, ...], ...]  # groups of columns; at least one of each group has to be there

    @property
    def name(self) -> str:
        """What `[columns.<name>]` calls it."""
        return self.file.removesuffix(".csv")


#: Headings that only layouts know, and `ignore` for a column that is not to be used.
HEADED: Final = ("result", "missed", "entry", "scheme", "nth", "week", "weekday", "who", "ignore", "unused")
LOADS: Final = ("kg", "lb", "load")

_SETS: Final = (
    "date",
    "lift",
    *LOADS,
    "sets",
    "reps",
    "made",
    "miss",
    "variant",
    "aid",
    "effort",
    "session",
    "remark",
)
_SETS_NEEDED: Final = (("date",), ("lift",), LOADS, ("reps",))

TRAINING: Final = Kind(file="training.csv", columns=_SETS, needed=_SETS_NEEDED)
PLAN: Final = Kind(file="plan.csv", columns=_SETS, needed=_SETS_NEEDED)
ATTEMPTS: Final = Kind(
    file="attempts.csv",
    columns=("date", "event", "kind", "lift", "attempt", *LOADS, "made", "miss", "remark"),
    needed=(("date",), ("lift",), LOADS, ("made",)),
)
BODYMASS: Final = Kind(file="bodymass.csv", columns=("date", *LOADS, "remark"), needed=(("date",), LOADS))
SCREENING: Final = Kind(
    file="screening.csv",
    columns=("date", "item", "side", *LOADS, "reading", "grade", "conditions", "remark"),
    needed=(("date",), ("item",), ("reading", "grade")),
)
TECHNIQUE: Final = Kind(
    file="technique.csv",
    columns=("date", "lift", *LOADS, "checkpoint", "grade", "clip", "remark"),
    needed=(("date",), ("checkpoint",), ("grade",)),
)
MOBILITY: Final = Kind(
    file="mobility.csv",
    columns=("date", "area", "minutes", "remark"),
    needed=(("date",), ("area",), ("minutes",)),
)
PAIN: Final = Kind(
    file="pain.csv",
    columns=("date", "place", "lift", "score", "kind", "settled", "remark"),
    needed=(("date",), ("place",), ("score",)),
)
AWAY: Final = Kind(
    file="away.csv", columns=("from", "to", "reason", "remark"), needed=(("from",), ("to",), ("reason",))
)
DECISIONS: Final = Kind(
    file="decisions.csv",
    columns=("date", "finding", "verdict", "why", "check"),
    needed=(("date",), ("finding",), ("verdict",)),
)

KINDS: Final = (TRAINING, ATTEMPTS, BODYMASS, SCREENING, TECHNIQUE, MOBILITY, PAIN, AWAY, DECISIONS, PLAN)
