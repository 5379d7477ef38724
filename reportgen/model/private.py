"""What `write --share` leaves out of a copy: the one list that options, pages, README and guide go by."""

from typing import Final

#: Words of `--keep`. The source files hold all of it, so they go whatever is kept.
PARTS: Final = ("name", "born", "bodymass", "screening", "pain", "notes")
