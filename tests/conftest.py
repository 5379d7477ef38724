"""Golden files: compared whole, kept beside when they differ, accepted only when somebody asks for it."""

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from tests.searches import THOROUGH

# Taken by `--hypothesis-profile=thorough`: as far as each test ever searched, tests/searches.py says which.
settings.register_profile(THOROUGH, suppress_health_check=list(HealthCheck))

# No test reads or leaves a drawing in the folders of whoever runs it; those of the store name a folder.
os.environ["REPORTGEN_NO_STORE"] = "1"

GOLDEN = Path(__file__).parent / "golden"
ACTUAL = Path(__file__).parent / "actual"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept-golden", action="store_true", help="write golden files anew; read the diff")


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


_compiled: dict[str, str] = {}
_drawn: dict[tuple[str, str], str] = {}


@pytest.fixture
def pictures_once(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """A specification that was drawn in this process is not drawn again, but where a test is about that.

    Same letters in, same letters out: tests/trust/test_same_bytes.py, tests/pages/test_drawing.py and the
    tests marked `afresh` hold the library to that.
    """
    if "afresh" in request.keywords:
        return
    import vl_convert

    compiles, draws = vl_convert.vegalite_to_vega, vl_convert.vega_to_svg

    def compiled(chart: str) -> Any:
        if chart not in _compiled:
            _compiled[chart] = json.dumps(compiles(chart))
        return json.loads(_compiled[chart])

    def drawn(chart: str, **more: Any) -> str:
        key = (chart, repr(more))
        if key not in _drawn:
            _drawn[key] = str(draws(chart, **more))
        return _drawn[key]

    monkeypatch.setattr(vl_convert, "vegalite_to_vega", compiled)
    monkeypatch.setattr(vl_convert, "vega_to_svg", drawn)


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
