"""What a remark or a note tells of a body: injuries, pain of a place, and honest remarks."""

from pathlib import Path

import pytest

from reportgen.analysis import remarks
from reportgen.analysis.hearing import hear
from reportgen.intake import read_folder
from reportgen.model.doubts import EVERYTHING
from reportgen.trade import load
from tests.each import each
from tests.trust.logs import lay
from tests.trust.test_told import log
from tests.trust.test_trust import TOML

INJURED = (
    "Elbow swollen and sore, doctor says it is a partial tear. No squats problem.",
    "shoulder popped",
    "popped my left shoulder",
    "knee swollen",
    "doctor said rest",
    "Physio told him to stop squatting",
    "MRI tomorrow",
    "hernia?",
    "broke a finger",
    "broke my left wrist",
    "concussion from bar",
    "right knee hurts in every squat and he says it locked once",
    "His right knee hurts in every squat and he says it locked once. Fine today, no surgery needed.",
    "knee just locked",
    "torn meniscus",
    "elbow torn",
    "dislocated shoulder",
    "shoulder subluxed",
    "can't grip the bar with my left hand",
    "numb fingers",
    "fingers tingling",
    "fainted after the set",
    "hip fracture",
    "back spasm, could not walk",
    "tore my hamstring",
    "knee is very swollen",
    "elbow bad, swollen",
    "Finger gebrochen",
    "Knie geschwollen",
    "Arzt sagt Pause",
    "genou gonflé",
    "le médecin a dit repos",
    "rodilla hinchada",
    "ginocchio gonfio",
    "joelho inchado",
    "kolano spuchnięte",
    "колено опухло",
    "elbow hurts and it locked",
    "shoulder popped out in the jerk",
    "MRI shows nothing new on the meniscus",
    "heard a snap in the wrist",
)
SORE = (
    "wrist sore",
    "hip pinch",
    "tweaked my knee",
    "sharp pain in wrist, stopped",
    "sore left knee",
    "hurts",
    "knee pain again",
    "old knee injury hurts again",
    "knee hurts no matter what",
    "shoulder niggle",
    "hamstring strained",
    "sharp in the left knee",
    "stabbing behind the kneecap",
    "elbow bothering me",
    "ankle sprain",
    "lower back sore",
    "wrist strain",
    "Schulter schmerzt",
    "Knie tut weh",
    "j'ai une douleur au genou",
    "me duele la rodilla",
    "fa male la spalla",
    "dor no ombro",
    "boli kolano",
    "болит колено",
)
HONEST = (
    "no pain",
    "pain free",
    "doctor cleared",
    "doctor said all fine, cleared to lift",
    "physio says ankle is better",
    "no numbness",
    "legs sore from Monday",
    "quads sore",
    "sore quads",
    "DOMS",
    "shoulders sore from Monday",
    "legs hurt",
    "hands sore",
    "thumbs sore",
    "knees stiff",
    "elbows locked out",
    "elbow locked",
    "knees locked at the top",
    "sharp elbows",
    "fast hips",
    "elbows high",
    "shoulder dislocates 2x10",
    "popped up fast, shoulders good",
    "bar popped off the hips",
    "pinch the shoulder blades",
    "pain gone",
    "knee pain gone",
    "no surgery needed",
    "if it hurts stop",
    "surgery in 2019, all fine",
    "torn callus",
    "tore my hand",
    "callus tear on palm",
    "sharp under",
    "injury prevention work",
    "nothing hurts",
    "doesn't hurt",
    "hat nicht wehgetan, keine Schmerzen",
    "knees good, sore legs",
    "broke parallel",
    "bar broke from the floor with hips high",
    "can't grip, hands sweaty",
    "Muskelkater in den Beinen",
    "He has no pain anywhere.",
    "felt strong, back tight",
    "x-ray at the dentist",
    "knee does not hurt",
    "old knee injury",
    "physio exercises done",
    "slept badly, knees stiff",
    "Doctor Who marathon",
    "hurt my pride",
    "no strain in the shoulder",
    "the bar locked well, elbows fast",
    "physio happy with the shoulder",
    "calves and glutes sore",
    "no tingling, no numbness",
    "never hurts",
    "x-ray clear",
    "hips sore after squats",
    "broke my PR",
    "doctor's day off work, fine",
)


@each("text", INJURED)
def test_an_injury_is_heard_as_one(text: str) -> None:
    heard = hear(text, 2026, load())
    assert heard is not None
    assert heard.grave


@each("text", SORE)
def test_pain_of_a_place_is_heard_with_its_place(text: str) -> None:
    heard = hear(text, 2026, load())
    assert heard is not None
    assert not heard.grave
    assert bool(heard.places) == (text != "hurts")


@each("text", HONEST)
def test_honest_remarks_raise_no_alarm(text: str) -> None:
    assert hear(text, 2026, load()) is None


@each(
    "title, text, grave",
    [
        ("Knee", "It locked in the squat.", True),
        ("Elbow", "Swollen since Monday.", True),
        ("Hip", "It hurts.", False),
    ],
)
def test_a_note_whose_title_names_the_place_is_heard(title: str, text: str, grave: bool) -> None:
    heard = hear(f"{title}. {text}", 2026, load(), title)
    assert heard is not None
    assert (heard.grave, len(heard.places)) == (grave, 1)


@each(
    "text, place",
    [
        ("PAIN in the l. shoulder 7", "shoulder"),
        ("hurts: R. knee", "knee"),
        ("Schmerz im li. Knie", "knee"),
        ("dolor en el hombro izq. hoy", "shoulder"),
        ("bck pain", "back"),
        ("kneee hurts", "knee"),
        ("shldr pain", "shoulder"),
        ("pain in my ancle", "ankle"),
        ("hammy hurts", "knee"),
    ],
)
def test_a_place_behind_a_dot_or_misspelt_is_found(text: str, place: str) -> None:
    heard = hear(text, 2026, load())
    assert heard is not None
    assert heard.places == (place,)


@each(
    "text", ("pain SI joint", "pain pec", "jaw hurts", "pain in my sternum", "abs hurt", "took two ibuprofen")
)
def test_pain_beside_a_word_that_may_be_a_place_stops_every_lift_as_in_pain_csv(
    text: str, tmp_path: Path
) -> None:
    records = read_folder(lay(tmp_path / "a", log(text), TOML)).records
    assert records is not None
    (one,) = remarks.read(records, load())
    assert one.stops == (EVERYTHING,)


@each("text", ("painful", "hurt", "that hurt a bit on the last rep", "hurts when I catch the bar", "tut weh"))
def test_bare_pain_beside_a_lift_stops_that_lift(text: str, tmp_path: Path) -> None:
    records = read_folder(lay(tmp_path / "a", log(text), TOML)).records
    assert records is not None
    (one,) = remarks.read(records, load())
    assert one.stops == ("snatch",)


@pytest.mark.parametrize(
    ("remark", "stopped", "left"),
    [
        ("wrist sore", "jerk", "back squat"),
        ("knee hurts", "back squat", "strict press"),
        ("that hurt", "snatch", "back squat"),
        ("lower back pain", EVERYTHING, ""),
    ],
)
def test_a_sore_place_stops_the_lifts_that_load_it_until_pain_csv_answers(
    remark: str, stopped: str, left: str, tmp_path: Path
) -> None:
    told = read_folder(lay(tmp_path / "a", log(remark), TOML)).records
    assert told is not None
    (one,) = remarks.read(told, load())
    assert stopped in one.stops
    assert left not in one.stops
    place = "date,place,lift,score,kind,settled\n"
    for name, row, heard in (
        ("same", f"2026-03-04,{remark.split(maxsplit=1)[0]},,2,ache,2026-03-04\n", 0),
        ("other", "2026-03-04,ankle,,2,ache,2026-03-04\n", 1),
    ):
        records = read_folder(lay(tmp_path / name, log(remark), TOML, pain=place + row)).records
        assert records is not None
        assert len(list(remarks.read(records, load()))) == (heard if remark != "that hurt" else 0)
