"""What has to hold for years: pages of today open tomorrow, names stay, and every part has its licence."""

import hashlib
import re
import tomllib
from importlib.metadata import version
from pathlib import Path
from typing import Any, Final

import pytest
from packaging.requirements import Requirement

from reportgen.analysis.changes import between
from reportgen.analysis.dossier import build
from reportgen.intake import read_folder
from reportgen.model.export import as_json
from reportgen.pages import page_text, recover
from reportgen.trade import load
from tests import kept
from tests.pages import sample

ROOT: Final = Path(__file__).parents[2]
#: Written once, when the facts file had version 1; never to be written again.
OLD: Final = Path(__file__).parent / "old" / "facts-1.html"
SUMS: Final = {
    "lifter.toml": "10258ed6d8d4a24ba952344e1db4ba23f3babb99e4e49f0847bc040bf7d6dcba",
    "training.csv": "b29959d31674be9b19d93fd2532f8f1dd1dfd5fbec999dda29f312810cc62545",
    "screening.csv": "51771d7eebcab7632d6590fd66767caf85eea8596e91e7eeb429d19e3513dcda",
    "technique.csv": "dd5292eeb23f3bd5dd249d6cf3b2ba432f8d182d82dfd65564495d8d3ef12364",
}
#: The names of the facts file, from the page on formats: a name may come, none may go.
NAMES: Final = {
    "": "facts_version lifter as_of span goals ledger bests current indicators exposure rep_maxes make_rates"
    " test_days chases goal_weight sure_weight screening technique trend expressed_strength not_tested needs"
    " block planned_done changes season sources",
    "lifter": "name standards folder",
    "span": "first last",
    "goals": "lift goal_kg body_mass_kg by current_kg current_date gap_kg",
    "ledger": "file rows_read rows_used rows_set_aside problems",
    "ledger.problems": "line column heading level found expected message",
    "bests": "lift reps kg date",
    "current": "lift kg date stale_kg stale_date",
    "indicators": "id lift current_kg low_kg high_kg shortfall_kg supports_low_kg supports_high_kg limit base"
    " reading source",
    "exposure": "weeks mean_full_per_week mean_derivative_per_week weeks_without_full longest_gap_days",
    "exposure.weeks": "week start sessions full derivative heavy_singles repetitions tonnage_kg"
    " counted_repetitions relative_load",
    "rep_maxes": "lift reps kg date implied_single_kg single_kg transfer_gap_kg",
    "make_rates": "lift zone_low zone_high tried made rate rate_low rate_high misses",
    "test_days": "date kind event lift best_kg previous_best_kg gain_kg gain_share tried made taper",
    "test_days.taper": "start days volume_cut load_change reading",
    "chases": "start end heavy_days missed_days gain_kg",
    "goal_weight": "part lift times made misses",
    "sure_weight": "lift kg made tried change_kg",
    "screening": "items compensation upkeep",
    "screening.items": "item side kind latest latest_date grade norm norm_source change lapsed",
    "screening.compensation": "item per_kg at_goal low high",
    "screening.upkeep": "area minutes_per_week peak_minutes_per_week days_since",
    "technique": "checkpoints",
    "technique.checkpoints": "checkpoint phase lift grades latest persistence_days load_onset_kg",
    "trend": "lift kg_per_month low high reach_date reach_early reach_late",
    "expressed_strength": "month snatch_kg supported_kg share",
    "not_tested": "id what_would_settle",
    "needs": "rank area id kilos confidence claim evidence what_would_settle",
    "block": "weeks flexibility test_day taper attempts reason",
    "block.weeks": "sessions",
    "block.weeks.sessions": "sets",
    "block.weeks.sessions.sets": "lift sets reps kg floor_kg share need",
    "block.flexibility": "area minutes",
    "block.taper": "start cut",
    "block.attempts": "attempt kg why",
    "planned_done": "weeks",
    "planned_done.weeks": "sessions_planned sessions_done sets_planned sets_done load_off",
    "changes": "since bests indicators needs screening technique",
    "changes.needs": "gone stayed came",
}


def at(data: Any, path: str) -> list[Any]:
    """Every object of a facts file under a path, lists gone through."""
    found = [data]
    for part in path.split(".") if path else []:
        found = [one[part] for one in found if isinstance(one, dict) and part in one]
        found = [inner for one in found for inner in (one if isinstance(one, list) else [one])]
    return [one for one in found if isinstance(one, dict)]


@pytest.fixture(scope="module")
def squad() -> list[dict[str, Any]]:
    """The facts of the demo squad, the first with what changed since an earlier day."""
    found = []
    for folder in sorted((ROOT / "content_demo" / "squad").iterdir()):
        if folder.is_dir():
            found.append(as_json(kept.dossier(folder).facts))
    found[0]["changes"] = as_json(between(found[0], found[0], source="the log", trade=load()))
    return found


@pytest.mark.parametrize("path", NAMES)
def test_no_name_of_the_facts_file_has_gone(path: str, squad: list[dict[str, Any]]) -> None:
    objects = [one for facts in squad for one in at(facts, path)]
    assert objects, f"the demo squad has no {path}, so nothing was tested"
    for one in objects:
        assert set(NAMES[path].split()) <= one.keys()


def test_a_dossier_of_facts_version_1_gives_its_files_and_facts_back() -> None:
    found = recover(page_text(OLD))
    assert {one.file: hashlib.sha256(one.content).hexdigest() for one in found.files} == SUMS
    assert found.facts is not None
    assert (found.facts["facts_version"], found.facts["as_of"]) == (1, "2026-06-27")
    assert found.facts["needs"][0]["id"] == "position_not_reached"


def test_what_an_old_dossier_carries_can_be_read_and_compared_with_today(tmp_path: Path) -> None:
    found = recover(page_text(OLD))
    assert found.facts is not None
    for source in found.files:
        (tmp_path / source.file).write_bytes(source.content)
    records = read_folder(tmp_path).records
    assert records is not None
    today = as_json(build(records, load()).facts)
    assert today["bests"] == found.facts["bests"]
    changes = between(found.facts, today, source="an old page", trade=load())
    assert changes.since.isoformat() == "2026-06-27"
    assert changes.bests == ()


def test_a_page_lists_the_software_of_others_that_it_carries_with_its_licences() -> None:
    page = sample.html()
    told = page[page.index('class="licences"') :]
    third_party = (ROOT / "reportgen/pages/vendor/THIRD_PARTY.md").read_text(encoding="utf-8")
    names = re.findall(r"([a-z][a-z0-9-]+ \d+\.\d+\.\d+) \(", third_party)
    assert len(names) > 10
    assert [name for name in names if name not in told] == []
    assert "WITHOUT WARRANTY" in told or "DISCLAIMS ALL WARRANTIES" in told


def test_every_dependency_has_a_floor_and_a_ceiling_and_what_runs_lies_between() -> None:
    # Only what is installed here is tested; the lowest and the newest allowed are for a run of their own.
    declared = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    for each in map(Requirement, declared):
        assert {one.operator for one in each.specifier} == {">=", "<"}, each.name
        assert each.specifier.contains(version(each.name)), each.name
