"""Written pages that several tests only read."""

from pathlib import Path
from tempfile import TemporaryDirectory

from click.testing import CliRunner

from reportgen.cli.main import main
from tests import kept


def write_once(out: Path, *words: object) -> None:
    """Lay what `write` makes of these words into a folder; one process of the run makes it."""

    def made() -> dict[str, bytes]:
        with TemporaryDirectory() as place:
            asked = ["write", *map(str, words), "--out", place, "--jobs", "1"]
            result = CliRunner().invoke(main, asked)
            assert result.exit_code == 0, result.output
            return {path.name: path.read_bytes() for path in Path(place).iterdir()}

    out.mkdir(exist_ok=True)
    for name, content in kept.once(f"written {words}", made).items():
        (out / name).write_bytes(content)
