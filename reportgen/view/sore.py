"""What hurts or hurt, and what went before it."""

from reportgen.model.findings import EpisodeFact
from reportgen.view import pieces
from reportgen.view.page import Block
from reportgen.view.reader import Reader, words
from reportgen.words import Phrase, phrase, say


def blocks(reader: Reader) -> tuple[Block, ...]:
    """What hurts or hurt; open places first."""
    pain = reader.facts.pain
    if pain is None or not pain.places:
        return ()
    newest = {one.place.casefold(): one for one in reader.facts.pain_episodes}
    rows = (
        (
            words(one.place, "missed" if one.open else ""),
            one.lift,
            one.kind,
            one.score,
            one.first,
            say("head.sore.open") if one.settled is None else say("head.sore.settled", date=one.settled),
            _before(newest.get(one.place.casefold())),
        )
        for one in pain.places
    )
    often = [
        say(
            "head.sore.often",
            place=one.place,
            times=tuple(say("head.sore.alike", sign=a.sign, times=a.times, of=a.of) for a in one.alike),
        )
        for one in newest.values()
        if one.alike
    ]
    return (
        *(pieces.paragraph(caution, "caution") for caution in pain.cautions),
        pieces.table("head.sore", rows, address="pain"),
        *((pieces.points(often),) if often else ()),
    )


def _before(one: EpisodeFact | None) -> Phrase | None:
    """What the two weeks before an episode held against the usual."""
    if one is None:
        return None
    shares = (("load", one.before.load), ("sessions", one.before.sessions))
    held = [say(f"head.sore.{what}", share=share) for what, share in shares if share is not None]
    held += [say("head.sore.stopped", area=area) for area in one.before.stopped or ()]
    return phrase("head.sore.before", held=tuple(held))
