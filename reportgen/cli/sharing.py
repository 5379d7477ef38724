"""A copy to share: made without what is left out, and searched for the name before it is written."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reportgen.model.dossier import Dossier
    from reportgen.model.records import Records


def shared(
    records: Records, keep: frozenset[str], *, season: tuple[dt.date, dt.date] | None = None
) -> Dossier:
    """The dossier of a copy to share: what is left out was gone before anything was computed."""
    from reportgen.analysis import share
    from reportgen.cli.run import dossier

    made = dossier(share.strip(records, keep), season=season)
    return replace(made, facts=share.safe(made.facts, dossier(records, season=season).facts))


def left_out(keep: tuple[str, ...]) -> str:
    """What a copy to share lacks, and what may still name somebody, in sentences."""
    from reportgen.analysis import share

    gone = share.left_out(frozenset(keep))
    said = f"A copy to share, without {', '.join(gone[:-1])} and {gone[-1]}."
    if "notes" in keep and "name" not in keep:
        said += " The notes stand as they were written and may name somebody."
    return said
