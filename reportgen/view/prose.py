"""Notes in Markdown to clean HTML; the only module that makes `Markup`."""

import re
from typing import Final

import markdown
import nh3
from markupsafe import Markup

_TAGS: Final = {
    "p", "br", "hr", "strong", "em", "code", "pre", "blockquote", "ul", "ol", "li",
    "h4", "h5", "h6", "a", "table", "thead", "tbody", "tr", "th", "td", "del",
}  # fmt: skip
#: Deepest heading level of the page above a note: the note's own first level follows it.
_ABOVE: Final = 3
_LOWEST: Final = 6
#: What reads Markdown takes time by the square of these; a text beyond them is shown as it stands.
_MOST_LETTERS: Final = 300_000
_MOST_BRACKETS: Final = 500
_HEADING: Final = re.compile(r"<(/?)h([1-6])(?=[\s>])")


def _demoted(match: re.Match[str]) -> str:
    level = min(int(match[2]) + _ABOVE, _LOWEST)
    return f"<{match[1]}h{level}"


def _plain(text: str) -> Markup:
    """The text as it stands, a paragraph a blank line, with every letter of it only a letter."""
    parts = (part.strip() for part in re.split(r"\n\s*\n", text))
    return Markup("\n").join(Markup("<p>{}</p>").format(part) for part in parts if part)


def clean(text: str) -> Markup:
    """Markdown of an untrusted note as HTML that can stand inside a page.

    Raw HTML is escaped, images fall away, links keep http, https and mailto only, headings begin at h4.
    """
    if len(text) > _MOST_LETTERS or text.count("[") > _MOST_BRACKETS:
        return _plain(text)
    reader = markdown.Markdown(extensions=["tables", "sane_lists"], output_format="html")
    # Without these two a note's own tags would pass through unseen; nh3 is the second lock, not the first.
    reader.preprocessors.deregister("html_block")
    reader.inlinePatterns.deregister("html")
    try:
        html = _HEADING.sub(_demoted, reader.convert(text))
    except RecursionError:
        return _plain(text)
    return Markup(
        nh3.clean(
            html,
            tags=_TAGS,
            clean_content_tags={"script", "style"},
            attributes={"a": {"href"}},
            url_schemes={"http", "https", "mailto"},
            link_rel="noopener noreferrer nofollow",
            url_relative="deny",
        )
    )
