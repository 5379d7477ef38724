"""What is carried of others is what was vendored, with its licence."""

import hashlib
import re
from pathlib import Path

from reportgen.pages import assets

VENDOR = Path(assets.__file__).with_name("vendor")


def test_every_script_has_the_sum_noted_at_vendoring() -> None:
    lines = [line.split("  ") for line in (VENDOR / "SHA256SUMS").read_text().splitlines()]
    noted = {name: digest for digest, name in lines}
    assert {"vega.js": hashlib.sha256(assets.runtime().encode()).hexdigest()} == noted
    assert [path.name for path in VENDOR.glob("*.js*")] == ["vega.js.lzma"]


def test_no_script_ends_its_own_element() -> None:
    assert not re.search(r"</script|<!--", assets.runtime(), re.IGNORECASE)


def test_the_licence_of_every_package_inside_is_there() -> None:
    text = (VENDOR / "THIRD_PARTY.md").read_text(encoding="utf-8")
    for name in ("vega-view", "vega-parser", "vega-interpreter", "d3-scale", "d3-shape"):
        assert re.search(rf"^(?:.*, )?{name} \d+\.\d+\.\d+ \(", text, re.MULTILINE), name
    assert text.count("```text") * 2 == text.count("```")
