"""A contest that only words name is told, since no block knows of it."""

import datetime as dt
from pathlib import Path

import pytest

from reportgen.analysis import announced, trust
from reportgen.intake import read_folder
from reportgen.trade import load
from tests.each import each
from tests.trust.logs import lay
from tests.trust.test_trust import LOG, TOML

WRITTEN = dt.date(2026, 11, 15)
DAY = dt.date(2026, 12, 19)


@each(
    "text",
    (
        "The Brinefield Open is on 19 December 2026, he wants to lift it.",
        "meet 2026-12-19",
        "Wettkampf am 19.12.",
        "Wettkampf am 19. Dezember",
        "compétition le 19 décembre",
        "competición el 19 de diciembre de 2026",
        "gara il 19 dicembre",
        "campeonato em 19 de dezembro",
        "zawody 19 grudnia",
        "соревнования 19 декабря",
        "weigh in Dec 19 at 8",
        "comp on December 19th",
    ),
)
def test_a_day_beside_a_word_for_a_contest_is_one_in_eight_languages(text: str) -> None:
    assert announced.days(text, WRITTEN) == (DAY,)


@each(
    "text",
    (
        "meet in five weeks",
        "5 weeks out from the comp",
        "only 5 weeks until the Brinefield Open is on",
        "Wettkampf in 5 Wochen",
        "noch fünf Wochen bis zum Wettkampf",
        "compétition dans cinq semaines",
        "faltan 5 semanas para la competición",
        "gara tra cinque settimane",
        "campeonato daqui a 5 semanas",
        "zawody za 5 tygodni",
        "соревнования через пять недель",
    ),
)
def test_a_contest_so_many_weeks_ahead_is_about_then_in_eight_languages(text: str) -> None:
    assert announced.weeks_ahead(text, WRITTEN) == (WRITTEN + dt.timedelta(weeks=5),)


@each(
    "text",
    (
        "the meet was 5 weeks ago",
        "vor 5 Wochen Wettkampf",
        "5 weeks of squats",
        "in 5 weeks squat test",
        "first session 2 weeks after the meet",
        "meet prep, week 5",
    ),
)
def test_weeks_behind_or_of_something_else_announce_none(text: str) -> None:
    assert announced.weeks_ahead(text, WRITTEN) == ()


@each("text", ("gym is open on 24 December", "May 5 x 80 kg", "24.12. no gym", "competition 1.5 hours away"))
def test_other_days_and_other_numbers_are_none(text: str) -> None:
    assert announced.days(text, WRITTEN) == ()


@pytest.mark.parametrize("words", ["The meet is on 11 April 2026.", "Six weeks out from the meet."])
@pytest.mark.parametrize(
    ("more", "told"),
    [("", True), ("test_day = 2026-04-11\n", False), ('confirmed = ["notes/plan.md"]\n', False)],
)
def test_a_contest_ahead_that_no_file_names_is_told_and_stops_nothing(
    more: str, told: bool, words: str, tmp_path: Path
) -> None:
    folder = lay(tmp_path / "a", LOG, more + TOML)
    (folder / "notes").mkdir()
    (folder / "notes" / "plan.md").write_text(f"Date: 2026-03-01\nTitle: Spring\n\n{words}\n")
    records = read_folder(folder).records
    assert records is not None
    found = [one for one in trust.unsure(records, load()) if one.reason == "remark_contest"]
    assert bool(found) is told
    assert all(one.stops == () for one in found)
