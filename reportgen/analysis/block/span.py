"""How long the block is, what each week is for, when the test day is and when the taper begins."""

import datetime as dt
import math
import statistics

from reportgen.analysis import announced, trust
from reportgen.analysis.block.setting import Setting
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade.choices import choices

#: No week goes further than this share of the way: two weeks of work alone do not begin at its foot.
_MOST_STEP = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnTapers:
    """Length and cut of the taper, between what is usual and what the lifter's own gave.

    Attributes:
        days, cut: What is proposed.
        own_days, own_cut: Medians of the lifter's own tapers that paid; None without one.
        count: How many these are: one alone moves little, several most of the way.
    """

    days: int
    cut: float
    own_days: float | None
    own_cut: float | None
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """The block's frame.

    Attributes:
        kinds: What each week is for: return, work, light, taper.
        test_day: None where none is proposed.
        taper_start: First day of less; None without a taper.
        late: The week of work with whose last sessions the taper begins; None where it begins with a week.
        given: The test day is the goal's own date, or the one that lifter.toml settles.
        notes: Why.
    """

    kinds: tuple[str, ...]
    test_day: dt.date | None
    taper_start: dt.date | None
    late: int | None
    given: bool
    own: OwnTapers
    notes: tuple[Say, ...]

    @property
    def work_ends(self) -> int:
        """The first week on which nothing climbs any more: where the taper begins, or the end."""
        closing = [at for at, kind in enumerate(self.kinds) if kind == "taper" or at == self.late]
        return min(closing, default=len(self.kinds))

    @property
    def progress(self) -> tuple[float, ...]:
        """How far each week is on the way from the first week of work to the last; 0 in the others.

        Each run of work climbs, and the next one begins under where the last one ended. From where the taper
        begins nothing climbs.
        """
        work = [at for at, kind in enumerate(self.kinds) if kind == "work" and at < self.work_ends]
        steps = max(1, len(work) - 1)
        found = [0.0] * len(self.kinds)
        for at, index in enumerate(work):
            first = last = index
            while first - 1 in work:
                first -= 1
            while last + 1 in work:
                last += 1
            whole = at / steps
            run = (index - first) / (last - first) if last > first else whole
            found[index] = 1 - (1 - (2 * whole + run) / 3) * min(1.0, _MOST_STEP * steps)
        reached = found[work[-1]] if work else 0.0
        return tuple(reached if at >= self.work_ends else one for at, one in enumerate(found))


def read(setting: Setting) -> Span:
    """Lay out the weeks.

    Args:
        setting: The lifter.

    Returns:
        One to eight weeks: four to eight, or up to the goal's date where it is nearer.
    """
    careful = setting.careful
    value = setting.trade.value
    most = int(value("block_weeks_high"))
    usual = min(most, int(value("block_weeks_usual")) + careful)
    if _test_soon(setting) and not careful:
        usual = int(value("block_weeks_test_soon"))
    own = _own(setting)
    if not testable(setting):
        note: tuple[Say, ...] = () if setting.trust.stopped else (say(f"block.no_test.{_why_not(setting)}"),)
        due = _due(setting, usual)
        if due is not None:
            # Who is to try then, and how, is not for us to say; nobody is trained through it untold either.
            usual = (due - setting.begin).days // 7
            note += (say("block.no_test.due", day=due),)
        kinds = layout(usual, careful, _every(setting), closing=False) or ("light",)
        if due is not None and kinds[-1] == "work":
            kinds = (*kinds[:-1], "light")
        return Span(
            kinds=kinds, test_day=None, taper_start=None, late=None, given=False, own=own, notes=note
        )  # fmt: skip
    day, given, notes = _day(setting, usual, careful, most)
    weeks = (day - setting.begin).days // 7 + 1
    # A date too near for a whole taper: less is done from the first day on, and nothing is called a taper.
    start = max(setting.begin, day - dt.timedelta(days=own.days))
    # A week is one of the taper where it holds no session before it; one that holds some is work at its head.
    days = setting.carried.weekdays or (0,)
    mondays = [setting.begin + dt.timedelta(days=7 * n) for n in range(weeks - 1)]
    tapered = sum(monday + dt.timedelta(days=days[0]) >= start for monday in mondays) + 1
    at = weeks - tapered - 1
    begun = at >= careful and mondays[at] + dt.timedelta(days=days[-1]) >= start
    late = at if begun else None
    # It closes the work as the taper does: no light week stands right before it.
    head = layout(weeks - tapered - begun, careful, _every(setting), closing=True) + ("work",) * begun
    kinds = head + ("taper",) * tapered
    if (setting.begin - setting.tested).days <= value("light_after_test_days") and kinds[:1] == ("work",):
        kinds, notes = ("light", *kinds[1:]), (*notes, say("block.note.tested", day=setting.tested))
    return Span(kinds=kinds, test_day=day, taper_start=start, late=late, given=given, own=own, notes=notes)


def layout(weeks: int, careful: int, every: int, *, closing: bool) -> tuple[str, ...]:
    """What each week before the taper is for.

    Args:
        weeks: Weeks before the taper, or all of them without one.
        careful: Of these the first, after a break.
        every: A light week comes at the latest as the `every`-th.
        closing: A taper follows, which is light itself.

    Returns:
        return, then runs of work of at most every - 1 weeks with a light week between.
    """
    careful = min(careful, weeks)
    rest = weeks - careful
    lights = max(0, math.ceil((rest + 1) / every) - 1) if closing else rest // every
    work = rest - lights
    runs: list[int] = []
    left = work
    for run in range(lights + 1):
        waiting = lights - run
        runs.append(min(every - 1, left - waiting) if closing else min(every - 1, left))
        left -= runs[-1]
    parts = [("work",) * run for run in runs]
    kinds: tuple[str, ...] = ("return",) * careful
    for index, part in enumerate(parts):
        kinds += part + (("light",) if index < lights else ())
    return kinds


def testable(setting: Setting) -> bool:
    """Whether a test day with heavy singles may be proposed at all."""
    return setting.trust.heavy and bool(setting.lifts) and setting.lifts == setting.goal_lifts


def _due(setting: Setting, weeks: int) -> dt.date | None:
    """The goal's date or that of lifter.toml, where it lies inside so many weeks."""
    end = setting.begin + dt.timedelta(weeks=weeks)
    return min((day for day in setting.given_days if setting.begin <= day < end), default=None)


def _why_not(setting: Setting) -> str:
    """Key of the reason why no test day is proposed."""
    if set(setting.goal_lifts) & setting.trust.doubted:
        return "not_sure"
    if setting.lifts != setting.goal_lifts:
        return "hurts"
    if setting.trust.young and not trust.old_enough(setting.records, setting.trade):
        return "young_log" if setting.records.lifter.supervised else "young"
    return "nothing_heavy"


def contest_day(setting: Setting) -> dt.date | None:
    """The goal's date, or a day of attempts that a file names, before the block would begin.

    The review day itself counts as long as nothing is logged on it.
    """
    as_of = setting.facts.as_of
    ahead = [*setting.given_days, *announced.of_attempts(setting.records)]
    days = sorted(day for day in ahead if as_of <= day < setting.begin)
    return next((day for day in days if day > as_of or setting.facts.span.last != as_of), None)


def _every(setting: Setting) -> int:
    return int(setting.trade.value("light_week_every_masters" if setting.trust.older else "light_week_every"))


def _test_soon(setting: Setting) -> bool:
    """The sure weight rises under a flat best."""
    sure = setting.facts.sure_weight
    newest = setting.facts.goals[0].current_date
    flat = dt.timedelta(days=int(setting.trade.value("test_soon_days")))
    return (
        sure is not None
        and sure.change_kg is not None
        and sure.change_kg >= setting.trade.value("sure_rise") * sure.kg
        and newest is not None
        and setting.facts.as_of - newest >= flat
        and not setting.chased
    )


def _day(setting: Setting, usual: int, careful: int, most: int) -> tuple[dt.date, bool, tuple[Say, ...]]:
    """The test day, whether it is the goal's date or settled in lifter.toml, and why."""
    by, settled = setting.facts.goals[0].by, setting.records.lifter.test_day
    begin = setting.begin
    first = begin + dt.timedelta(days=7 * careful)
    last = begin + dt.timedelta(days=7 * most - 1)
    for day, key in ((settled, "settled"), (by, "by")):
        if day is None or day <= setting.facts.as_of or not first <= day <= last:
            continue
        weeks = (day - begin).days // 7 + 1
        short = (say("block.span.short", weeks=weeks),) * (
            weeks < int(setting.trade.value("block_weeks_low"))
        )
        away = (say("block.span.away", date=day),) * setting.is_absent(day)
        return day, True, (say(f"block.span.{key}", date=day), *short, *away)
    found, moved = _sensible(setting, usual)
    by = settled if settled is not None and (by is None or settled > setting.facts.as_of) else by
    if by is None or by <= setting.facts.as_of:
        why = say("block.span.no_date") if by is None else say("block.span.over", date=by)
    elif by < begin:
        why = say(f"block.span.before{'_careful' if careful else ''}", date=by)
    else:
        why = say("block.span.careful" if by < first else "block.span.beyond", date=by)
    return found, False, (why, *moved)


def _sensible(setting: Setting, weeks: int) -> tuple[dt.date, tuple[Say, ...]]:
    """The last training day of the last week on which the lifter is there, on no holiday.

    A day that falls on one moves to the weekend before, or as far back as it takes.
    """
    week = setting.begin + dt.timedelta(days=7 * (weeks - 1))
    days = [week + dt.timedelta(days=day) for day in setting.carried.weekdays]
    there = [day for day in days if not setting.is_absent(day)]
    asked = found = (there or days)[-1]
    while _is_free(found) or (found != asked and (found.weekday() < 5 or setting.is_absent(found))):
        found -= dt.timedelta(days=1)
    if found == asked or found < setting.begin + dt.timedelta(days=7):
        return asked, ()
    return found, (say("block.span.holiday", date=asked, moved=found),)


def _is_free(day: dt.date) -> bool:
    """Whether few gyms are open on a day and nobody judges: by the calendar, and around Easter."""
    table, after = choices().holidays, (day - _easter(day.year)).days
    by_date = any(first <= (day.month, day.day) <= last for first, last in table.dates)
    return by_date or table.easter[0] <= after <= table.easter[1]


def _easter(year: int) -> dt.date:
    """Easter Sunday by the anonymous Gregorian computus (Meeus, Astronomical Algorithms, 1991)."""
    a, b, c = year % 19, *divmod(year, 100)
    h = (19 * a + b - b // 4 - (b - (b + 8) // 25 + 1) // 3 + 15) % 30
    week = (32 + 2 * (b % 4) + 2 * (c // 4) - h - c % 4) % 7
    month, day = divmod(h + week - 7 * ((a + 11 * h + 22 * week) // 451) + 114, 31)
    return dt.date(year, month, day + 1)


def _own(setting: Setting) -> OwnTapers:
    """Length and cut between what is usual and the lifter's own tapers that paid, by how many these are.

    Those paid whose day was in form by what tapers usually give, or more: a best is luck as well.
    """
    value = setting.trade.value
    less = "_less_trained" if setting.carried.less_trained else ""
    paid = {
        day.taper.start: day.taper
        for day in setting.facts.test_days or ()
        if day.taper is not None
        and (day.effect_share or 0.0) >= value("taper_gain")
        and day.lift in setting.goal_lifts
        and day.taper.days is not None
        and day.taper.volume_cut is not None
    }
    weight = len(paid) / (len(paid) + value("taper_own_weight"))
    days = statistics.median([float(one.days or 0) for one in paid.values()]) if paid else None
    cut = statistics.median([one.volume_cut or 0.0 for one in paid.values()]) if paid else None

    def between(name: str, usual: float, own: float | None, end: str) -> float:
        wanted = usual if own is None else usual + weight * (own - usual)
        return min(value(f"{name}_high{end}"), max(value(f"{name}_low{end}"), wanted))

    return OwnTapers(
        days=round(between("taper_days", value("taper_days_usual"), days, less)),
        cut=between("taper_volume_cut", value("taper_cut_usual"), cut, ""),
        own_days=days,
        own_cut=cut,
        count=len(paid),
    )
