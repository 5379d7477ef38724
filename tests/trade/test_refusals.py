"""A trade table that does not say what a number is and where it is from is refused, with file and key."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from reportgen.trade import TradeError, load, read
from reportgen.trade.tables import FOLDER

Edit = Callable[[str, str, str], str]


@pytest.fixture
def refusal(tmp_path: Path) -> Edit:
    """Change one piece of one table and return what reading it says."""

    def edit(file: str, old: str, new: str) -> str:
        folder = tmp_path / "trade"
        shutil.copytree(FOLDER, folder, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
        text = (folder / file).read_text(encoding="utf-8")
        assert old in text
        (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
        with pytest.raises(TradeError) as caught:
            read(folder)
        return str(caught.value)

    return edit


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('unit = "kg per lb"\n', "", "pound: no unit"),
        ('unit = "kg per lb"', 'unit = ""', "pound: no unit"),
        ('status = "R"\n', "", "pound: no status"),
        ('status = "R"', 'status = "X"', "pound: status is 'X', which cannot be used"),
        ('source = "nist"\n', "", "pound: no source"),
        ('source = "nist"', 'source = "hearsay"',
         "pound: source 'hearsay' is not in sources.toml"),
        ('kind = "definition"\n', "", "pound: no kind"),
        ("value = 0.45359237", 'value = "0.45"', "pound: value is '0.45', which cannot be used"),
        ("value = 0.45359237", "value = true", "pound: value is True, which cannot be used"),
        ("value = 0.45359237", "value = nan", "pound: value is 'nan', which cannot be used"),
        ("value = ", "valeu = ", "pound: no value"),
        ('kind = "definition"', 'kind = "definition"\ncolour = 1',
         "pound: colour is not a key of this table"),
        ("[pound]", "colour = 1\n[pound]", "colour: Expected `object`, got `int`"),
        ("[sets_max]", "[reps_max2]\n[sets_max]", "reps_max2: no value"),
    ],
)  # fmt: skip
def test_a_rule_without_its_ground_is_refused(refusal: Edit, old: str, new: str, message: str) -> None:
    assert refusal("rules/units.toml", old, new) == f"rules/units.toml: {message}"


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('unit = "share of the goal"\n', "",
         "bands.toml: back_squat: no unit: expected share of the goal or share of the present lift"),
        ('status = "P"\n', "", "bands.toml: back_squat: no status"),
        ('source = "practice"', 'source = "x"', "bands.toml: back_squat: source 'x' is not in sources.toml"),
        ('lift = "back squat"', 'lift = "squat"', "bands.toml: back_squat: 'squat' is not in lifts.toml"),
        ("low = 1.60", "low = 1.90", "bands.toml: back_squat: low 1.9 lies over high 1.8"),
    ],
)  # fmt: skip
def test_a_band_without_its_ground_is_refused(refusal: Edit, old: str, new: str, message: str) -> None:
    assert refusal("bands.toml", old, new) == message


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('unit = "cm"', 'unit = ""', "positions.toml: knee to wall, norm: no unit"),
        ('norm_status = "M"\n', "", "positions.toml: knee to wall, norm: no status"),
        ('norm_source = "memory"', 'norm_source = ""', "positions.toml: knee to wall, norm: no source"),
        ('norm_source = "memory"', 'norm_source = "x"',
         "positions.toml: knee to wall, norm: source 'x' is not in sources.toml"),
        ('change_status = "S"\n', "", "positions.toml: knee to wall, smallest real change: no status"),
        ('kind = "flexibility"\n', "", "positions.toml: snatch start position: no kind"),
    ],
)  # fmt: skip
def test_a_norm_without_its_ground_is_refused(refusal: Edit, old: str, new: str, message: str) -> None:
    assert refusal("positions.toml", old, new) == message


@pytest.mark.parametrize(
    ("file", "old", "new", "message"),
    [
        ("zones.toml", 'unit = "repetitions"\n', "", "zones.toml: zone from 0: no unit"),
        ("zones.toml", 'source = "nsca_chart"', 'source = ""', "zones.toml: reps_table: no source"),
        ("sinclair.toml", 'source = "iwf_sinclair"', 'source = "x"',
         "sinclair.toml: 2001-04 men: source 'x' is not in sources.toml"),
        ("classes.toml", 'status = "P"\n', "", "classes.toml: discs: no status"),
        ("published.toml", 'unit = "days"\n', "", "published.toml: taper_days_bosquet: no unit"),
        ("sources.toml", 'status = "P"\n', "", "sources.toml: practice: no status"),
        ("goal_weight.toml", '"snatch pull"', '"pull"',
         "goal_weight.toml: snatch: 'pull' is not in lifts.toml"),
        ("lifts.toml", '"PS"', '"SN"', "lifts.toml: power snatch: 'sn' stands for 'snatch', too"),
        ("words.toml", '"front"', '"back"', "words.toml: behind: 'back' stands for 'forward', too"),
        ("rules/contest.toml", "[bar_men_kg]", "[pound]",
         "rules/units.toml: pound: stands in another file of rules, too"),
    ],
)  # fmt: skip
def test_every_other_table_is_held_to_the_same(
    refusal: Edit, file: str, old: str, new: str, message: str
) -> None:
    assert refusal(file, old, new) == message


def test_a_table_that_is_no_toml_is_named(refusal: Edit) -> None:
    assert refusal("lifts.toml", "[snatch]", "[snatch").startswith("lifts.toml: ")


def test_a_missing_table_is_named(tmp_path: Path) -> None:
    with pytest.raises(TradeError, match=r"^sources\.toml: no such table$"):
        read(tmp_path)


def test_the_tables_that_ship_are_read_once_and_cite_known_sources_only() -> None:
    trade = load()
    assert load() is trade
    cited = {rule.source for rule in trade.rules.values()} | {band.source for band in trade.bands}
    assert cited <= set(trade.sources)


def test_a_rule_that_is_no_finding_of_others_says_so() -> None:
    for rule in load().rules.values():
        assert (rule.kind == "convention") == (rule.status == "D"), rule.id
        assert (rule.kind == "practice") == (rule.status == "P"), rule.id
