"""The commands as a new user meets them: what they print, what they write, how they leave."""

import datetime as dt
import json
import pickle
import shutil
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from reportgen.cli.commands import COMMANDS, command
from reportgen.cli.main import main
from reportgen.face import slug, slugs
from reportgen.words import messages

TOML = 'name = "Runa Velde"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
LOG = "date,lift,kg,sets,reps\n2026-03-02,snatch,50,3,2\n2026-03-04,back squat,90,3,5\n"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def lay(folder: Path, log: str = LOG, toml: str = TOML) -> Path:
    folder.mkdir(parents=True)
    (folder / "training.csv").write_text(log, encoding="utf-8")
    (folder / "lifter.toml").write_text(toml, encoding="utf-8")
    return folder


def test_help_imports_nothing_heavy() -> None:
    code = (
        "import sys\nfrom reportgen.cli.main import main\n"
        "try: main(['--help'])\nexcept SystemExit: pass\n"
        "print([m for m in ('pandas', 'altair', 'msgspec', 'jinja2', 'numpy') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip().endswith("[]")


def test_facts_and_check_import_nothing_that_draws() -> None:
    code = (
        "import sys\nimport reportgen.cli.check, reportgen.cli.facts\n"
        "print([m for m in ('altair', 'jinja2', 'markdown', 'nh3', 'vl_convert') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("name", list(COMMANDS))
def test_every_command_explains_itself(name: str) -> None:
    done = run(name, "--help")
    assert done.exit_code == 0
    assert len(done.stdout.splitlines()) > 5


def test_every_message_of_the_help_is_said_by_some_command() -> None:
    help_ = {key.removeprefix("help."): words for key, words in messages.messages("help").items()}
    said = {
        parameter.help
        for name in COMMANDS
        for parameter in command(name).params
        if isinstance(parameter, click.Option)
    }
    idle = [key for key, words in help_.items() if key.startswith("option.") and "{" not in words]
    assert [key for key in idle if help_[key] not in said] == []
    assert {key.removeprefix("command.") for key in help_ if key.startswith("command.")} == set(COMMANDS)
    assert {key.removeprefix("line.") for key in help_ if key.startswith("line.")} == set(COMMANDS)


def options(name: str) -> list[click.Option]:
    """What a command shows in its help, in order."""
    found = (one for one in command(name).params if isinstance(one, click.Option))
    return [one for one in found if not one.hidden]


def test_an_option_has_one_text_one_type_and_one_place_in_every_command() -> None:
    seen: dict[str, tuple[object, ...]] = {}
    for name in COMMANDS:
        for one in options(name):
            means = (one.help, type(one.type), one.is_flag, one.multiple, tuple(one.secondary_opts))
            assert seen.setdefault(one.opts[0], means) == means, (name, one.opts[0])
    assert len(seen) > 15
    orders = {name: [one.opts[0] for one in options(name)] for name in COMMANDS}
    for mine in orders.values():
        for other in orders.values():
            assert [name for name in mine if name in other] == [name for name in other if name in mine]


def test_whatever_writes_a_file_says_where_by_out() -> None:
    writing = {name for name in COMMANDS if "--out" in [one.opts[0] for one in options(name)]}
    assert writing == {"write", "block", "sheet", "index", "recover"}


@pytest.mark.parametrize(
    ("was", "now"),
    [("--from", "--first"), ("--until", "--last")],
)
def test_a_season_s_days_as_they_were_called_before_are_hidden_and_work(
    was: str, now: str, tmp_path: Path
) -> None:
    folder = lay(tmp_path / "runa", LOG)
    told = []
    for name in (was, now):
        done = run("write", folder, "--out", tmp_path, "--edition", "season", name, "2031-01-01")
        told.append((done.exit_code, done.stdout.replace(str(tmp_path), "")))
    assert told[0][0] == told[1][0] == (2 if now == "--first" else 0)
    if now == "--last":
        assert "unchanged" in told[1][1]
    assert f"{was} " not in run("write", "--help").stdout


def test_the_version_is_the_packages() -> None:
    from reportgen import __version__

    assert run("--version").stdout.strip() == f"reportgen, version {__version__}"


def test_check_leaves_with_0_where_all_was_used_and_writes_nothing(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa")
    before = sorted(tmp_path.rglob("*"))
    done = run("check", folder)
    assert done.exit_code == 0
    assert "3 rows used, 0 set aside; review day 2026-03-04" in done.stdout
    assert sorted(tmp_path.rglob("*")) == before


def test_check_names_file_line_and_column_and_leaves_with_1(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG + "2026-03-05,snacth,50,1,1\n")
    done = run("check", folder)
    assert done.exit_code == 1
    line = next(line for line in done.stdout.splitlines() if line.startswith("runa/training.csv:4:2:"))
    assert "snacth" in line
    assert "snatch'?" in line


@pytest.mark.parametrize("command", ["check", "facts", "write"])
def test_a_folder_that_can_not_be_read_leaves_with_2(tmp_path: Path, command: str) -> None:
    folder = tmp_path / "runa"
    folder.mkdir()
    (folder / "training.csv").write_text(LOG, encoding="utf-8")
    extra = ["--out", str(tmp_path / "out")] if command == "write" else []
    done = run(command, folder, *extra)
    assert done.exit_code == 2
    assert "lifter.toml" in done.output


@pytest.mark.parametrize("command", ["check", "facts", "write"])
def test_wrong_arguments_leave_with_2_and_one_clear_line(tmp_path: Path, command: str) -> None:
    gone = run(command, tmp_path / "nobody")
    empty = run(command, tmp_path)
    dated = run(command, lay(tmp_path / "runa"), "--as-of", "5.3.2026")
    assert (gone.exit_code, empty.exit_code, dated.exit_code) == (2, 2, 2)
    assert "there is no folder" in gone.stderr
    assert "holds no training.csv" in empty.stderr
    assert "'5.3.2026' is no date; expected one like 2026-03-01" in dated.stderr


def test_facts_prints_json_only_and_problems_go_to_standard_error(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG + "2026-03-05,snacth,50,1,1\n")
    done = run("facts", folder)
    assert done.exit_code == 0
    facts = json.loads(done.stdout)
    assert facts["facts_version"] == 1
    assert facts["lifter"] == {"name": "Runa Velde", "standards": "women", "folder": "runa"}
    assert "runa/training.csv:4:2" in done.stderr


def test_facts_of_a_squad_are_a_list(tmp_path: Path) -> None:
    lay(tmp_path / "a")
    lay(tmp_path / "b")
    facts = json.loads(run("facts", tmp_path).stdout)
    assert [each["lifter"]["folder"] for each in facts] == ["a", "b"]


def test_the_review_day_can_be_chosen(tmp_path: Path) -> None:
    facts = json.loads(run("facts", lay(tmp_path / "runa"), "--as-of", "2026-03-03").stdout)
    assert (facts["as_of"], facts["span"]["last"]) == ("2026-03-03", "2026-03-02")


def test_write_leaves_a_dossier_and_for_a_squad_an_index(tmp_path: Path) -> None:
    lay(tmp_path / "squad" / "Runa V")
    lay(tmp_path / "squad" / "runa_v")
    out = tmp_path / "out"
    done = run("write", tmp_path / "squad", "--out", out, "--jobs", "1")
    assert done.exit_code == 0, done.output
    assert sorted(path.name for path in out.iterdir()) == ["index.html", "runa-v-2.html", "runa-v.html"]


def test_the_index_counts_days_to_the_squad_s_newest_review_day_and_names_it(tmp_path: Path) -> None:
    lay(tmp_path / "squad" / "a")
    lay(tmp_path / "squad" / "b", LOG + "2026-04-20,snatch,54,1,1\n")
    for _ in range(2):  # written, then left alone
        run("write", tmp_path / "squad", "--out", tmp_path / "out", "--jobs", "1")
        text = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
        assert ">Squad on 20 Apr 2026</p>" in text
        assert "No session for 7 weeks." in text
        assert text.count("2026, 47 days ago") == text.count("2026, today") == 1


def test_one_broken_folder_never_stops_the_others(tmp_path: Path) -> None:
    lay(tmp_path / "squad" / "a")
    lay(tmp_path / "squad" / "b", toml="standards = 3")
    done = run("write", tmp_path / "squad", "--out", tmp_path / "out", "--jobs", "1")
    assert done.exit_code == 1
    assert (tmp_path / "out" / "a.html").exists()
    assert "b" in (tmp_path / "out" / "index.html").read_text(encoding="utf-8")


@pytest.mark.afresh
def test_the_same_folder_gives_the_same_bytes_twice(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa")
    run("write", folder, "--out", tmp_path / "one")
    run("write", folder, "--out", tmp_path / "two")
    assert (tmp_path / "one" / "runa.html").read_bytes() == (tmp_path / "two" / "runa.html").read_bytes()


def test_a_page_that_can_not_be_written_names_the_path_and_leaves_with_2(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa")
    (tmp_path / "out" / "runa.html").mkdir(parents=True)
    done = run("write", folder, "--out", tmp_path / "out")
    assert done.exit_code == 2
    assert "runa.html: not written" in done.stderr


def test_start_lays_out_blanks_that_check_understands_but_for_the_empty_log(tmp_path: Path) -> None:
    assert run("start", tmp_path / "new").exit_code == 0
    done = run("check", tmp_path / "new")
    assert done.exit_code == 2
    assert "training.csv" in done.stdout
    (tmp_path / "new" / "training.csv").write_text(LOG, encoding="utf-8")
    text = (tmp_path / "new" / "lifter.toml").read_text(encoding="utf-8")
    for line in ("standards =", "[[goal]]", 'lift = "snatch"', "kg = 64"):
        text = text.replace(f"# {line}", line, 1)
    (tmp_path / "new" / "lifter.toml").write_text(text, encoding="utf-8")
    filled = run("check", tmp_path / "new")
    assert filled.exit_code == 0, filled.output


def test_start_never_touches_what_is_there(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa")
    done = run("start", folder)
    assert "was there, kept as it is" in done.stdout
    assert (folder / "training.csv").read_text(encoding="utf-8") == LOG


def test_start_demo_lays_out_the_demo_squad(tmp_path: Path) -> None:
    assert run("start", "--demo", tmp_path / "demo").exit_code == 0
    lifters = [path for path in (tmp_path / "demo").iterdir() if (path / "training.csv").exists()]
    assert len(lifters) == 3


def test_recover_gives_the_folder_back_byte_for_byte(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG.replace("\n", "\r\n"))
    (folder / "notes").mkdir()
    (folder / "notes" / "one.md").write_bytes("Date: 2026-03-02\nKind: remark\nTitle: é\n\nHej.".encode())
    run("write", folder, "--out", tmp_path / "out")
    done = run("recover", tmp_path / "out" / "runa.html", "--out", tmp_path / "back")
    assert done.exit_code == 0, done.output
    for path in folder.rglob("*"):
        if path.is_file():
            assert (tmp_path / "back" / path.relative_to(folder)).read_bytes() == path.read_bytes()


def test_what_recover_called_to_before_is_hidden_and_works(runas_page: Path, tmp_path: Path) -> None:
    done = run("recover", runas_page, "--to", tmp_path / "back")
    assert done.exit_code == 0, done.output
    assert (tmp_path / "back" / "training.csv").read_text(encoding="utf-8") == LOG
    assert "--to" not in run("recover", "--help").output


def test_recover_says_when_a_page_carries_no_sources_and_never_overwrites(
    runas_page: Path, tmp_path: Path
) -> None:
    folder = lay(tmp_path / "runa")
    run("write", folder, "--out", tmp_path / "out", "--without-sources")
    bare = run("recover", tmp_path / "out" / "runa.html", "--out", tmp_path / "back")
    assert bare.exit_code == 2
    assert "carries no source files" in bare.stderr
    taken = run("recover", runas_page, "--out", folder)
    assert taken.exit_code == 2
    assert "is there already and not empty" in taken.stderr


def test_rules_prints_every_rule_and_a_lifters_own_bands(tmp_path: Path) -> None:
    own = TOML + "[bands.back_squat]\nlow = 1.55\nhigh = 1.75\n"
    plain, with_own = run("rules"), run("rules", lay(tmp_path / "runa", toml=own))
    assert plain.exit_code == with_own.exit_code == 0
    assert "reference_days" in plain.stdout
    assert "the coach" not in plain.stdout
    # A band of the coach's is for the lift of the first goal: two standards, and not twice that.
    assert (
        sum(line.startswith("back_squat") and "coach" in line for line in with_own.stdout.splitlines()) == 2
    )
    assert run("rules", tmp_path / "nobody").exit_code == 2


@pytest.mark.parametrize(
    ("name", "address"),
    [
        ("Runa Velde", "runa-velde"),
        ("Åse_Ö.", "ase-o"),
        ("../etc", "etc"),
        ("龍", "lifter"),
        ("--", "lifter"),
    ],
)
def test_an_address_holds_only_small_letters_digits_and_hyphens(name: str, address: str) -> None:
    assert slug(name) == address


def test_an_order_with_everything_in_it_goes_to_another_process_as_it_is(tmp_path: Path) -> None:
    from reportgen.cli.order import Order

    whole = Order(
        folder=tmp_path, slug="a", out=tmp_path, as_of=dt.date(2026, 3, 10), theme="plain", always=True,
        share=("notes",), passphrase="vier kühle Wörter hier",
    )  # fmt: skip
    assert pickle.loads(pickle.dumps(whole)) == whole


def test_no_lifter_takes_the_indexs_address() -> None:
    assert slugs(("index", "Index")) == ("index-2", "index-3")


def test_the_module_runs_like_the_command() -> None:
    command = [sys.executable, "-m", "reportgen", "--version"]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.startswith("reportgen, version ")


@pytest.mark.afresh
def test_a_squad_is_written_by_several_processes_to_the_same_bytes(tmp_path: Path) -> None:
    lay(tmp_path / "squad" / "a")
    shutil.copytree(tmp_path / "squad" / "a", tmp_path / "squad" / "b")
    for jobs in ("1", "2"):
        assert run("write", tmp_path / "squad", "--out", tmp_path / jobs, "--jobs", jobs).exit_code == 0
    for name in ("a.html", "b.html", "index.html"):
        assert (tmp_path / "1" / name).read_bytes() == (tmp_path / "2" / name).read_bytes()


def test_what_changed_since_a_day_and_since_an_earlier_dossier_is_in_the_facts(tmp_path: Path) -> None:
    from reportgen.pages import recover

    folder = lay(tmp_path / "runa", LOG + "2026-03-20,snatch,54,1,1\n")
    run("write", folder, "--out", tmp_path / "old", "--as-of", "2026-03-10")
    found = []
    for since in ("2026-03-10", str(tmp_path / "old" / "runa.html")):
        done = run("write", folder, "--out", tmp_path / "new", "--since", since)
        assert done.exit_code == 0, done.output
        facts = recover((tmp_path / "new" / "runa.html").read_text(encoding="utf-8")).facts
        assert facts is not None
        found.append(facts["changes"])
    assert [each["source"] for each in found] == ["the log", "runa.html"]
    assert found[0]["bests"] == found[1]["bests"]
    assert (found[0]["bests"][0]["before_kg"], found[0]["bests"][0]["now_kg"]) == (50.0, 54.0)


def test_one_lifter_of_a_squad_is_compared_with_an_earlier_dossier(tmp_path: Path) -> None:
    for name in ("a", "b"):
        lay(tmp_path / "squad" / name)
    run("write", tmp_path / "squad", "--out", tmp_path / "old", "--as-of", "2026-03-03")
    asked = ("write", tmp_path / "squad", "--out", tmp_path / "new", "--since", tmp_path / "old" / "a.html")
    every = run(*asked)
    assert every.exit_code == 2
    assert "choose one with --only" in every.stderr
    assert run(*asked, "--only", "a").exit_code == 0
    assert [page.name for page in (tmp_path / "new").iterdir()] == ["a.html"]


def test_a_page_without_facts_can_not_be_compared_with(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa")
    (tmp_path / "some.html").write_text("<p>hello", encoding="utf-8")
    done = run("write", folder, "--out", tmp_path / "out", "--since", tmp_path / "some.html")
    assert done.exit_code == 2
    assert "carries no facts to compare with" in done.stderr
    gone = run("write", folder, "--out", tmp_path / "out", "--since", "soon")
    assert gone.exit_code == 2
    assert "'soon' is neither a date like 2026-03-01 nor a dossier's file" in gone.stderr


@pytest.mark.afresh
def test_one_lifter_is_drawn_by_two_processes_to_the_same_bytes(tmp_path: Path) -> None:
    folder = lay(tmp_path / "a")
    for jobs in ("1", "2"):
        assert run("write", folder, "--out", tmp_path / jobs, "--jobs", jobs).exit_code == 0
    assert (tmp_path / "1" / "a.html").read_bytes() == (tmp_path / "2" / "a.html").read_bytes()
