"""Golden files: compared whole, kept beside when they differ, accepted only when somebody asks for it."""

import datetime as dt
import gc
import json
import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from reportgen.cli import clock
from reportgen.model.dossier import Dossier
from reportgen.model.records import Records
from reportgen.trade.schema import Trade
from tests import kept
from tests.searches import GATE, THOROUGH

# Taken by `--hypothesis-profile=thorough`: as far as each test ever searched, tests/searches.py says which.
settings.register_profile(THOROUGH, suppress_health_check=list(HealthCheck), deadline=None)
# No example fails for its time: what a slow or busy machine takes says nothing of the program.
settings.register_profile("usual", deadline=None)
# The usual run, but that the searches which say how far in the gate go that far.
settings.register_profile(GATE, deadline=None)
settings.load_profile("usual")

# As the program's own processes do: tests make many objects and next to no cycles.
gc.set_threshold(50_000, 20, 20)

# No test reads or leaves a drawing in the folders of whoever runs it; those of the store name a folder.
os.environ["REPORTGEN_NO_STORE"] = "1"
# What tests start keeps what it compiled of the program for the next one.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

GOLDEN = Path(__file__).parent / "golden"
ACTUAL = Path(__file__).parent / "actual"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept-golden", action="store_true", help="write golden files anew; read the diff")


@pytest.fixture(scope="session", autouse=True)
def shared(tmp_path_factory: pytest.TempPathFactory) -> None:
    """The processes of a run share what is dear; the next run makes it anew."""
    base = tmp_path_factory.getbasetemp()
    kept.share((base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "kept")


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, object], None]:
    """Compares JSON data with tests/golden/NAME.json."""

    def compare(name: str, found: object) -> None:
        text = json.dumps(found, indent=1, ensure_ascii=False, sort_keys=True) + "\n"
        kept = GOLDEN / f"{name}.json"
        if request.config.getoption("--accept-golden"):
            kept.write_text(text, encoding="utf-8", newline="\n")
        if kept.is_file() and kept.read_text(encoding="utf-8") == text:
            return
        ACTUAL.mkdir(exist_ok=True)
        (ACTUAL / f"{name}.json").write_text(text, encoding="utf-8", newline="\n")
        pytest.fail(
            f"tests/actual/{name}.json is not tests/golden/{name}.json; see --accept-golden", pytrace=False
        )

    return compare


@pytest.fixture(autouse=True)
def before_every_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is a day before the plans of the invented logs begin, and no log is ahead of its clock."""
    monkeypatch.setattr(clock, "today", lambda: dt.date(2026, 1, 1))
    monkeypatch.setattr(clock, "ahead", lambda *_: "")


#: Whether the running test wants every picture drawn anew.
_afresh = [False]


@pytest.fixture(autouse=True)
def afresh(request: pytest.FixtureRequest) -> None:
    _afresh[:] = ["afresh" in request.keywords]


@pytest.fixture(scope="session", autouse=True)
def pictures_once(shared: None) -> Iterator[None]:
    """A specification that was drawn in this run is not drawn again, but where a test is about that.

    Same letters in, same letters out: tests/trust/test_same_bytes.py, tests/pages/test_drawing.py and the
    other tests marked `afresh` hold the library to that.
    """
    import vl_convert

    compiles, draws = vl_convert.vegalite_to_vega, vl_convert.vega_to_svg

    def compiled(chart: str) -> Any:
        if _afresh[0]:
            return compiles(chart)
        return json.loads(kept.once(f"compiled {chart}", lambda: json.dumps(compiles(chart))))

    def drawn(chart: str, **more: Any) -> str:
        if _afresh[0]:
            return str(draws(chart, **more))
        return kept.once(f"drawn {chart} {more!r}", lambda: str(draws(chart, **more)))

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(vl_convert, "vegalite_to_vega", compiled)
        patch.setattr(vl_convert, "vega_to_svg", drawn)
        yield


@pytest.fixture(scope="session", autouse=True)
def asked_once(shared: None) -> Iterator[None]:
    """What writes and prints asks the same rows once, but where a test is marked `afresh`."""
    from reportgen import face
    from reportgen.analysis.dossier import build as ask
    from reportgen.cli import run
    from reportgen.trade import load

    def asked(records: Records, trade: Trade, **more: Any) -> Dossier:
        return (ask if _afresh[0] or trade is not load() else kept.build)(records, trade, **more)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(face, "build", asked)
        patch.setattr(run, "build", asked)
        yield


@pytest.fixture
def drawings(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """Gains the width of the plot of every picture that is drawn."""
    import vl_convert

    real, widths = vl_convert.vega_to_svg, list[float]()

    def counted(chart: str, **more: Any) -> str:
        widths.append(json.loads(chart)["width"])
        return str(real(chart, **more))

    monkeypatch.setattr(vl_convert, "vega_to_svg", counted)
    return widths
