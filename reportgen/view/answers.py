"""Where a reader answers: the findings for decisions.csv, the questions for a note."""

import datetime as dt
from typing import Literal

from reportgen.view.page import Answers
from reportgen.words import exists, text

_WORDS = (
    "open", "kept", "changed", "dropped", "why", "check", "clear", "title", "how", "rows", "save", "copy", "share",
    "missing", "done", "failed", "note", "question", "reply", "bare",
)  # fmt: skip


def block(of: Literal["findings", "questions"], day: dt.date) -> Answers:
    """The place where answers gather.

    Args:
        of: What is answered.
        day: The review day: an answer is dated by what it answers, whatever the reader's clock says.
    """
    keys = {name: f"answers.{of}.{name}" for name in _WORDS}
    words = {name: text(key, date=day) if exists(key) else "" for name, key in keys.items()}
    return Answers(of=of, day=day.isoformat(), words=words)
