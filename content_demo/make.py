"""Make the demo squad: three invented lifters of an invented lakeside club, coached at a distance.

    python content_demo/make.py [FOLDER]

writes `squad/` beside this file, or into FOLDER. The same bytes every time and on every machine.
"""

import sys
from pathlib import Path

import anselm
import nelke
import tobin

SQUAD = """\
# Osselwater Lifting Club, its lake and its lifters are invented.
coach = "Hedda Quillmore"
unit = "kg"
remark = "Examples: the seven rows set aside in anselm-riedwater are slips made on purpose, \
to show what is said of them."
"""
LIFTERS = {
    "nelke-ostrandt": nelke.files,
    "tobin-marlsworth": tobin.files,
    "anselm-riedwater": anselm.files,
}


def main(out: Path) -> int:
    """Write every file of the squad and return how many there are."""
    made = {"squad.toml": SQUAD.encode()}
    for folder, files in LIFTERS.items():
        for name, content in files().items():
            made[f"{folder}/{name}"] = content if isinstance(content, bytes) else content.encode()
    for name, content in made.items():
        place = out / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content)
    return len(made)


if __name__ == "__main__":
    target = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent / "squad"
    print(f"{main(target)} files in {target}")
