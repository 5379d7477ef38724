"""Phrases and numbers become HTML: weights stay numbers that the page's script can turn into pounds."""

from markupsafe import Markup, escape

from reportgen.words import Phrase, numbers


def phrase(parts: Phrase, unit: numbers.Unit) -> Markup:
    """A phrase as HTML.

    Args:
        parts: Words and weights [kg].
        unit: The reader's unit, printed where no script runs.

    Returns:
        Escaped words; each weight in a `data` element that holds its kilograms.
    """
    out: list[Markup] = []
    for part in parts:
        if isinstance(part, str):
            out.append(escape(part))
            continue
        shown = numbers.weight(part.kg, unit, sign=part.sign)
        sign = Markup(" data-sign") if part.sign else Markup()
        out.append(Markup('<data class="kg" value="{}"{}>{}</data>').format(f"{part.kg:.10g}", sign, shown))
    return Markup().join(out)
