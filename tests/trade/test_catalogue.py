"""Lifts, short forms and words: every form means one thing, and the roles are those the design names."""

from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.trade import fold, load, nearest
from tests.each import each

TRADE = load()
LIFTS = TRADE.words["lift"]

#: The catalogue as the page on formats has it; a name may not change.
NAMED = [
    "snatch",
    "power snatch",
    "muscle snatch",
    "low hang snatch",
    "hang snatch",
    "block snatch",
    "low hang power snatch",
    "hang power snatch",
    "snatch balance",
    "drop snatch",
    "overhead squat",
    "snatch pull",
    "snatch deadlift",
    "snatch press",
    "clean and jerk",
    "clean",
    "power clean",
    "low hang clean",
    "hang clean",
    "block clean",
    "clean pull",
    "clean deadlift",
    "jerk",
    "power jerk",
    "push press",
    "strict press",
    "back squat",
    "front squat",
    "Romanian deadlift",
    "good morning",
    "back extension",
]


@each("name", NAMED)
def test_every_lift_of_the_catalogue_is_known_by_its_name_and_plural(name: str) -> None:
    assert name in TRADE.lifts
    assert LIFTS[fold(name.upper())] == name
    plural = {"clean and jerk": "cleans and jerks"}.get(
        name, name + ("es" if name[-2:] in ("ch", "ss") else "s")
    )
    assert LIFTS[fold(plural)] == name


@each("form, name",
    [
        ("SN", "snatch"), ("PS", "power snatch"), ("LHS", "low hang snatch"), ("SB", "snatch balance"),
        ("OHS", "overhead squat"), ("C&J", "clean and jerk"), ("CJ", "clean and jerk"), ("PC", "power clean"),
        ("FS", "front squat"), ("BS", "back squat"), ("RDL", "Romanian deadlift"), ("GM", "good morning"),
        ("SDL", "snatch deadlift"), ("CDL", "clean deadlift"), ("hang sn", "hang snatch"),
        ("squat snatch", "snatch"), ("clean & jerk", "clean and jerk"),
        ("Clean  and  Jerks", "clean and jerk"),
        ("Back-Squat", "back squat"), ("BACK_SQUATS", "back squat"), ("backsquat", "back squat"),
        ("overhead squat ", "overhead squat"), ("Snätch", "snatch"), ("c & j", "clean and jerk"),
    ],
)  # fmt: skip
def test_a_short_form_is_known_in_any_case_and_spacing(form: str, name: str) -> None:
    assert LIFTS[fold(form)] == name


@each("form", ["C+J", "cl+jerk", "clean + jerk", "SP", "squat", "pull", "deadlift", "hang", "other"])
def test_a_word_that_could_mean_two_lifts_or_a_complex_means_none(form: str) -> None:
    assert fold(form) not in LIFTS


def test_no_lift_has_a_plus_in_any_form_since_plus_makes_a_complex() -> None:
    assert not [form for form in LIFTS if "+" in form]


def test_every_key_is_folded_and_every_word_is_one_of_the_catalogue() -> None:
    for kind, words in TRADE.words.items():
        assert all(fold(form) == form for form in words), kind
        assert all(words[fold(name)] == name for name in words.values()), kind
    assert set(LIFTS.values()) == set(TRADE.lifts)


def test_derivatives_are_pulled_and_received_and_nothing_else() -> None:
    found = {
        goal: {name for name, lift in TRADE.lifts.items() if goal in lift.derives_from}
        for goal in ("snatch", "clean and jerk")
    }
    assert found["snatch"] == {
        "power snatch", "muscle snatch", "low hang snatch", "hang snatch", "block snatch",
        "low hang power snatch", "hang power snatch",
    }  # fmt: skip
    assert found["clean and jerk"] == {
        "clean", "power clean", "low hang clean", "hang clean", "block clean", "low hang power clean",
        "hang power clean", "jerk", "power jerk",
    }  # fmt: skip


def test_roles_are_those_that_the_analysis_asks_for() -> None:
    by_role: dict[str, set[str]] = {}
    for name, lift in TRADE.lifts.items():
        by_role.setdefault(lift.role, set()).add(name)
    assert by_role["goal"] == {"snatch", "clean and jerk"}
    assert by_role["part"] == {"clean", "jerk"}
    assert by_role["overhead"] == {"snatch balance", "drop snatch", "overhead squat", "snatch press"}
    assert by_role["pull"] == {"snatch pull", "snatch deadlift", "clean pull", "clean deadlift"}
    assert by_role["squat"] == {"back squat", "front squat"}
    classic = {name for name, lift in TRADE.lifts.items() if lift.classic}
    assert classic == by_role["goal"] | by_role["part"] | by_role["derivative"]


def test_high_hang_work_is_never_an_indicator() -> None:
    assert not [b.id for b in TRADE.bands if TRADE.lifts[b.lift].start == "high hang"]


@each("goal", ["snatch", "clean and jerk"])
def test_the_goal_weight_has_five_places_and_no_lift_stands_in_two(goal: str) -> None:
    parts = TRADE.goal_weight[goal]
    assert list(parts) == ["pulled", "squatted", "overhead", "hang", "floor"]
    names = [name for part in parts.values() for name in part]
    assert len(names) == len(set(names))
    assert goal in parts["floor"]


@each("kind, form, word",
    [
        ("miss", "in front", "forward"), ("miss", "press out", "press-out"),
        ("miss", "Press-Out", "press-out"),
        ("miss", "elbow touch", "elbow"), ("miss", "passed", "declined"), ("miss", "back", "behind"),
        ("miss", "could not stand up", "recovery"), ("miss", "did not go under", "did not go under"),
        ("side", "L", "left"), ("grade", "held", "held"), ("grade", "No", "no"), ("mark", "OFF", "off"),
        ("area", "T-spine", "thoracic spine"), ("pain", "numbness", "numb"), ("away", "sick", "illness"),
        ("away", "No Gym", "no gym"), ("verdict", "dropped", "dropped"), ("attempt_kind", "meet", "contest"),
        ("note_kind", "Review", "review"), ("yes_no", "TRUE", "yes"), ("yes_no", "0", "no"),
        ("yes_no", "no lift", "no"), ("yes_no", "good", "yes"), ("aid", "Straps", "straps"),
        ("position", "KTW", "knee to wall"), ("position", "beighton", "Beighton score"),
        ("checkpoint", "bar over midfoot", "receiving bar over foot"),
    ],
)  # fmt: skip
def test_other_words_are_known_in_their_usual_forms(kind: str, form: str, word: str) -> None:
    assert TRADE.words[kind][fold(form)] == word


@each(
    "kind, word, meant",
    [
        ("lift", "snathc", "snatch"),
        ("lift", "bakc squat", "back squat"),
        ("lift", "Powr Snatch", "power snatch"),
        ("lift", "squat", None),  # back, front or overhead: named none
        ("lift", "XS", None),
        ("lift", "bench press", None),
        ("lift", "", None),
        ("miss", "foward", "forward"),
        ("checkpoint", "recieving depth", "receiving depth"),
    ],
)
def test_a_slip_is_met_with_the_word_it_may_have_meant(kind: str, word: str, meant: str | None) -> None:
    assert nearest(load().words[kind], word) == meant


@given(st.text(max_size=30))
@settings(max_examples=150)
def test_folding_twice_is_folding_once(text: str) -> None:
    assert fold(fold(text)) == fold(text)


@given(st.sampled_from(sorted(LIFTS)), st.data())
@settings(max_examples=60)
def test_letter_case_and_gaps_never_change_a_lift(form: str, data: st.DataObject) -> None:
    gaps = st.sampled_from([" ", "  ", "-", "_", "\u00a0", " \u2013 "])
    letters = [
        data.draw(gaps) if mark == " " else data.draw(st.sampled_from([mark, mark.upper()])) for mark in form
    ]
    assert LIFTS[fold(" " + "".join(letters) + "\t")] == LIFTS[form]
