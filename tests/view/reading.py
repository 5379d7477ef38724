"""What the tests read of a page."""

from reportgen.view.page import Figure, Page, Paragraph, Points
from reportgen.view.reader import plain


def section(page: Page, id_: str) -> str:
    """All words of one section outside its tables and findings."""
    part = next(s for s in page.sections if s.id == id_)
    words = [part.lead]
    for block in part.blocks:
        if isinstance(block, Figure):
            words.append(block.sentence)
        elif isinstance(block, Paragraph):
            words.append(block.text)
        elif isinstance(block, Points):
            words.extend(block.items)
    return " ".join(plain(w, "kg") for w in words)
