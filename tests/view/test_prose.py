"""Notes are untrusted: what comes out is clean, and nothing of it reaches for the network by itself."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.view.prose import clean


@pytest.mark.parametrize(
    "note",
    [
        "<script>alert(1)</script>",
        "[x](javascript:alert(1))",
        "[x](JaVaScRiPt:alert(1))",
        "[x](data:text/html,<script>alert(1)</script>)",
        "![x](https://example.org/x.png)",
        "<img src=x onerror=alert(1)>",
        "<a href='x' onclick='f()'>x</a>",
        "<style>p{}</style>",
        "<iframe src='https://example.org'></iframe>",
        "**<svg onload=alert(1)>**",
        "<javascript:alert(1)>",
    ],
)
def test_nothing_in_a_note_runs_or_fetches(note: str) -> None:
    tags = re.findall(r"<[^>]*>", clean(note))
    assert not [
        t for t in tags if re.search(r"script|\bon\w+=|\bsrc=|style|iframe|svg|img|data:", t, re.IGNORECASE)
    ]


def test_headings_begin_below_those_of_the_page() -> None:
    assert clean("# One\n\n## Two\n\n###### Six") == "<h4>One</h4>\n<h5>Two</h5>\n<h6>Six</h6>"


def test_plain_markdown_stays() -> None:
    html = clean("Keep the *depth*.\n\n- a\n- b\n\n[study](https://example.org/x)")
    assert "<em>depth</em>" in html
    assert html.count("<li>") == 2
    assert 'href="https://example.org/x"' in html
    assert 'rel="noopener noreferrer nofollow"' in html


def test_a_link_to_a_file_beside_the_page_loses_its_address() -> None:
    assert "href" not in clean("[x](../squad.html)")


@settings(max_examples=60)
@given(st.text(alphabet=st.sampled_from("<>&\"'`()[]!#*_-=/:ajscriptonerd \n"), max_size=80))
def test_cleaning_leaves_only_allowed_tags(note: str) -> None:
    allowed = {"p", "br", "hr", "strong", "em", "code", "pre", "blockquote", "ul", "ol", "li", "h4", "h5",
               "h6", "a", "table", "thead", "tbody", "tr", "th", "td", "del"}  # fmt: skip
    assert set(re.findall(r"<\s*/?\s*([a-zA-Z][\w-]*)", clean(note))) <= allowed
