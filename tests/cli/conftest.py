"""What tests of the commands would otherwise pay for again: a second process, a written page."""

from pathlib import Path

import pytest

from reportgen.cli import pool
from tests.cli.test_commands import LOG, lay, run


@pytest.fixture(autouse=True)
def light(monkeypatch: pytest.MonkeyPatch) -> None:
    """`write` without --jobs takes one process, as on a machine of one core: a second is slow to start."""
    monkeypatch.setattr(pool, "cores", lambda: 1)


@pytest.fixture(scope="session")
def runas_page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A whole page with Runa's two rows, her folder beside it; to read from, nothing is written there."""
    place = tmp_path_factory.mktemp("written")
    assert run("write", lay(place / "runa", LOG), "--out", place, "--jobs", "1").exit_code == 0
    return place / "runa.html"
