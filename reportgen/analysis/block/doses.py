"""Minutes of flexibility work: more where a position is not reached, little where it was won."""

import math

from reportgen.analysis.block.setting import Setting
from reportgen.model.findings import ScreeningItem
from reportgen.model.proposal import BlockDose

_FLEXIBILITY = "flexibility"


def propose(setting: Setting) -> tuple[BlockDose, ...]:
    """Propose minutes a week by area, in the order of the alphabet.

    Args:
        setting: The lifter; screening and upkeep are used.

    Returns:
        Nothing for what was not screened or worked on, for loose joints, or for an area that hurts.
    """
    screening = setting.facts.screening
    if screening is None or setting.trust.stopped or setting.trust.lax:
        return ()
    value = setting.trade.value
    missing = {area for item in screening.items if _missing(item) for area in _areas(setting, item)}
    times, minutes = int(value("dose_initial_times")), value("dose_initial_minutes")
    need = setting.need("position_not_reached", "upkeep_stopped", area="positions", otherwise="upkeep")
    doses = {area: BlockDose(area=area, minutes=minutes, times_per_week=times, need=need) for area in missing}
    for kept in screening.upkeep:
        if kept.area in missing:
            continue
        won = math.ceil(kept.peak_minutes_per_week * value("dose_upkeep_share"))
        doses[kept.area] = BlockDose(
            area=kept.area,
            minutes=float(min(minutes, max(value("dose_upkeep_minutes"), won))),
            times_per_week=int(value("dose_upkeep_times")),
            need=setting.need("upkeep_stopped", otherwise="upkeep") if kept.stopped else "upkeep",
        )
    hurting = _hurting(setting)
    return tuple(dose for area, dose in sorted(doses.items()) if area not in hurting)


def _missing(item: ScreeningItem) -> bool:
    """A position that is not reached, or was lost."""
    return item.kind == _FLEXIBILITY and (item.reached is False or item.lapsed is True)


def _areas(setting: Setting, item: ScreeningItem) -> tuple[str, ...]:
    """The areas to work on: of a joint its own; of a whole position those whose joints fall short, or all."""
    position = setting.trade.positions[item.item]
    areas = position.areas or (position.area,)
    if len(areas) == 1 or setting.facts.screening is None:
        return areas
    single = {
        setting.trade.positions[other.item].area
        for other in setting.facts.screening.items
        if _missing(other) and len(setting.trade.positions[other.item].areas) == 1
    }
    return tuple(area for area in areas if area in single) or (position.area,)


def _hurting(setting: Setting) -> set[str]:
    """Areas whose name an open place of pain.csv holds."""
    pain = setting.facts.pain
    words = " ".join(fact.place.lower() for fact in pain.places if fact.open) if pain is not None else ""
    return {area for area in setting.trade.words["area"].values() if area.split()[0].rstrip("s") in words}
