"""Everything that a proposal starts from, asked once."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import field

import pandas as pd

from reportgen.analysis import goals, trust
from reportgen.analysis.block import carried, stand
from reportgen.analysis.block.carried import Carried
from reportgen.analysis.block.stand import Stand
from reportgen.analysis.needs.signs import Given
from reportgen.analysis.outlook import Outlook
from reportgen.analysis.trust import Trust
from reportgen.model.facts import Facts
from reportgen.model.findings import Need
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade.choices import Derivative, choices
from reportgen.trade.schema import Trade

_UNDER = "did not go under"
#: A position that is not reached is not prescribed with a pause in it.
_BOTTOM, _HELD = "snatch bottom position", "pause in the bottom"
SQUATS = ("back squat", "front squat")


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One lifter on the eve of the block.

    Attributes:
        begin: The Monday after the review day, or after an illness that lasts beyond it.
        goal_lifts: The goal's lifts from the floor.
        lifts: Those of them for which something may be proposed.
        other: The other classic lift, where it is logged and may be proposed.
        needs: Ranked, without those that the coach dropped.
        derivative: What the first need calls for.
        raised: Group of lifts -> id of the need that raises it.
        chased: Heavy days close together are a finding, or just happened.
        absent: Days of the block that away.csv already names.
        contest: The block leads to one: both lifts are done there.
        openers: Of its test day, by lift [kg].
    """

    records: Records
    facts: Facts
    sets: pd.DataFrame
    trade: Trade
    begin: dt.date
    goal_lifts: tuple[str, ...]
    lifts: tuple[str, ...]
    other: str
    needs: tuple[Need, ...]
    derivative: Derivative | None
    raised: Mapping[str, str]
    trust: Trust
    chased: bool
    carried: Carried
    stand: Stand
    expected: Outlook
    absent: tuple[tuple[dt.date, dt.date], ...]
    contest: bool = False
    openers: Mapping[str, float] = field(default_factory=dict)

    @property
    def platform(self) -> tuple[str, ...]:
        """The lifts of the test day that are trained: at a contest both."""
        return (*self.lifts, self.other) if self.contest and self.other else self.lifts

    @property
    def careful(self) -> int:
        """Weeks of the block without anything heavy: after a break, or after pain of the goal's lifts."""
        after_break = self.trust.pause.left if self.trust.pause is not None else 0
        return max(after_break, self.trust.back_weeks(self.begin, self.goal_lifts))

    def is_new(self, lift: str) -> bool:
        """Whether a lift would be brought in anew while a place that it loads is on its way back."""
        return any(back.most_kg(lift, self.begin, 1.0) == 0 for back in self.trust.backs)

    @property
    def tested(self) -> dt.date:
        """The last contest or test day; the first of all dates without one."""
        return max((day.date for day in self.facts.test_days or ()), default=dt.date.min)

    @property
    def sore(self) -> bool:
        """Whether something hurts or is on its way back: no two squats meet in one session."""
        return bool(self.trust.banned - self.trust.doubted or self.trust.backs)

    @property
    def modest(self) -> bool:
        """Technique comes before load: for the young, and where nothing heavy may be asked."""
        return self.trust.young or not self.trust.heavy

    @property
    def raised_step(self) -> float:
        """How much more than before a group holds that a need raises (a share)."""
        return self.trade.value(f"raised_step{'_young' if self.modest else ''}")

    def need(self, *ids: str, area: str = "", otherwise: str) -> str:
        """The id of the first need of these ids or this area; else a standing purpose."""
        return next((need.id for need in self.needs if need.id in ids or need.area == area), otherwise)

    @property
    def given_days(self) -> frozenset[dt.date]:
        """The goal's date and the day of lifter.toml: no day of training, whatever is lifted on them."""
        return frozenset(filter(None, (self.facts.goals[0].by, self.records.lifter.test_day)))

    def is_absent(self, day: dt.date) -> bool:
        """Whether away.csv already says that the lifter is not there."""
        return any(first <= day <= last for first, last in self.absent)


def read(asked: Given, needs: tuple[Need, ...], expected: Outlook) -> Setting:
    """Ask everything once.

    Args:
        asked: What is asked of the first goal.
        needs: Its needs, ranked.
        expected: `outlook.read`.
    """
    records, facts, trade, goal_lifts = asked.records, asked.facts, asked.trade, asked.lifts
    begin, sets = trust.begin(records, trade), asked.tables.sets
    held = trust.read(records, asked.tables, facts, needs, begin, trade)
    base = stand.read(records, sets, facts, goal_lifts, held, trade)
    lifts = tuple(lift for lift in goal_lifts if lift not in held.banned)
    chased = _chased(facts, needs, trade)
    needs = tuple(need for need in needs if need.decided != "dropped")
    others = [lift for lift in goals.PAIR if lift not in goal_lifts and lift not in held.banned]
    return Setting(
        records=records,
        facts=facts,
        sets=sets,
        trade=trade,
        begin=begin,
        goal_lifts=goal_lifts,
        lifts=lifts,
        other=others[0] if others and others[0] in base.bases else "",
        needs=needs,
        derivative=_derivative(
            goal_lifts,
            needs,
            base,
            held.banned,
            missed=_missed(sets, facts, goal_lifts, trade),
            unreached=_unreached(facts),
        ),
        raised=_raised(needs, goal_lifts, trade),
        trust=held,
        chased=chased,
        carried=carried.read(
            sets, asked.tables.days, facts, base, goal_lifts, held, chased=chased, trade=trade
        ),
        stand=base,
        expected=expected,
        absent=_absent(records, begin),
    )


def _chased(facts: Facts, needs: tuple[Need, ...], trade: Trade) -> bool:
    """Whether heavy days close together are a need or ended inside the days of a chase."""
    if any(need.id == "chase" for need in needs):
        return True
    span = dt.timedelta(days=int(trade.value("chase_days")))
    return any(facts.as_of - chase.end <= span for chase in facts.chases or ())


def _raised(needs: tuple[Need, ...], goal_lifts: tuple[str, ...], trade: Trade) -> dict[str, str]:
    """Group of lifts -> the need that raises it, of the first needs only."""
    found: dict[str, str] = {}
    for need in needs[: int(trade.value("needs_raised"))]:
        for group in choices().raised.get(need.id, choices().raised.get(need.area, ())):
            for one in goal_lifts if group == "goal" else (group,):
                found.setdefault(one, need.id)
    return found


def _derivative(
    lifts: tuple[str, ...],
    needs: tuple[Need, ...],
    base: Stand,
    banned: frozenset[str],
    *,
    missed: str,
    unreached: bool,
) -> Derivative | None:
    """The derivative for the first need, by its id, then by its area; of the lift that the need names.

    A need of skill is met by what the kind of most misses calls for, where there is one.
    """
    wanted: tuple[str, ...] = (needs[0].id, needs[0].area) if needs else ()
    if missed and wanted[1:] == ("skill",):
        wanted = (wanted[0], missed, wanted[1])
    named = {
        part
        for one in choices().derivatives
        for part in (*one.parts, *((one.support,) if one.support else ()))
    }
    unknown = frozenset(part for part in named if base.base(part) is None)
    undone = frozenset(part for part in named if not base.done(part))
    order = [lift for lift in lifts if any(one.need == key for one in choices().derivatives
                                           for key in wanted[:1] if one.goal == lift)]  # fmt: skip
    # What a need asks for, done before rather than brought in lightly; what no need asks for was done.
    ways = [(key, without) for key in wanted for without in (undone, unknown)]
    for key, without in (*ways, ("", undone)):
        for lift in (*order, *lifts):
            found = choices().derivative(lift, (key,), banned | without)
            held = found is not None and found.variant == _HELD and found.goal == "snatch"
            if found is not None and found.need == key and not (held and unreached):
                return found
    return None


def _unreached(facts: Facts) -> bool:
    """Whether a screening graded the snatch's bottom position `no`."""
    items = facts.screening.items if facts.screening is not None else ()
    return any(one.item == _BOTTOM and one.grade == "no" for one in items)


def _missed(sets: pd.DataFrame, facts: Facts, lifts: tuple[str, ...], trade: Trade) -> str:
    """`did not go under` where most misses of the goal's lifts in the current weeks are of this kind."""
    first = pd.Timestamp(facts.as_of) - pd.Timedelta(weeks=int(trade.value("weeks_current")))
    rows = sets.loc[
        sets["lift"].isin(lifts) & (sets["date"] > first) & (sets["miss"] != ""), ["miss", "missed"]
    ]
    under = int(rows.loc[rows["miss"] == _UNDER, "missed"].sum())
    least = trade.value("under_misses_least")
    return _UNDER if under >= least and 2 * under > int(rows["missed"].sum()) else ""


def _absent(records: Records, begin: dt.date) -> tuple[tuple[dt.date, dt.date], ...]:
    rows = records.away.loc[records.away["to"] >= pd.Timestamp(begin), ["from", "to"]]
    return tuple((row["from"].date(), row["to"].date()) for row in rows.to_dict("records"))
