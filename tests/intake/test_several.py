"""Remarks that tell of some of several repetitions, of a part of a lift, or of neither."""

from pathlib import Path

from reportgen.intake import marks, several
from reportgen.intake.marks import Says
from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear, Use
from tests.each import each
from tests.intake.test_said_of_misses import rows
from tests.intake.test_shorthand import shown

INNOCENT = (
    *("legs first", "hips first, then chest", "every second day now", "the first three weeks"),
    *("bar close", "keep the bar close", "shoulder slipped out, popped back in", "first heavy single"),
    *("als erstes Technik", "cada dos días", "jeden zweiten Tag"),
    *("second set of the day", "only warm-up", "first time at this weight", "one of the best days"),
    *(
        "first session back",
        "2nd day in a row",
        "third week of the block",
        "just one more kilo than last week",
    ),
    *(
        "only two sessions this week",
        "first rep slow, second better",
        "second rep faster",
        "two days after the meet",
    ),
    *(
        "one coffee too many",
        "at first heavy, then easy",
        "1 kg more than last time",
        "2 min rest",
        "first of the day",
    ),
    *(
        "last set best",
        "both sets easy",
        "RPE 8",
        "only light today",
        "one week out",
        "second exercise of the day",
    ),
    *("nur leicht heute", "erste Einheit der Woche", "zweiter Satz leichter", "zum ersten Mal mit Gürtel"),
    *(
        "2. Satz besser",
        "nur eine Einheit diese Woche",
        "einer der besten Tage",
        "ein bisschen müde",
        "alle gut",
    ),
    *(
        "nur zwei Stunden Schlaf",
        "dritte Woche",
        "erste Wdh langsam",
        "zwei Minuten Pause",
        "letzter Satz schwer",
    ),
    *(
        "primera serie del día",
        "solo calentamiento",
        "una de las mejores sesiones",
        "segunda semana del bloque",
    ),
    *("solo una hora de entreno", "un poco cansado", "la primera vez con este peso", "dos días de descanso"),
    *("primera repetición lenta", "segunda sesión del día", "un kilo más"),
    *(
        "première séance de la semaine",
        "seulement léger aujourd'hui",
        "un peu lourd",
        "deuxième jour de suite",
    ),
    *(
        "une des meilleures séances",
        "juste un échauffement",
        "première fois à cette charge",
        "une bonne séance",
    ),
    *("deux minutes de repos", "troisième semaine du bloc", "que du léger"),
)
SOME = (
    *(
        "one out of two",
        "only managed one",
        "lost the 2nd",
        "1st good 2nd behind",
        "second behind",
        "only the first",
        "one of two",
        "second red",
    ),
    *(
        "1+0",
        "just one",
        "nope on second",
        "no second",
        "made only one",
        "one of them behind",
        "both forward",
    ),
    *(
        "2. daneben",
        "nur eine",
        "nur einen",
        "zweite weg",
        "nur die erste",
        "eine gut",
        "zweiter Versuch vorn",
    ),
    *("solo la primera", "la segunda no", "una de dos", "una buena", "la segunda fuera", "solo una"),
    *("que la première", "une seule", "une sur deux", "la deuxième devant", "seulement une"),
    *("solo la prima", "só a primeira", "tylko jedno", "только один", "2 x 1 of 2 behind"),
)
SINGLES = (
    *("got away from me", "no go", "not quite", "DNF", "jerk no", "jerk forward", "good clean, jerk behind"),
    *("clean ok jerk no", "only pulled it", "tried twice", "tried 3 times", "third time lucky"),
    *(
        "daneben",
        "ging nicht",
        "im zweiten Versuch",
        "tombé",
        "échappé",
        "se me escapó",
        "scappata",
        "не совсем",
    ),
)
MISSED = (
    *("lost the jerk", "lost jerk", "made clean lost jerk", "jerk lost", "lost the clean", "pressout on it"),
    *("hinten runter", "fehl", "Fehl.", "chuté", "se me fue atrás", "andata dietro", "não deu"),
    *("za plecy", "uciekło do przodu", "niezal", "за спину", "ушел вперед"),
)
NOT_ONE = (
    *(
        "got away with it",
        "no problem",
        "jerk no problem",
        "não deu tempo",
        "se me fue la hora",
        "tombé malade",
    ),
    *("jerk felt good", "clean heavy, jerk easy", "forward lean better", "Rücken verrissen"),
)


@each("text", INNOCENT)
@each("reps", (2, 3, 5))
def test_a_remark_that_counts_no_repetition_leaves_its_row_made(text: str, reps: int) -> None:
    assert marks.says(text) is Says.NOTHING
    assert not several.open_reps(text, reps)


@each("text", SOME)
def test_a_remark_on_some_of_several_repetitions_leaves_open_how_many_were_made(text: str) -> None:
    assert several.open_reps(text, 2) or marks.says(text) is Says.UNCLEAR


@each("text", SINGLES)
def test_words_that_may_tell_of_a_lost_single_leave_it_open(text: str) -> None:
    assert marks.says(text) is Says.UNCLEAR


@each("text", MISSED)
def test_words_for_a_lost_lift_are_a_miss(text: str) -> None:
    assert marks.says(text) is Says.MISS


@each("text", NOT_ONE)
def test_words_like_those_of_a_miss_that_mean_another_thing_say_nothing(text: str) -> None:
    assert marks.says(text) is Says.NOTHING


def test_a_row_of_several_repetitions_is_set_aside_where_its_remark_names_some_of_them(
    tmp_path: Path,
) -> None:
    lines = ["2026-03-02,snatch,60,3,2,first set easy", '2026-03-03,snatch,60,1,2,"1st good, 2nd behind"',
             "2026-03-04,snatch,60,1,3,only two", "2026-03-05,snatch,60,1,1,second day in a row"]  # fmt: skip
    assert rows(tmp_path, *lines) == [(2, 2), (1, 1)]


@each(
    "text, lost",
    [("segunda nula", 1), ("spalił drugie", 1), ("второй не взял", 1), ("raté la deuxième", 1),
     ("pressout on both", 2), ("zwei ungültig", 2), ("raté 2", None)],
)  # fmt: skip
def test_the_missed_repetition_is_read_by_its_ordinal_in_every_language(text: str, lost: int | None) -> None:
    assert marks.missed_reps(text, 2) == lost


TRIES = {
    "80 85miss": ["80x1x1", "85x1x1 made 0"],
    "85fail, 80": ["85x1x1 made 0", "80x1x1"],
    "85no 85nein": ["85x1x1 made 0", "85x1x1 made 0"],
    "80 85PR!": ["80x1x1", "85x1x1"],
    "75, 85 lost the jerk": ["75x1x1", "85x1x1 made 0"],
    "75, 85 fehl": ["75x1x1", "85x1x1 made 0"],
    "85kgmiss 80lbfail": ["85kgx1x1 made 0", "80lbx1x1 made 0"],
    "85x2easy": ["85x2x1"],
    "85x2missed both": ["85x2x1 made 0"],
    "3RM 118": ["118x3x1"],
    "3 RM 118": ["118x3x1"],
    "118 (3RM)": ["118x3x1"],
    "118 3RM": ["118x3x1"],
    "100x3, 118 3rm": ["100x3x1", "118x3x1"],
    "80, rest 90sec, 85": ["80x1x1", "85x1x1"],
    "70x2 2nd set easy": ["70x2x1"],
}
OPEN = (
    *("80 85m", "80 85f", "85lost", "85behind", "85miss 85f", "85no jerk", "85x2 1 good", "85x2/1", "85x1/2"),
    *("85 tried twice", "85 jerk no", "85x2 second behind", "85x2, only the first", "85x2 got one", "85 2m"),
)


@each("text", TRIES)
def test_a_number_with_a_word_at_it_is_a_try_of_its_own(text: str) -> None:
    assert shown(text, Use()) == TRIES[text]


@each("text", OPEN)
def test_a_try_whose_end_is_not_clear_sets_its_entry_aside(text: str) -> None:
    got = entry(text, Use())
    assert isinstance(got, Unclear)
    assert got.want
