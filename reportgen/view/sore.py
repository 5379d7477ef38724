"""What hurts or hurt, and what went before it."""

from reportgen.model.findings import EpisodeFact
from reportgen.view import text
from reportgen.view.page import Block, Paragraph, Phrase, Points, Table
from reportgen.view.reader import Reader, words


def blocks(reader: Reader) -> tuple[Block, ...]:
    """What hurts or hurt; open places first."""
    pain = reader.facts.pain
    if pain is None or not pain.places:
        return ()
    rows = tuple(
        (
            words(p.place, "missed" if p.open else ""),
            words(p.lift),
            words(p.kind),
            words(p.score),
            words(p.first),
            words("open" if p.settled is None else f"settled {text.day(p.settled)}"),
        )
        for p in pain.places
    )
    table = Table(
        caption="Pain, open first; old, settled pain stops nothing",
        head=("place", "during", "kind", "of 10", "since", "state"),
        rows=rows,
        id="pain",
    )
    cautions = (Paragraph(text=(caution,), tone="caution") for caution in pain.cautions)
    return (*cautions, table, *_before(reader.facts.pain_episodes or ()))


def _before(episodes: tuple[EpisodeFact, ...]) -> tuple[Block, ...]:
    """What the two weeks before the newest episode of each place held against the usual."""
    newest = {one.place.casefold(): one for one in episodes}
    items: list[Phrase] = [(said,) for one in newest.values() if (said := _told(one))]
    if not items:
        return ()
    lead = "The two weeks before it, against the usual; what came first need not be the cause:"
    return (Paragraph(text=(lead,)), Points(items=tuple(items)))


def _told(one: EpisodeFact) -> str:
    before = one.before
    held = []
    if before.load is not None:
        held.append(f"{text.share(before.load)} of the usual load of what loads it")
    if before.sessions is not None:
        held.append(f"{text.share(before.sessions)} of the usual sessions")
    held += [f"no more work on the {area}" for area in before.stopped or ()]
    if not held:
        return ""
    times = [f"{alike.sign} {alike.times} of {alike.of} times" for alike in one.alike]
    often = f" Before pain in this place: {text.listing(times)}." if times else ""
    return f"{text.sentence(one.place)}, {text.day(one.start)}: {text.listing(held)}.{often}"
