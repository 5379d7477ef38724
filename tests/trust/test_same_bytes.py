"""The same inputs give the same bytes on another machine: pages and the wheel, built apart and compared."""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

ROOT = Path(__file__).parents[2]
#: What a wheel is made of; the rest of a checkout is not looked at.
PARTS = ("pyproject.toml", "README.md", "LICENSE", ".gitignore", "reportgen", "themes", "content_demo")
#: Two machines: where in the world, in which language, with which seed, in the UTF-8 mode or not.
HERE = {"TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8", "PYTHONHASHSEED": "1", "PYTHONUTF8": "1"}
THERE = {
    "TZ": "America/St_Johns",
    "LC_ALL": "C",
    "LANG": "tr_TR.UTF-8",
    "PYTHONCOERCECLOCALE": "0",
    "PYTHONHASHSEED": "4242",
    "PYTHONUTF8": "0",
    "COLUMNS": "40",
}


def sums(folder: Path) -> dict[str, str]:
    """The SHA-256 of every file of a folder."""
    return {one.name: hashlib.sha256(one.read_bytes()).hexdigest() for one in folder.iterdir()}


def called(words: list[str], cwd: Path, machine: dict[str, str]) -> subprocess.CompletedProcess[str]:
    """Run Python as on that machine."""
    settled = {k: v for k, v in os.environ.items() if k not in ("SOURCE_DATE_EPOCH", "PYTHONPATH", *THERE)}
    env = settled | machine | {"PYTHONPATH": str(ROOT)}
    return subprocess.run(
        [sys.executable, *words], cwd=cwd, env=env, capture_output=True, encoding="utf-8", check=False
    )


#: Writes a squad in two editions.
WRITES = """
import sys
from reportgen.cli.main import main
for edition in ("review", "season"):
    words = ["write", sys.argv[1], "--edition", edition, "--out", sys.argv[2], "--jobs", "1"]
    try:
        main(words)
    except SystemExit as end:
        assert end.code in (0, 1), end.code
"""


def test_pages_are_the_same_whatever_the_clock_place_language_and_order_of_the_machine(
    tmp_path: Path,
) -> None:
    lifter = ROOT / "content_demo" / "squad" / "nelke-ostrandt"
    found = []
    for number, machine in enumerate((HERE, THERE)):
        place = tmp_path / ("here" if number == 0 else "there/Größe")
        folder = place / "squad" / lifter.name
        files = sorted(path for path in lifter.rglob("*") if path.is_file())
        for path in files if number == 0 else reversed(files):
            copy = folder / path.relative_to(lifter)
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, copy)
            os.utime(copy, (1_000_000_000 + number * 10**8,) * 2)
        cwd = place if number == 0 else tmp_path
        asked = "squad" if number == 0 else str(place / "squad")
        done = called(["-c", WRITES, asked, str(place / "out")], cwd, machine)
        assert done.returncode == 0, done.stderr
        found.append(sums(place / "out"))
    assert found[0] == found[1]
    assert len(found[0]) == 3  # two pages and an index


def test_the_wheel_is_the_same_wherever_and_whenever_it_is_built(tmp_path: Path) -> None:
    pytest.importorskip("hatchling.build")
    wheels: list[Path] = []
    for number, (name, machine) in enumerate({"here": HERE, "there/deeper": THERE}.items()):
        checkout = tmp_path / name
        checkout.mkdir(parents=True)
        for part in PARTS:
            if (ROOT / part).is_dir():
                shutil.copytree(ROOT / part, checkout / part)
            elif (ROOT / part).is_file():
                shutil.copyfile(ROOT / part, checkout / part)
        for path in checkout.rglob("*"):
            os.utime(path, (1_000_000_000 + number * 10**8,) * 2)
            path.chmod(path.stat().st_mode & (0o777 if number == 0 else 0o700))
        out = tmp_path / f"wheel-{number}"
        out.mkdir()
        code = "import sys; from hatchling.build import build_wheel; build_wheel(sys.argv[1])"
        done = called(["-c", code, str(out)], checkout, machine)
        assert done.returncode == 0, done.stderr
        wheels += out.iterdir()
    one, two = wheels
    assert one.name == two.name
    assert one.read_bytes() == two.read_bytes()
    with ZipFile(one) as wheel:
        names = wheel.namelist()
    assert not [name for name in names if "__pycache__" in name or "cache/" in name]
    assert "reportgen/_data/themes/plain/dossier.html" in names
    assert "reportgen/_data/content_demo/squad/nelke-ostrandt/training.csv" in names
