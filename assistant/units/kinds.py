"""What a word measures, from the one pint registry: a length, a mass, an angle.

pint is imported when a word may be a unit of another kind than a length: no job waits for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any

__all__ = ["what_kind"]

PINT_NAMES = {
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "in": "inch",
    "ft": "foot",
    "ft-in": "inch",
}
"""What pint calls the units that a length is given in; "foot" is the international foot."""


# --- the registry -----------------------------------------------------------


@lru_cache(maxsize=1)
def registry() -> Any:
    """The one pint registry, with exact fractions in place of floats."""
    folder = cache_folder()
    try:
        return make_registry(folder)
    except OSError:
        # a folder that cannot be written costs a tenth of a second, no more
        return make_registry(None)
    except Exception:
        # A cache cut short by a power failure fails in whatever way its bytes suggest;
        # the definitions themselves are sound, so the cache goes and is made anew.
        for leftover in cached_files(folder):
            leftover.unlink(missing_ok=True)
        return make_registry(None)


def make_registry(folder: Path | None) -> Any:
    """A new registry, its parsed definitions kept in the folder."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=folder)


def cache_folder() -> Path:
    """Where pint keeps its parsed definitions between starts."""
    from platformdirs import user_cache_path

    return user_cache_path("leadsman", appauthor=False) / "units"


def cached_files(folder: Path) -> Iterator[Path]:
    """What pint wrote there."""
    for pattern in ("*.pickle", "*.json"):
        yield from folder.glob(pattern)


# --- words of another kind ------------------------------------------------------

# One unit for each kind of quantity that has a plain name; the rest stay nameless.
KINDS = {
    "kilogram": "a mass",
    "kelvin": "a temperature",
    "liter": "a volume",
    "hectare": "an area",
    "second": "a time",
    "pascal": "a pressure",
    "newton": "a force",
    "knot": "a speed",
    "hertz": "a frequency",
    "watt": "a power",
    "joule": "an energy",
    "volt": "a voltage",
    "ampere": "a current",
}

# As people say or write them, where pint knows another word or takes it for another thing
# ("kilos" would be kiloseconds, "c" the speed of light).
SAID = {
    "kilo": "kilogram",
    "kilos": "kilogram",
    "kg": "kilogram",
    "kgs": "kilogram",
    "g": "gram",
    "lb": "pound",
    "lbs": "pound",
    "oz": "ounce",
    "l": "liter",
    "ml": "liter",
    "gal": "gallon",
    "c": "degree_Celsius",
    "°c": "degree_Celsius",
    "centigrade": "degree_Celsius",
    "degrees celsius": "degree_Celsius",
    "degrees centigrade": "degree_Celsius",
    "f": "degree_Fahrenheit",
    "°f": "degree_Fahrenheit",
    "degrees fahrenheit": "degree_Fahrenheit",
    "°": "degree",
    "%": "percent",
    "per cent": "percent",
    "psi": "psi",
    "kpa": "pascal",
    "mpa": "pascal",
    "s": "second",
    "sec": "second",
    "secs": "second",
    "min": "minute",
    "mins": "minute",
    "h": "hour",
    "hr": "hour",
    "hrs": "hour",
}
COUNTED = frozenset({"bag", "bags", "bucket", "buckets", "pallet", "pallets", "coat", "coats"})

# Words of the trade, names of letters and verbs that pint takes for old or learned units.
NOT_UNITS = frozenset(
    {
        "point",
        "points",
        "pin",
        "pins",
        "alpha",
        "quarter",
        "quarters",
        "hand",
        "hands",
        "are",
        "has",
    }
)

# No unit of everyday use has a longer name, and none worth knowing by itself is shorter.
LONGEST_WORD = 40
SHORTEST_NAME = 3


def what_kind(word: str) -> str | None:
    """
    What a word measures, where it is a unit: ``"a mass"``, ``"an angle"``, ``"a volume"``.

    ``"a length"`` for the units a floor is measured in, ``"a length not used here"`` for
    other lengths; None for anything that is no unit. Never raises, and never evaluates
    the word: it is only looked up.

    >>> what_kind("degrees"), what_kind("kilos"), what_kind("banana")
    ('an angle', 'a mass', None)
    """
    if len(word) > LONGEST_WORD:
        return None
    return kind_of(" ".join(word.split()).casefold())


@lru_cache(maxsize=256)
def kind_of(word: str) -> str | None:
    """As :func:`what_kind`, for a word in lower case with single spaces."""
    if word in COUNTED:
        return "a count"
    if word in NOT_UNITS:
        return None
    if word in PINT_NAMES:
        return "a length"
    power, _, rest = word.partition(" ")
    if power in ("square", "cubic") and kind_of(rest) in ("a length", "a length not used here"):
        return "an area" if power == "square" else "a volume"
    name = SAID.get(word) or unit_named(word)
    try:
        return kind_of_unit(name) if name else None
    except Exception:
        # The answer only makes a refusal clearer; whatever odd entry of pint's
        # list was hit, the refusal itself must still be given.
        return None


def unit_named(word: str) -> str | None:
    """The name pint has for a unit written out in full; None for symbols and other words."""
    if len(word) < SHORTEST_NAME or not (word.isascii() and word.isalpha()):
        return None
    for prefix, name, _ in registry().parse_unit_name(word):
        # a prefix counts only where it is spelt: "pins" are no pico-inches
        if word.startswith(prefix):
            return str(prefix + name)
    return None


def kind_of_unit(name: str) -> str | None:
    """What a unit of pint's measures, in plain words."""
    units = registry()
    dimension = units.get_dimensionality(name)
    if not dimension:
        return kind_without_dimension(name)
    if dimension == units.get_dimensionality("meter"):
        used = {units.Unit(ours) for ours in PINT_NAMES.values()}
        return "a length" if units.Unit(name) in used else "a length not used here"
    for example, kind in KINDS.items():
        if dimension == units.get_dimensionality(example):
            return kind
    return "a quantity of another kind"


def kind_without_dimension(name: str) -> str | None:
    """Angles and shares are plain numbers to pint; to an installer they are not."""
    units = registry()
    if units.get_base_units(name)[1] == units.Unit("radian"):
        return "an angle"
    return "a share" if name in ("percent", "permille", "ppm") else None
