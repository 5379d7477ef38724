"""What hurts or hurt, and what went before it."""

from reportgen.model.findings import EpisodeFact
from reportgen.view.page import Block, Paragraph, Points, Table
from reportgen.view.reader import Reader, words
from reportgen.words import Phrase, numbers, spoken


def blocks(reader: Reader) -> tuple[Block, ...]:
    """What hurts or hurt; open places first."""
    pain = reader.facts.pain
    if pain is None or not pain.places:
        return ()
    newest = {one.place.casefold(): one for one in reader.facts.pain_episodes or ()}
    rows = tuple(
        (
            words(p.place, "missed" if p.open else ""),
            words(p.lift),
            words(p.kind),
            words(p.score),
            words(p.first),
            words("open" if p.settled is None else f"settled {numbers.day(p.settled)}"),
            words(_before(newest.get(p.place.casefold()))),
        )
        for p in pain.places
    )
    table = Table(
        caption="Pain, open first; settled pain stops nothing, and what came before need not be the cause",
        head=("place", "during", "kind", "of 10", "since", "state", "two weeks before, of the usual"),
        rows=rows,
        id="pain",
    )
    cautions = (Paragraph(text=spoken(caution), tone="caution") for caution in pain.cautions)
    return (*cautions, table, *_often(tuple(newest.values())))


def _before(one: EpisodeFact | None) -> str:
    """What the two weeks before an episode held against the usual."""
    if one is None:
        return ""
    held = []
    if one.before.load is not None:
        held.append(f"load {numbers.share(one.before.load)}")
    if one.before.sessions is not None:
        held.append(f"sessions {numbers.share(one.before.sessions)}")
    held += [f"no more work on the {area}" for area in one.before.stopped or ()]
    return ", ".join(held)


def _often(episodes: tuple[EpisodeFact, ...]) -> tuple[Block, ...]:
    """What came before pain in one place more than once."""
    items: list[Phrase] = [
        (f"Before pain in this place, {one.place}: {numbers.listing(times)}.",)
        for one in episodes
        if (times := [f"{alike.sign} {alike.times} of {alike.of} times" for alike in one.alike])
    ]
    return (Points(items=tuple(items)),) if items else ()
