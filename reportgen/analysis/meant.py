"""What a number that can't be right may have meant."""

from collections.abc import Iterator

from reportgen.trade.schema import Trade

#: Between two meanings.
OR = " or "
_MOST = 2


def said(kg: float, unit: str, trade: Trade) -> str:
    """A weight in the lifter's unit, as it may have been written: `180 kg`, `396.5 lb`."""
    value = kg / trade.value("pound") if unit == "lb" else kg
    return f"{round(value, 1):g} {unit}"


def reason(key: str, likely: str) -> str:
    """The key of the sentence: with what may be meant, where somebody can say so."""
    return f"{key}_likely" if likely else key


def likely(kg: float, low_kg: float, high_kg: float, unit: str, trade: Trade) -> str:
    """What a load or a mass may have meant: a lost point, digits swapped, doubled or one too many, pounds.

    Args:
        kg: What stood there [kg].
        low_kg: The lightest that the rest makes likely.
        high_kg: The heaviest.
        unit: kg or lb: in which digits are looked at.
        trade: Rule `pound`.

    Returns:
        One or two weights, joined by `OR`; "" where none fits.
    """
    unit_kg = trade.value("pound") if unit == "lb" else 1.0
    found = [value * unit_kg for value in _digits(kg / unit_kg)]
    # Pounds only where they are near the top: any load would be some light set in pounds.
    if unit == "kg" and kg * trade.value("pound") > low_kg + (high_kg - low_kg) / 3:
        found.append(kg * trade.value("pound"))
    fits = dict.fromkeys(said(one, unit, trade) for one in found if low_kg <= one <= high_kg)
    return OR.join([*fits][:_MOST])


def _digits(value: float) -> Iterator[float]:
    text = f"{round(value, 2):g}"
    for at, digit in enumerate(text):
        rest = text[:at] + text[at + 1 :]
        doubled = at > 0 and text[at - 1] == digit
        if digit.isdigit() and rest.strip(".") and (at == 0 or doubled):
            yield float(rest)
    yield value / 10
    for at in range(len(text) - 1):
        swapped = text[:at] + text[at + 1] + text[at] + text[at + 2 :]
        if "." not in text[at : at + 2] and not swapped.startswith("0"):
            yield float(swapped)
    for at, digit in enumerate(text):
        if digit.isdigit():
            yield from (float(text[:at] + str(n) + text[at + 1 :]) for n in range(int(digit) - 1, 0, -1))
