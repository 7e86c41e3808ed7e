"""The keys of a product card: what each may hold, and what to say when it does not.

Ranges here catch slips of the pen (grams for kilograms, a density of 2.0); they are far
wider than any product. What a real product allows is for its card to say.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import isfinite
from typing import Any, NoReturn

from assistant.errors import CardError
from grammar.frozen import frozen

__all__ = [
    "DEFAULT_AGGREGATE_DENSITY",
    "FLOW_CLASSES",
    "KEYS",
    "Fault",
    "all_faults",
    "check_values",
    "value_checked",
]

# Widest pin spacing in metres by how the product flows: freely, or only when helped along.
# Source: one maker's advice; a card with a spacing of its own decides.
FLOW_CLASSES = {"free": 3.0, "stiff": 1.2}

# Particle density of quartz sand and gravel, kg/m³. Source: common practice, no source.
DEFAULT_AGGREGATE_DENSITY = 2650.0

# The heaviest powder a leveller is made of is portland cement, about 3150 kg/m³ (from memory).
HEAVIEST_POWDER_KG_M3 = 3150.0


@frozen
class Number:
    """A key that holds one number."""

    low: float
    high: float
    """Both allowed."""
    what: str
    """Names it with its unit, for "must be ..."."""
    required: bool = True
    whole: bool = False


@frozen
class Range:
    """A key that holds two numbers, the lower first; they may be the same."""

    low: float
    high: float
    what: str
    required: bool = True


@frozen
class Text:
    """A key that holds words."""

    what: str
    longest: int
    required: bool = True
    letters_only: bool = False
    choices: tuple[str, ...] = ()


KEYS: dict[str, Number | Range | Text] = {
    "name": Text("the product's name", 60, letters_only=True),
    "note": Text("a remark", 500, required=False),
    "min_mm": Number(0, 300, "the least depth in millimetres"),
    "max_mm": Number(1, 1000, "the greatest depth without aggregate, in millimetres"),
    "max_with_aggregate_mm": Number(
        1, 1000, "the greatest depth with aggregate, in millimetres", required=False
    ),
    "max_aggregate_percent": Number(
        1, 200, "the most aggregate, in percent of the powder's mass", required=False
    ),
    "aggregate_density_kg_m3": Number(
        500, 5000, "the density of the stones themselves, in kilograms a cubic metre", False
    ),
    "bag_kg": Number(1, 1500, "the mass of a full bag in kilograms"),
    "water_l": Range(0.1, 1000, "litres of mix water for one bag, least and most"),
    "wet_density_kg_m3": Number(
        800, 3000, "the density of the wet mix, in kilograms a cubic metre", required=False
    ),
    "yield_l": Number(0.3, 2000, "the litres that one bag makes", required=False),
    "mixing_min": Number(0.5, 60, "the minutes that a bag is mixed", required=False),
    "slaking_min": Number(
        0.5, 60, "the minutes that a mix stands before it is stirred once more", required=False
    ),
    "flow_mm": Range(
        30, 600, "the spread in the flow test in millimetres, least and most", required=False
    ),
    "working_time_min": Number(1, 600, "the working time in minutes"),
    "foot_traffic_h": Number(0.25, 168, "the hours until it can be walked on"),
    "covering_h": Number(
        0.25, 5000, "the hours until it may be covered, at the least", required=False
    ),
    "heating_h": Number(
        1, 5000, "the hours until heating in the floor may be warmed up", required=False
    ),
    "flow": Text("how the product flows", 20, choices=tuple(FLOW_CLASSES)),
    "pin_spacing_m": Number(
        0.3, 6, "the widest spacing of pins in metres, where the data sheet has one", False
    ),
    "temperature_c": Range(-20, 50, "degrees Celsius, lowest and highest"),
    "primer_m2_per_l": Number(
        0.5, 50, "the square metres that a litre of primer covers in one coat", required=False
    ),
    "primer_coats": Number(1, 5, "the coats of primer", required=False, whole=True),
    "primer_drying_min": Range(
        1, 4320, "the minutes that the primer dries, least and most", required=False
    ),
    "max_slab_humidity_percent": Number(
        50, 100, "the most relative humidity in the slab, in percent", required=False
    ),
    "max_emission_lb": Number(
        0.5, 25, "the most moisture emission in pounds a thousand square feet in 24 hours", False
    ),
    "ph": Range(0, 14, "the pH of the surface, least and most", required=False),
    "bags_per_pallet": Number(1, 500, "the bags on a pallet", required=False, whole=True),
}


@frozen
class Fault:
    """What is wrong with a card, and at which of its keys."""

    keys: tuple[str, ...]
    text: str
    """A sentence that begins with the key, and says what would be right."""


class _Faulty(CardError):
    """Raised by the checks here; only the two doors below let it out, with the file's name."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.text)
        self.fault = fault


def check_values(values: Mapping[str, Any], source: str) -> dict[str, Any]:
    """The values with ranges as tuples and numbers as floats; :class:`CardError` if any is off."""
    checked, faults = _looked_at(values)
    if faults:
        more = f" ({len(faults) - 1} more: leadsman products check)" if len(faults) > 1 else ""
        raise CardError(f"{source}: {faults[0].text}{more}")
    return checked


def all_faults(values: Mapping[str, Any]) -> tuple[Fault, ...]:
    """Everything that is wrong with a card's values, in the order of the keys."""
    return _looked_at(values)[1]


def value_checked(key: str, value: Any) -> Any:
    """One value as a card may have it; :class:`CardError` says what would be right."""
    return _checked_value(key, KEYS[key], value)


def _looked_at(values: Mapping[str, Any]) -> tuple[dict[str, Any], tuple[Fault, ...]]:
    """The values that are right by themselves, and all faults."""
    faults: list[Fault] = []
    checked: dict[str, Any] = {}

    def tried(check: Callable[..., Any], *given: Any) -> Any:
        try:
            return check(*given)
        except _Faulty as faulty:
            faults.append(faulty.fault)
            return None

    for key in values:
        if key not in KEYS:
            tried(refuse, clip_text(key), unknown_key(key))
    for key, rule in KEYS.items():
        if rule.required and key not in values:
            tried(refuse, key, f"is missing; it must be {rule.what}")
    for key, rule in KEYS.items():
        if key in values:
            found = tried(_checked_value, key, rule, values[key])
            if found is not None:
                checked[key] = found
    for must_stand in (check_one_of_two, check_pair):
        tried(must_stand, values)
    # A value that is wrong by itself gets one error; the rules for pairs would only repeat it.
    wrong = values.keys() - checked.keys()
    for check, needs, looks_at in _TOGETHER:
        if checked.keys() >= set(needs) and not wrong & {*needs, *looks_at}:
            tried(check, checked)
    return checked, tuple(faults)


def _checked_value(key: str, rule: Number | Range | Text, value: Any) -> Any:
    """One value, by its rule."""
    if isinstance(rule, Text):
        return checked_text(key, rule, value)
    if isinstance(rule, Number):
        return checked_number(key, rule, value)
    if not isinstance(value, list | tuple) or len(value) != 2:
        refuse(key, f"must be two numbers, {rule.what}, as in [5.0, 5.5]")
    low, high = (checked_number(key, rule, each) for each in value)
    if low > high:
        refuse(key, f"has the lower number last; write [{high:g}, {low:g}]")
    return low, high


def checked_number(key: str, rule: Number | Range, value: Any) -> float | int:
    """One number within its bounds."""
    whole = isinstance(rule, Number) and rule.whole
    if isinstance(value, bool) or not isinstance(value, int | float):
        refuse(key, f"must be a number without quotes: {rule.what}")
    if not (isfinite_number(value) and rule.low <= value <= rule.high):
        refuse(
            key,
            f"is {spelt_number(value)}, but must be {rule.what}, from {rule.low:g} to {rule.high:g}"
            + likely_slip(key, value),
        )
    if not whole:
        return float(value)
    if value != int(value):
        refuse(key, f"must be a whole number: {rule.what}")
    return int(value)


def checked_text(key: str, rule: Text, value: Any) -> str:
    """Words that can be shown, and said where they are a name."""
    if not isinstance(value, str):
        refuse(key, f'must be words in quotes: {rule.what}, as in {key} = "..."')
    text = " ".join(value.split())
    if not text and rule.required:
        refuse(key, f"is empty; it must be {rule.what}")
    if len(text) > rule.longest:
        refuse(key, f"is too long; at most {rule.longest} characters")
    if not text.isprintable():
        refuse(key, "has characters that cannot be shown")
    if rule.letters_only and not all(word.isalpha() for word in text.split()):
        refuse(key, "must be letters and spaces only, so that it can be said")
    if rule.choices and text not in rule.choices:
        refuse(key, f"is {clip_text(text)!r}, but must be " + " or ".join(rule.choices))
    return text


# --- values that must agree ------------------------------------------------------


def check_depths(card: Mapping[str, Any]) -> None:
    """The least depth is not over the greatest."""
    if card["min_mm"] > card["max_mm"]:
        refuse("min_mm", f"is more than max_mm ({card['max_mm']:g})", "max_mm")


def check_one_of_two(card: Mapping[str, Any]) -> None:
    """Density and yield follow from each other: one is given."""
    if ("wet_density_kg_m3" in card) == ("yield_l" in card):
        refuse(
            "wet_density_kg_m3",
            "and yield_l: one of the two must be given, and not both; the other follows from it",
            "yield_l",
        )


def check_pair(card: Mapping[str, Any]) -> None:
    """Depth and share of aggregate stand together or not at all."""
    pair = ("max_with_aggregate_mm", "max_aggregate_percent")
    missing = [key for key in pair if key not in card]
    if len(missing) == 1:
        other = (set(pair) - set(missing)).pop()
        refuse(missing[0], f"is missing; it goes with {other}", other)


def check_aggregate(card: Mapping[str, Any]) -> None:
    """Aggregate makes a product good for more depth, not for less."""
    if card["max_with_aggregate_mm"] < card["max_mm"]:
        refuse(
            "max_with_aggregate_mm",
            f"is less than max_mm ({card['max_mm']:g}), which is without",
            "max_mm",
        )


def check_water(card: Mapping[str, Any]) -> None:
    """Litres a bag, not millilitres or a share of the powder."""
    low, high = card["water_l"]
    # mixes take 0.18 to 0.25 litres a kilogram (common practice, no source)
    if low < 0.05 * card["bag_kg"] or high > 1.0 * card["bag_kg"]:
        refuse(
            "water_l",
            f"is {low:g} to {high:g} litres, which no bag of {card['bag_kg']:g} kg takes; "
            "it must be litres for one bag",
            "bag_kg",
        )


def check_density(card: Mapping[str, Any]) -> None:
    """A mix cannot be denser than its powder and water without any air, nor mostly air."""
    if ("yield_l" in card) == ("wet_density_kg_m3" in card):
        return
    powder, water = card["bag_kg"], sum(card["water_l"]) / 2
    key = "yield_l" if "yield_l" in card else "wet_density_kg_m3"
    density = card.get("wet_density_kg_m3") or 1000 * (powder + water) / card["yield_l"]
    airless = (powder + water) / (powder / HEAVIEST_POWDER_KG_M3 + water / 1000)
    if not 800 <= density <= airless:
        refuse(
            key,
            f"makes a wet mix of {density:.0f} kilograms a cubic metre; with this bag and water "
            f"it must be between 800 and {airless:.0f}",
        )


_BAG_AND_WATER = ("bag_kg", "water_l")
_ONE_OF_TWO = ("wet_density_kg_m3", "yield_l")
_Together = Callable[[Mapping[str, Any]], None]
_TOGETHER: tuple[tuple[_Together, tuple[str, ...], tuple[str, ...]], ...] = (
    (check_depths, ("min_mm", "max_mm"), ()),
    (check_aggregate, ("max_mm", "max_with_aggregate_mm"), ()),
    (check_water, _BAG_AND_WATER, ()),
    (check_density, _BAG_AND_WATER, _ONE_OF_TWO),
)
"""Each check with the keys that it needs, and those that it looks at where they are given."""


# --- saying so -----------------------------------------------------------------


def refuse(key: str, fault: str, *others: str) -> NoReturn:
    """The error with its key, what would be right, and the other keys that it is about."""
    raise _Faulty(Fault((key, *others), f"{key} {fault}."))


def unknown_key(key: str) -> str:
    """The error for a key that no card has, with the key that was probably meant."""
    from rapidfuzz import process

    found = process.extractOne(key[:60], list(KEYS), score_cutoff=60)
    offer = f"; {found[0]} was perhaps meant" if found else f". The keys are {', '.join(KEYS)}"
    return f"is not a key of a product card{offer}"


# Slips that a number gives away: the unit it was probably written in, and the factor to ours.
SLIPS: dict[str, tuple[tuple[str, float], ...]] = {
    "min_mm": (("metres", 1000),),
    "max_mm": (("metres", 1000),),
    "max_with_aggregate_mm": (("metres", 1000),),
    "bag_kg": (("grams", 0.001),),
    "water_l": (("millilitres", 0.001),),
    "yield_l": (("millilitres", 0.001), ("cubic metres", 1000)),
    "wet_density_kg_m3": (("kilograms a litre", 1000),),
    "aggregate_density_kg_m3": (("kilograms a litre", 1000),),
    "pin_spacing_m": (("millimetres", 0.001),),
    "foot_traffic_h": (("minutes", 1 / 60),),
}


def likely_slip(key: str, value: float) -> str:
    """The unit that was probably used instead, where the number shows it."""
    rule = KEYS[key]
    if isinstance(rule, Text) or not isfinite_number(value) or value <= 0:
        return ""
    if key == "temperature_c" and rule.low <= (value - 32) / 1.8 <= rule.high:
        return f"; {value:g} degrees Fahrenheit would be {(value - 32) / 1.8:.0f}"
    for unit, factor in SLIPS.get(key, ()):
        if rule.low <= value * factor <= rule.high:
            return f"; {value:g} {unit} would be {value * factor:g}"
    return ""


def isfinite_number(value: float) -> bool:
    """Finite, and not an integer beyond all floats."""
    try:
        return isfinite(value)
    except OverflowError:
        return False


def spelt_number(value: float) -> str:
    """A number as short as it can be said."""
    return f"{value:g}" if isfinite_number(value) else "not a number that can be used"


def clip_text(text: str) -> str:
    """No more of a stranger's text than fits in a sentence, and only what can be shown."""
    shown = "".join(each if each.isprintable() else "?" for each in str(text))
    return shown if len(shown) <= 40 else shown[:37] + "..."
