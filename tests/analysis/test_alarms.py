"""What stops beyond a sore place, in eight languages, and what is none of it."""

from pathlib import Path

import pytest

from reportgen.analysis import hearing, trust
from reportgen.analysis.alarms import hear
from reportgen.intake import read_folder
from reportgen.model.doubts import EVERYTHING, HEAVY, Unsure
from reportgen.trade import load
from tests.each import each
from tests.trust.logs import lay
from tests.trust.test_told import log
from tests.trust.test_trust import LOG, TOML

SYMPTOM = (
    *(
        "tight chest and short of breath, heart racing",
        "Felt dizzy once after the heavy clean, sat down, fine",
    ),
    *(
        "no misses, but light-headed",
        "chest felt a bit tight",
        "blurred vision on the last set",
        "palpitations",
    ),
    *(
        "nearly fainted",
        "saw stars",
        "No pain and dizzy",
        "can't breathe properly",
        "dizziness gone after a minute",
    ),
    *(
        "mir war schwindlig",
        "Brustschmerzen",
        "Enge in der Brust",
        "Herzrasen",
        "Atemnot",
        "schwarz vor Augen",
    ),
    *(
        "des vertiges",
        "douleur à la poitrine",
        "palpitations",
        "vision floue",
        "s'est évanouie",
        "essoufflement",
    ),
    *("mareos", "está mareada", "dolor en el pecho", "falta de aire", "visión borrosa", "se desmayó"),
    *("capogiri", "dolore al petto", "fiato corto", "vista offuscata", "svenuto", "palpitazioni"),
    *("tontura", "dor no peito", "falta de ar", "visão turva", "desmaiou", "palpitações"),
    *("zawroty głowy", "ból w klatce", "duszności", "zemdlała", "kołatanie serca", "kręci się w głowie"),
    *("кружится голова", "боль в груди", "одышка", "потемнело в глазах", "обморок", "сердцебиение"),
)
BIRTH = (
    *("She is pregnant, week 11.", "Told me she is expecting, week 11, due in June.", "expecting a baby"),
    *(
        "she's due in June",
        "ten weeks postpartum",
        "six weeks after birth",
        "gave birth in May",
        "midwife on Monday",
    ),
    *(
        "Ist schwanger, 11. Woche",
        "erwartet ein Kind",
        "nach der Geburt",
        "elle est enceinte",
        "attend un bébé",
    ),
    *(
        "après l'accouchement",
        "está embarazada",
        "espera un bebé",
        "posparto",
        "è incinta",
        "aspetta un bambino",
    ),
    *("dopo il parto", "está grávida", "espera um bebê", "pós-parto", "jest w ciąży", "po porodzie"),
    *("она беременна", "ждёт ребёнка", "после родов"),
)
SURGERY = (
    *(
        "labrum repair right shoulder",
        "ACL surgery in April",
        "torn meniscus",
        "broke his wrist",
        "stress fracture",
    ),
    *("Kreuzbandriss", "am Knie operiert", "opérée du genou", "cirugía de hombro", "frattura del polso"),
    *("cirurgia no joelho", "operacja kolana", "операция на колене", "перелом"),
)
TERMS = (
    "cleared: overhead up to 50 kg until 24 Dec, no jerks, no max attempts before February",
    "Dr Holm cleared him. Overhead work up to 50 kg; no jerks.",
    "physio says squats only for now",
    "doctor: ok, but not before March",
    "Arzt sagt: freigegeben bis 50 kg, kein Stoßen",
    "le médecin a dit feu vert, pas avant mars",
    "el médico dijo hasta 50 kg",
    "il medico ha detto via libera, non oltre 50 kg",
    "o médico disse: liberado até 50 kg",
    "lekarz powiedział: zgoda, nie więcej niż 50 kg",
    "врач разрешил, не более 50 кг",
)
MEDICINE = (
    *(
        "Takes blood thinners and a beta blocker",
        "below-knee prosthesis right",
        "has a pacemaker",
        "hip replacement",
    ),
    *("nimmt Blutverdünner", "Betablocker", "Knieprothese", "sous anticoagulants", "bêta-bloquants"),
    *(
        "toma anticoagulantes",
        "marcapasos",
        "prende betabloccanti",
        "protesi al ginocchio",
        "usa betabloqueadores",
    ),
    *("bierze beta-blokery", "rozrusznik", "принимает антикоагулянты", "кардиостимулятор"),
)
WEIGHT = (
    *(
        "Wants to make 37 kg class, skips dinner.",
        "Water cut the week before, sauna.",
        "sauna before the weigh-in",
    ),
    *(
        "her periods have stopped",
        "lässt Abendessen weg",
        "Sauna vor dem Wiegen",
        "saute les repas",
        "se salta la cena",
    ),
    *("salta i pasti", "pula o jantar", "pomija kolacje", "сгонка веса"),
)
ALONE = ("she trains alone in the garage", "trainiert allein", "entrena sola", "тренируется одна")
LIMIT = (
    *("No singles over 90 % this month.", "no heavy singles until the camp", "only technique work for now"),
    *(
        "Nothing over 80% for the next 3 weeks",
        "Keep it under 70 kg until October",
        "singles not before November",
    ),
    *("Stay below 85 percent this block", "max 85 % until further notice", "squats once a week for now"),
    *("Keine schweren Einzel bis zum Camp", "nichts über 80 % bis Oktober", "pas de maxi ce mois"),
    *(
        "rien au-dessus de 80 % jusqu'à Noël",
        "sin máximos hasta octubre",
        "niente massimali per tre settimane",
    ),
    *(
        "max. 80 % till Easter",
        "no C&J for 2 weeks",
        "squat 1x/week until the meet",
        "singles only up to 85 % this block",
    ),
    *(
        "singles are off the table until February",
        "keep snatches at 75 for 3 weeks",
        "keine Einer diesen Monat",
    ),
    *("nada acima de 80 % por enquanto", "bez maksów do końca miesiąca", "не больше 80 кг пока"),
)
#: What somebody may not do or does without, whether an end is told or not.
BAN = """
She says she can't jerk this month, wrist in a brace.
I'm not lifting over 60 kilos till Christmas.
Leave squats out for now.
He is only allowed light technique work at present.
not allowed to go overhead
I can't pull from the floor at the moment
only bodyweight stuff allowed for 6 wks
no lifting 48h
she may not lift overhead until the surgeon has seen her
No barbell until 10 January: gym closed
Darf im Moment nicht umsetzen
darf nicht über Kopf
Kann zurzeit nicht beugen, Handgelenk in der Schiene
Kniebeugen vorerst weglassen
Arm im Gips
nur Eigengewicht erlaubt für 6 Wochen
Elle ne peut pas faire d'épaulé-jeté ce mois
n'a pas le droit de soulever
pas de barre jusqu'au 10 janvier
poignet dans une attelle
interdit de squat pour l'instant
éviter les squats pour le moment
no puede hacer envión este mes
no debe levantar hasta enero
muñeca con férula
evitar sentadillas por ahora
brazo enyesado
non può fare slancio questo mese
non deve sollevare fino a gennaio
polso con tutore
evitare lo squat per ora
braccio ingessato
não pode fazer arremesso este mês
não deve levantar até janeiro
punho com tala
evitar agachamento por enquanto
nie może podrzucać w tym miesiącu
nie wolno dźwigać do stycznia
ręka w gipsie
unikać przysiadów na razie
нельзя поднимать над головой
не может толкать в этом месяце
рука в гипсе
пока без приседаний
избегать приседаний пока
she cannot squat right now
must not jerk for 3 weeks
mustn't go overhead
shouldn't lift until the scan
arm in a sling
foot in a boot
stay under 60 kg for 4 wks
avoid overhead work for now
not over 70 kg until March
I'm not supposed to squat
physically unable to squat at present
"""
HEAD = """
He was knocked out on Saturday.
Head knock at rugby, still headaches.
bar came down on the back of my head, sick after
knocked out in a car crash
Whiplash from Tuesday
Gehirnerschütterung
coup sur la tête
golpe en la cabeza
botta in testa
concussão
wstrząśnienie mózgu
сотрясение
"""
HEARD = (
    *(("head", one) for one in HEAD.strip().splitlines()),
    *(("limit", one) for one in BAN.strip().splitlines()),
    *(("symptom", one) for one in SYMPTOM),
    *(("birth", one) for one in BIRTH),
    *(("surgery", one) for one in SURGERY),
    *(("terms", one) for one in TERMS),
    *(("medicine", one) for one in MEDICINE),
    *(("weight", one) for one in WEIGHT),
    *(("alone", one) for one in ALONE),
    *(("limit", one) for one in LIMIT),
)
INNOCENT = (
    *("no heavy singles today, tired", "90 kg until the last set, then missed", "up to 100 kg in 4 weeks"),
    *("under 80 kg until last year, now 95", "go up to 95 kg before Christmas", "no misses this month"),
    *("first heavy single after no singles for 3 weeks", "bis 64 kg, nichts Schweres heute"),
    *("no training for two weeks in August", "three weeks until the contest, light work", "100 kg bis Mai"),
    *(
        "expecting a PR",
        "he is 14 kg over",
        "chest up",
        "short of my best",
        "heart of the session",
        "no pain",
    ),
    *("the bill is due in June", "expecting rain", "keep the chest tight", "not dizzy today", "no dizziness"),
    *(
        "if dizzy stop",
        "his wife is pregnant",
        "sister gave birth",
        "negative pregnancy test",
        "out of breath",
    ),
    *(
        "doctor cleared",
        "doctor said all fine, cleared to lift",
        "physio happy with the shoulder",
        "no surgery needed",
    ),
    *(
        "surgery in 2019, all fine",
        "knee surgery ten years ago",
        "bar cleared the knees",
        "only allowed three attempts",
    ),
    *(
        "worked up to 90 kg",
        "no max today",
        "until the bell",
        "sauna on Sunday",
        "skipped rope",
        "weigh in fine",
    ),
    *(
        "cut the session short",
        "lost the bar in front",
        "stand alone",
        "dental implant",
        "heavy singles alone are no plan",
    ),
    *(
        "kein Schwindel",
        "pas de vertiges",
        "sin mareos",
        "senza capogiri",
        "sem tontura",
        "bez zawrotów głowy",
    ),
    *("без обмороков", "Brust raus", "Herz der Einheit", "poitrine haute", "pecho arriba", "klatka wysoko"),
    *(
        "grudge match",
        "the doctor's day off, only light work",
        "feather light",
        "weight felt light",
        "torn callus",
    ),
    *(
        "broke parallel",
        "broke my PR",
        "tore my hand",
        "operating at 80 %",
        "op set 3",
        "class starts at six",
    ),
)


@pytest.mark.parametrize(("kind", "text"), HEARD)
def test_what_must_stop_or_be_said_is_heard_in_each_language(kind: str, text: str) -> None:
    assert kind in hear(text, 2026, load())


@pytest.mark.parametrize("text", INNOCENT)
def test_innocent_sentences_raise_no_alarm(text: str) -> None:
    assert hear(text, 2026, load()) == {}


def unsure(folder: Path) -> dict[str, Unsure]:
    records = read_folder(folder).records
    assert records is not None
    return {one.reason: one for one in trust.unsure(records, load())}


def note(folder: Path, text: str, day: str = "2026-03-01", kind: str = "remark") -> Path:
    (folder / "notes").mkdir()
    (folder / "notes" / "a.md").write_text(f"Date: {day}\nKind: {kind}\nTitle: News\n\n{text}\n")
    return folder


@pytest.mark.parametrize(
    ("text", "day", "kind", "reason", "stops"),
    [
        ("She is pregnant.", "2025-09-01", "plan", "remark_birth", (EVERYTHING,)),
        ("Felt dizzy.", "2026-03-01", "remark", "remark_symptom", (EVERYTHING,)),
        ("Felt dizzy.", "2026-01-01", "remark", "remark_symptom", None),
        ("Takes blood thinners.", "2025-09-01", "remark", "remark_medicine", (HEAVY,)),
        ("ACL surgery.", "2025-09-01", "remark", "remark_surgery", (EVERYTHING,)),
        ("ACL surgery.", "2024-09-01", "remark", "remark_surgery", None),
        ("No singles this month.", "2026-03-01", "plan", "remark_limit", (EVERYTHING,)),
        ("No singles this month.", "2026-01-15", "plan", "remark_limit", None),
        ("She may not lift overhead.", "2026-03-01", "remark", "remark_limit", (EVERYTHING,)),
        ("Head knock at rugby.", "2026-03-01", "remark", "remark_head", (EVERYTHING,)),
        ("Head knock at rugby.", "2026-01-15", "remark", "remark_head", None),
        ("Trains alone.", "2026-03-01", "remark", "remark_alone", ()),
        ("Water cut.", "2026-03-01", "plan", "remark_weight", ()),
        (
            "If it goes well after her surgery in January, jerks.",
            "2026-03-01",
            "plan",
            "remark_surgery",
            (EVERYTHING,),
        ),
        ("If she gets dizzy we stop.", "2026-03-01", "plan", "remark_symptom", None),
        ("She got dizzy on Monday.", "2026-03-01", "plan", "remark_symptom", (EVERYTHING,)),
    ],
)
def test_a_note_stops_what_it_must_as_long_as_it_must_until_confirmed(
    text: str, day: str, kind: str, reason: str, stops: tuple[str, ...] | None, tmp_path: Path
) -> None:
    found = unsure(note(lay(tmp_path / "a", LOG, TOML), text, day, kind))
    assert (found[reason].stops if reason in found else None) == stops
    sure = TOML.replace("born", 'confirmed = ["notes/a.md"]\nborn')
    assert reason not in unsure(note(lay(tmp_path / "b", LOG, sure), text, day, kind))


def test_conditions_of_a_clearance_in_a_settled_row_are_quoted_and_stop(tmp_path: Path) -> None:
    row = "date,place,lift,score,kind,settled,remark\n2025-09-01,shoulder,,8,injury,2026-02-01,{}\n"
    said = "cleared up to 50 kg"
    found = unsure(lay(tmp_path / "a", LOG, TOML, pain=row.format(said)))
    assert said in str(found["pain_terms"].found)
    assert found["pain_terms"].stops == (EVERYTHING,)
    assert unsure(lay(tmp_path / "b", LOG, TOML, pain=row.format("cleared"))) == {}


UNBORN = "\n".join(line for line in TOML.splitlines() if not line.startswith("born")) + "\n"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("She turned 14 on Monday.", "born_told"),
        ("14-year-old", "born_told"),
        ("ist 15 Jahre alt", "born_told"),
        ("a eu 14 ans", "born_told"),
        ("tiene 16 años", "born_told"),
        ("ha 14 anni", "born_told"),
        ("tem 15 anos", "born_told"),
        ("ma 14 lat", "born_told"),
        ("ей 14 лет", "born_told"),
        ("She is 13 and very keen.", "born_told"),
        ("Grade 8 pupil.", "born_told"),
        ("12 yrs", "born_told"),
        ("12 yrs of lifting", ""),
        ("Her daughter turned 14.", ""),
        ("He is 14 kg over.", ""),
        ("She turned 30.", ""),
    ],
)
def test_without_a_year_of_birth_who_is_told_young_counts_as_young(
    text: str, reason: str, tmp_path: Path
) -> None:
    found = unsure(note(lay(tmp_path / "a", LOG, UNBORN), text))
    assert [*found] == [reason] * bool(reason)
    assert all(one.stops == (HEAVY,) for one in found.values())
    assert unsure(note(lay(tmp_path / "b", LOG, TOML), text)) == {}


@pytest.mark.parametrize(("event", "young"), [("U15 championships", True), ("U23 championships", False)])
def test_the_class_of_an_event_tells_an_age(event: str, young: bool, tmp_path: Path) -> None:
    rows = f"date,event,lift,kg,attempt,made\n2026-02-21,{event},snatch,78,1,1\n"
    assert ("born_told" in unsure(lay(tmp_path / "a", LOG, UNBORN, attempts=rows))) == young


@pytest.mark.parametrize(
    ("event", "remark", "reason"),
    [
        ("Club test (withdrew after fainting)", "", "remark_symptom"),
        ("Club test", "elbow bent the wrong way", "remark_words"),
        ("Club test", "knocked out three doubles", None),
    ],
)
def test_the_words_of_an_attempt_and_of_its_event_are_heard(
    event: str, remark: str, reason: str | None, tmp_path: Path
) -> None:
    rows = f"date,event,lift,kg,attempt,made,remark\n2026-02-21,{event},snatch,78,1,0,{remark}\n"
    found = unsure(lay(tmp_path / "a", LOG, TOML, attempts=rows))
    assert [*found] == [reason] * (reason is not None)
    assert all(one.stops == (EVERYTHING,) for one in found.values())


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        ("2026-01-20,2026-02-22,baby,born 20 jan", "away_row"),
        ("2025-01-20,2025-02-22,baby,born 20 jan", None),
        ("2026-02-20,2026-02-22,rest,knocked out in a car crash", "pain_head"),
        ("2025-12-20,2025-12-22,rest,knocked out in a car crash", None),
        ("2026-01-10,2026-01-12,wedding,", None),
        ("2026-01-10,2026-01-12,Urlaub,", None),
    ],
)
def test_days_away_stop_for_a_reason_that_nobody_knows_and_some_weeks_after_a_blow_to_the_head(
    row: str, reason: str | None, tmp_path: Path
) -> None:
    found = unsure(lay(tmp_path / "a", LOG, TOML, away=f"from,to,reason,remark\n{row}\n"))
    assert [*found] == [reason] * (reason is not None)
    assert all(one.stops == (EVERYTHING,) for one in found.values())


@pytest.mark.parametrize(
    ("remark", "open_"),
    [
        ("mostly gone but comes back when it gets heavy", True),
        ("noch nicht ganz weg", True),
        ("all gone", False),
        ("came back to training", False),
    ],
)
def test_a_settled_row_that_says_it_is_not_over_counts_as_open(
    remark: str, open_: bool, tmp_path: Path
) -> None:
    row = "date,place,lift,score,kind,settled,remark\n2026-01-20,knee,,3,ache,2026-02-20,{}\n"
    found = unsure(lay(tmp_path / "a", LOG, TOML, pain=row.format(remark)))
    assert ("pain_back" in found) == open_
    assert not open_ or "back squat" in found["pain_back"].stops
    later = row.format(remark) + "2026-02-25,knee,,2,ache,2026-02-26,gone\n"
    assert "pain_back" not in unsure(lay(tmp_path / "b", LOG, TOML, pain=later))


@pytest.mark.parametrize(
    ("masses", "born", "stops"),
    [
        ("41,39.5,38,36.2", 2014, (EVERYTHING,)),
        ("41,39.5,38,36.2", 1996, (EVERYTHING,)),
        ("41,40,39,37.8", 1996, ()),
        ("60,60,59,58.5", 2014, None),
        ("60,59.5,59,58", 1996, None),
    ],
)
def test_a_fast_loss_of_weight_is_told_and_stops_the_young_who_tells_of_more_and_anybody_from_a_tenth(
    masses: str, born: int, stops: tuple[str, ...] | None, tmp_path: Path
) -> None:
    days = ("2025-12-10", "2026-01-05", "2026-02-01", "2026-03-01")
    rows = "".join(f"{day},{kg}\n" for day, kg in zip(days, masses.split(","), strict=True))
    folder = lay(tmp_path / "a", LOG, TOML.replace("1996", str(born)))
    (folder / "bodymass.csv").write_text("date,kg\n" + rows)
    found = unsure(folder)
    assert (found["remark_loss"].stops if "remark_loss" in found else None) == stops
    both = unsure(note(folder, "She has had no period since July."))
    assert both["remark_weight"].stops == ((EVERYTHING,) if stops is not None or born > 2008 else ())


@pytest.mark.parametrize(
    ("remarks", "stops"),
    [
        (("no period", "fine"), ()),
        (("no period", "no period again"), ()),
        (("no period", "skipped dinner"), (EVERYTHING,)),
        (("period stopped and skipping meals", ""), (EVERYTHING,)),
        (("cycle has not come back, only 1200 kcal", ""), (EVERYTHING,)),
    ],
)
def test_two_signs_of_too_little_food_stop_wherever_they_stand(
    remarks: tuple[str, str], stops: tuple[str, ...], tmp_path: Path
) -> None:
    folder = lay(tmp_path / "a", LOG, TOML)
    rows = "".join(f'2026-02-2{n},80,"{text}"\n' for n, text in enumerate(remarks))
    (folder / "bodymass.csv").write_text("date,kg,remark\n" + rows)
    assert unsure(folder)["remark_weight"].stops == stops


def test_growing_pains_in_the_heels_stop_what_loads_the_ankle(tmp_path: Path) -> None:
    found = unsure(lay(tmp_path / "a", log("Growing pains in both heels"), TOML))
    assert "back squat" in found["remark_pain"].stops


def test_a_row_that_tells_of_two_things_is_one_doubt_that_names_both(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", log("felt a pop in the knee, and chest pain"), TOML)
    records = read_folder(folder).records
    assert records is not None
    (one,) = (one for one in trust.unsure(records, load()) if EVERYTHING in one.stops)
    assert "pop" in str(one.found)
    assert "chest" in str(one.found)


#: As lifters write it; what is told in no word of a table is not heard.
TOLD = (
    "j'ai mal au genou droit depuis mardi",
    "mal au genou, ça coince",
    "douleur à l'épaule",
    "première séance lourde depuis l'opération du ménisque",
    "first heavy day since the meniscus op in August",
    "6 weeks post-op ACL",
    "had my knee scoped in July",
    "bar clipped the back of my head, headache and felt sick since",
    "dropped the bar on my neck",
    "fingers tingle in my left hand since last week",
    "pins and needles down my arm",
    "hand goes to sleep overhead",
    "me dio un tirón fuerte en la espalda, no me puedo agachar",
    "me duele el hombro",
    "coś strzeliło w kolanie, spuchło",
    "boli mnie kolano",
    "bulge in my groin when I squat",
    "baby is 7 weeks old, leaking a bit on heavy cleans",
    "back after baby, first week",
    "burst blood vessel in my eye and blurry since",
    "urine is dark like cola, arms wont straighten",
    "back is gone and I cant feel my saddle area",
    "lost control of my bladder on the heavy set",
    "knie gab nach",
    "Knie geschwollen",
    "ich bin schwanger, 9. Woche",
    "estoy embarazada",
    "jestem w ciąży",
    "enceinte de 3 mois",
    "shoulder slipped out on the catch, popped back in",
    "my back locked up",
    "knee clicking and giving out",
    "felt something tear in my pec",
    "bicep looks weird, popeye",
    "wrist is killing me",
    "elbow sore as hell",
    "feverish, lifted anyway",
    "passed out after the heavy clean",
    "blacked out on the jerk",
    "heart racing for an hour after",
    "palpitations again",
    "on ramipril and bisoprolol now",
    "taking warfarin",
    "doc put me on metoprolol",
    "physio says no overhead until January",
    "physio: no jerks for 3 weeks",
    "stress fracture in my shin",
    "broke my toe",
    "ruptured disc L5/S1",
    "sciatica down left leg",
    "can't lift my arm above shoulder",
    "got a cortisone shot in the shoulder",
    "ibuprofen 800 before session just to get through",
    "torn labrum, waiting for the MRI",
    "type 1, went low mid session (2.9)",
    "epileptic fit on Tuesday",
    "had covid last week, still short of breath",
    "I want to hurt myself",
    "didn't eat for two days to make weight",
    "throwing up to make weight",
)
PLAIN = (
    "no knee pain today, shoulder fine again",
    "knee pain gone",
    "legs sore, good session",
    "killed it, bar flew",
    "hips went low in the catch",
    "shoes fit in the bag at last",
    "grip gave out on the last set",
    "went to sleep late",
    "lolol that was easy",
    "power leak in the second pull",
    "energy leak on cleans",
    "tirón de arranque muy rápido",
    "salió mal a la primera",
    "back went round in the third rep",
    "pas mal au total",
    "elbows slow, press out",
    "can't feel the bar speed yet",
    "dropped it on the floor, tired",
    "no headache, no fever",
    "knees out more",
    "back tight, chest up",
    "shoulders over the bar",
    "coach: no jerks today, gym closes early",
    "bar dropped behind, turnover late",
    "heels lifted early",
    "hip contact soft",
    "wrists back, elbows through",
    "ankles stiff in the morning, fine after warm-up",
    "quads giving everything",
    "legs dead, good session anyway",
    "arms bent early",
    "feels light, best of the year",
    "kein Schwung, Hüfte langsam",
    "Zug gut, Ellbogen schnell",
    "genoux plus ouverts",
    "espalda recta, codos rápidos",
    "schiena dritta",
    "dik durmak",
)


def heard(text: str) -> bool:
    return bool(hear(text, 2026, load())) or hearing.hear(text, 2026, load()) is not None


@each("text", TOLD)
def test_what_lifters_write_of_a_body_that_is_not_well_is_heard(text: str) -> None:
    assert heard(text)


@each("text", PLAIN)
def test_what_they_write_of_a_lift_is_no_word_of_the_body(text: str) -> None:
    assert not heard(text)
