"""Lines with a day, a time and a name before them: a diary where one wrote them, else refused."""

from pathlib import Path

from reportgen.intake import Intake, read_folder
from reportgen.words import said
from tests.each import each
from tests.trust.logs import TOML

FORMS = (
    "[{d:02}.{m:02}.26, 18:2{n}:01] Runa: {text}",
    "{d:02}/{m:02}/2026, 18:2{n} - Runa: {text}",
    "\u200e[{d}/{m}/26, 6:2{n}:01\u202fPM] Runa Velde: {text}",
    "2026-{m:02}-{d:02}, 18:2{n} - ~\u202fRuna: {text}",
)
DAYS = (
    (12, 10, ("Snatch 60x2, 65", "back squat 100x3x3")),
    (14, 10, ("Snatch 60x2", "then to work")),
    (23, 10, ("C&J\n80, 85 miss",)),
)
SETS = [("10-12", 60, 2, 2), ("10-12", 65, 1, 1), ("10-12", 100, 3, 3), ("10-14", 60, 2, 2),
        ("10-23", 80, 1, 1), ("10-23", 85, 1, 0)]  # fmt: skip


def text(form: str) -> str:
    """The messages of some days in one of the forms."""
    return "\n".join(
        form.format(d=d, m=m, n=n, text=one) for d, m, some in DAYS for n, one in enumerate(some)
    )


def read(folder: Path, log: str) -> Intake:
    """What intake makes of a text."""
    folder.mkdir()
    (folder / "lifter.toml").write_text(TOML, encoding="utf-8")
    (folder / "training.txt").write_text(log, encoding="utf-8")
    return read_folder(folder)


@each("form", FORMS)
def test_lines_that_one_person_stamped_are_a_diary(form: str, tmp_path: Path) -> None:
    records = read(tmp_path / f"a{FORMS.index(form)}", text(form)).records
    assert records is not None
    table = records.sets
    days = table["date"].dt.strftime("%m-%d")
    columns = (days, table["load_kg"], table["reps"], table["made"])
    assert [*zip(*(one.tolist() for one in columns), strict=True)] == SETS


@each("form", FORMS)
def test_lines_of_several_people_are_refused_with_their_names(form: str, tmp_path: Path) -> None:
    other = form.replace("Runa Velde", "Runa").replace("Runa", "Coach").format(d=24, m=10, n=1, text="nice")
    intake = read(tmp_path / f"b{FORMS.index(form)}", f"{text(form)}\n{other}")
    assert intake.records is None
    assert "'Coach'" in said(intake.fatal[0].message)
    assert "'Runa" in said(intake.fatal[0].message)


def test_a_time_and_a_lift_before_sets_are_no_sender(tmp_path: Path) -> None:
    log = "2026-10-12, 18:20 - Snatch: 60x2, 65\n2026-10-14, 18:20 - Back squat: 100x3\n"
    records = read(tmp_path / "c", log).records
    assert records is not None
    assert records.sets["load_kg"].tolist() == [60, 65, 100]
