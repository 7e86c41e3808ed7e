"""Lengths, readings, names and counts in words, to read and to say.

To read: figures with units. To say: the name first, digits one by one, the
unit, then below or above; never a bare sign.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from assistant.units.lengths import inches, nearest_inch_fraction, show_length
from grammar.commands import Measure
from grammar.numbers import in_words, plain_number, spelled_digits
from grammar.slots.measure import short_measure, spoken_measure
from grammar.slots.point import spoken_point
from grammar.slots.reading import spoken_reading

SQUARE_FEET_PER_M2 = 1 / 0.3048**2
CUBIC_FEET_PER_M3 = 1 / 0.3048**3
POUNDS_PER_KG = 1 / 0.45359237
GALLONS_PER_LITRE = 1 / 3.785411784
"""Exact by definition: 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 US gal = 231 cubic inches."""


# --- as it was said ----------------------------------------------------------------


def as_said(measure: Measure) -> str:
    """A length as it was said: ``18 mm``, ``13 ft 6 in``."""
    return short_measure(measure)


def said_height(measure: Measure) -> str:
    """A height against the zero as it was said: ``18 mm below``, ``level``."""
    if measure.number == 0:
        return "level"
    size = Measure(abs(measure.number), measure.unit)
    return f"{short_measure(size)} {'below' if measure.number < 0 else 'above'}"


def spoken_said(measure: Measure) -> str:
    """A length to say."""
    return spoken_measure(abs(measure.number), measure.unit or "mm")


def spoken_height(measure: Measure) -> str:
    """A height against the zero to say."""
    return spoken_reading(measure.number, measure.unit or "mm")


def spoken_name(name: str) -> str:
    """A point's name to say; other words as they are."""
    return spoken_point(name) if name[-1:].isdigit() and name.isalnum() else name


def spoken_zone(name: str) -> str:
    """A zone's name to say: "zone two", "kitchen"."""
    return " ".join(spoken_number(int(w)) if w.isdigit() else w for w in name.split())


# --- as it was worked out ------------------------------------------------------------


def length(mm: Fraction | float, unit: str) -> str:
    """A depth or step to read, in the job's unit."""
    return show_length(mm, unit)


def height(mm: Fraction | float, unit: str, zero: str = "the zero") -> str:
    """A worked-out height against a zero to read: ``4 mm above the zero``."""
    if mm == 0:
        return f"at {zero}"
    return f"{show_length(_size(mm), unit)} {'below' if mm < 0 else 'above'} {zero}"


def spoken_length(mm: Fraction | float, unit: str) -> str:
    """A depth or step to say: tenths of a millimetre, or sixteenths of an inch, no finer."""
    return spoken_measure(_sayable(mm, unit), unit)


def spoken_millimetres(mm: Fraction | float) -> str:
    """A depth to say after another length in millimetres, without naming them again."""
    return spelled_digits(_sayable(mm, "mm"))


def spoken_worked_height(mm: Fraction | float, unit: str) -> str:
    """A worked-out height against the zero to say."""
    if mm == 0:
        return "at the zero"
    return f"{spoken_length(_size(mm), unit)} {'below' if mm < 0 else 'above'} zero"


def _size(mm: Fraction | float) -> Fraction | float:
    return -mm if mm < 0 else mm


def _sayable(mm: Fraction | float, unit: str) -> Decimal:
    if unit == "in":
        exact = inches(mm)
        on_a_rule = (64 * exact).denominator == 1
        part = exact if on_a_rule else nearest_inch_fraction(mm)
        return Decimal(part.numerator) / Decimal(part.denominator)
    exact_mm = Decimal(repr(float(mm)))
    tenths = exact_mm.quantize(Decimal("0.1"), rounding=ROUND_HALF_UP)
    return tenths.to_integral_value() if tenths == tenths.to_integral_value() else tenths


def distance(metres: float, unit: str) -> str:
    """A distance over the floor to read: metres, or feet and inches to the eighth."""
    return as_said(_over_the_floor(metres, unit))


def spoken_distance(metres: float, unit: str) -> str:
    """A distance over the floor to say."""
    return spoken_said(_over_the_floor(metres, unit))


def _over_the_floor(metres: float, unit: str) -> Measure:
    if unit == "in":
        eighths = nearest_inch_fraction(metres * 1000, 8)
        inches_long = Decimal(eighths.numerator) / eighths.denominator
        if inches_long < 12:
            return Measure(inches_long, "in")
        feet, rest = divmod(inches_long, 12)
        return Measure(inches_long, "ft-in") if rest else Measure(feet, "ft")
    return Measure(Decimal(figure(metres, 3)), "m")


def area(square_metres: float, unit: str) -> str:
    """A floor's area to read; with other kinds of quantity, in the system of the job's readings."""
    if unit == "in":
        return f"{figure(square_metres * SQUARE_FEET_PER_M2, 1)} ft²"
    return f"{figure(square_metres, 2)} m²"


def spoken_area(square_metres: float, unit: str) -> str:
    """The same to say."""
    if unit == "in":
        return f"{figure(square_metres * SQUARE_FEET_PER_M2, 0)} square feet"
    return f"{figure(square_metres, 1)} square metres"


def volume(cubic_metres: float, unit: str) -> str:
    """A volume to read: m³ and litres, or cubic feet where readings are in inches."""
    if unit == "in":
        return f"{figure(cubic_metres * CUBIC_FEET_PER_M3, 1)} ft³"
    return f"{figure(cubic_metres, 3)} m³ ({figure(cubic_metres * 1000, 0)} L)"


def short_volume(cubic_metres: float, unit: str) -> str:
    """A volume for a column: litres, or cubic feet where readings are in inches."""
    if unit == "in":
        return f"{figure(cubic_metres * CUBIC_FEET_PER_M3, 1)} ft³"
    return f"{figure(cubic_metres * 1000, 0)} L"


def spoken_volume(cubic_metres: float, unit: str) -> str:
    """A volume to say, whole litres or cubic feet."""
    if unit == "in":
        return spoken_count(round(cubic_metres * CUBIC_FEET_PER_M3), "cubic foot", "cubic feet")
    return spoken_count(round(cubic_metres * 1000), "litre")


def liquid(unit: str, *litres: float, places: int = 1) -> str:
    """
    Water or primer to read, the least and the most of it where there are two.

    >>> liquid("mm", 5.5, 6), liquid("in", 5.5, 6)
    ('5.5 to 6 L', '1.5 to 1.6 US gal')
    """
    name, factor = ("US gal", GALLONS_PER_LITRE) if unit == "in" else ("L", 1.0)
    return f"{' to '.join(figure(each * factor, places) for each in litres)} {name}"


def mass(kg: float, unit: str, places: int = 1) -> str:
    """
    A mass to read.

    >>> mass(25, "mm"), mass(22.68, "in")
    ('25 kg', '50 lb')
    """
    if unit == "in":
        return f"{figure(kg * POUNDS_PER_KG, places)} lb"
    return f"{figure(kg, places)} kg"


def error_size(mm: float, unit: str) -> str:
    """
    How far something may be off, to read: a tenth of a millimetre, or a hundredth of an inch.

    More places are shown of what would read as nothing.

    >>> error_size(0.62, "mm"), error_size(0.62, "in"), error_size(0.1, "in")
    ('0.6 mm', '0.02 in', '0.004 in')
    """
    size, places = (mm / 25.4, 2) if unit == "in" else (mm, 1)
    while figure(size, places) == "0" and places < _MOST_PLACES:
        places += 1
    return f"{figure(size, places)} {unit}"


_MOST_PLACES = 4
"""Digits after the point of the finest error that is shown."""


def slope(mm_a_metre: float, unit: str) -> str:
    """
    A fall to read.

    >>> slope(10, "mm"), slope(10, "in")
    ('10 mm a metre', '0.12 in a foot')
    """
    if unit == "in":
        return f"{figure(mm_a_metre * 0.012, 2)} in a foot"
    return f"{figure(mm_a_metre, 1)} mm a metre"


def figure(number: float | Decimal, places: int) -> str:
    """
    A number rounded, without idle zeros or a minus before nothing.

    >>> figure(0.500, 3), figure(-0.0001, 2), figure(1200, 0)
    ('0.5', '0', '1200')
    """
    return _no_idle_zeros(f"{number:.{places}f}")


def _no_idle_zeros(text: str) -> str:
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def percent(number: Decimal) -> str:
    """
    A percentage to read, with all the digits it was said with: what is refused looks refused.

    >>> percent(Decimal("7.0")), percent(Decimal("100.001"))
    ('7 %', '100.001 %')
    """
    return f"{_no_idle_zeros(plain_number(number))} %"


# --- names and counts ------------------------------------------------------------------


def join_names(names: Sequence[str], most: int = 6, last: str = "and") -> str:
    """
    Names joined by commas and a last word.

    >>> join_names(["A1", "B1", "C1"]), join_names(["A1", "B1", "C1"], most=2)
    ('A1, B1 and C1', 'A1, B1 and 1 more')
    """
    if len(names) > most:
        return f"{', '.join(names[:most])} {last} {len(names) - most} more"
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"


def counted(count: int, one: str, many: str | None = None) -> str:
    """
    A count of things.

    >>> counted(1, "point"), counted(12, "point")
    ('1 point', '12 points')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def spoken_count(count: int, one: str, many: str | None = None) -> str:
    """
    A count of things to say.

    >>> spoken_count(12, "point")
    'twelve points'
    """
    return f"{spoken_number(count)} {one if count == 1 else many or one + 's'}"


def spoken_number(count: int) -> str:
    """
    A bare count to say; one too large for plain words stays in figures.

    >>> spoken_number(12)
    'twelve'
    """
    return in_words(count) if 0 <= count < 10_000 else str(count)


def clipped(text: str, most: int) -> str:
    """
    The beginning of a longer text.

    >>> clipped("crack along the wall", 12), clipped("crack", 12)
    ('crack along…', 'crack')
    """
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"


def sentence(text: str) -> str:
    """
    A capital to begin with and a full stop to end.

    >>> sentence("no grid fits")
    'No grid fits.'
    """
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")
