"""What a page was made from: the sum over every file, and whether a page that stands is whole."""

import hashlib

from reportgen.pages import digest


def test_a_file_name_that_is_no_text_counts_like_any_other() -> None:
    names = ("notes/\udcff.md", "notes/\udcfe.md", "notes/\ud800.md", "notes/x.md")
    assert len({digest(((name, b"x"),), (name,)) for name in names}) == len(names)


def test_the_sum_of_plain_names_is_what_it_was() -> None:
    content = hashlib.sha256(b"x").hexdigest()
    said = f"11:notes/\u00e9.md:{content}\noption 10:unit kg \u00e9\n"
    assert (
        digest((("notes/\u00e9.md", b"x"),), ("unit kg \u00e9",)) == hashlib.sha256(said.encode()).hexdigest()
    )
