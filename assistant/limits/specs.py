"""What a floor can be held to, read from ``specs.toml`` and checked to the letter."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from assistant.errors import LeadsmanError
from assistant.flatness.limits_by_distance import LimitsByDistance
from grammar.frozen import frozen

__all__ = [
    "SPECS_FILE",
    "Apart",
    "FormulaRow",
    "Spec",
    "SpecError",
    "SpecLimit",
    "apart_specs",
    "formula_row",
    "named_apart",
    "read_specs",
    "specs",
    "specs_named",
]

SPECS_FILE = Path(__file__).with_name("specs.toml")

_NEEDS = {
    "gap": {"length_m", "limit_mm"},
    "own distance": {"length_m"},
    "three points": set(),
    "ff": {"least"},
    "fl": {"least"},
    "ff local": {"least"},
    "fl local": {"least"},
    "from finish": {"limit_mm"},
}
_BY_DISTANCE = ("own distance", "three points")
_KNOWN = ("read", "two sources", "three sources", "from memory", "practice")
_APART = {"name", "why", "says", "known"}
_TEXTS = ("name", "use", "source", "known")


class SpecError(LeadsmanError):
    """A file of specifications that cannot be used; names the row and the key."""


@frozen
class SpecLimit:
    """One limit of a specification."""

    test: str
    """``gap``, ``own distance``, ``three points``, ``ff``, ``fl``, the last two with `` local``
    after them, or ``from finish``."""
    length_m: Fraction | None = None
    """Of the straightedge, the longest one where the limit grows with the distance."""
    limit: Fraction | None = None
    """Millimetres, or an F-number; None where it grows with the distance."""
    columns: LimitsByDistance | None = None
    contact: bool = False
    """Whether only gaps between points of contact count."""


@frozen
class Spec:
    """What a floor can be held to, by its name."""

    name: str
    use: str
    source: str
    known: str
    limits: tuple[SpecLimit, ...]
    ways: bool = False
    """Whether the limits are ways to try the same thing."""

    @property
    def told_source(self) -> str:
        """The source, with how surely it is known."""
        return f"{self.source} ({self.known})" if self.known else self.source


@frozen
class FormulaRow:
    """The numerators of the two F-numbers, millimetres, and where they are from."""

    ff_mm: float
    fl_mm: float
    source: str


@frozen
class Apart:
    """What is asked for by name, and not held to here."""

    name: str
    why: str
    says: str
    """What is known of it, or what would do instead."""
    known: str

    @property
    def in_words(self) -> str:
        """In a sentence."""
        return f"{self.name} {self.why}: {self.says} ({self.known})."


@cache
def _read() -> tuple[tuple[Spec, ...], FormulaRow, tuple[Apart, ...]]:
    return read_specs(SPECS_FILE.read_text(encoding="utf-8"), SPECS_FILE.name)


def specs() -> tuple[Spec, ...]:
    """All specifications, in the order of their file."""
    return _read()[0]


def formula_row() -> FormulaRow:
    """The constants of the E1155 formula."""
    return _read()[1]


def apart_specs() -> tuple[Apart, ...]:
    """What a floor is not held to here, though it may be asked for."""
    return _read()[2]


def named_apart(said: str) -> tuple[Apart, ...]:
    """
    Those of them that a name can mean.

    >>> [each.name for each in named_apart("din row 5")]
    ['DIN 18202 row 5']
    """
    words = set(_words(said))
    return tuple(each for each in apart_specs() if words and words <= set(_words(each.name)))


def specs_named(said: str) -> tuple[Spec, ...]:
    """
    Those that a name can mean: the one of just that name, or all that have its words.

    >>> [spec.name for spec in specs_named("row 3")], [spec.name for spec in specs_named("bs SR1")]
    (['DIN 18202 row 3'], ['BS 8204 SR1'])
    """
    words = _words(said)
    just = tuple(spec for spec in specs() if _words(spec.name) == words)
    return just or tuple(spec for spec in specs() if words and set(words) <= set(_words(spec.name)))


def _words(name: str) -> list[str]:
    # "SR 1" and "SR1" are the same, and so are "F710" and "F 710".
    return re.findall(r"[^\W\d]+|\d+", name.lower())


def read_specs(text: str, source: str) -> tuple[tuple[Spec, ...], FormulaRow, tuple[Apart, ...]]:
    """
    Specifications from the text of their file, the formula's row, and what is not held to here.

    Raises
    ------
    SpecError
        At the first fault.
    """
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise SpecError(f"{source}: is not a TOML file: {fault}.") from fault
    tables, formula = content.get("spec"), content.get("e1155")
    aside = content.get("apart", [])
    if (
        not isinstance(tables, list)
        or not isinstance(aside, list)
        or not isinstance(formula, dict)
        or content.keys() - {"apart"} != {"e1155", "spec"}
    ):
        raise SpecError(f"{source}: must be an [e1155] table, [[spec]] and [[apart]] tables.")
    if formula.keys() != {"ff", "fl", "source"}:
        raise SpecError(f"{source}: [e1155] has ff, fl and source.")
    found = tuple(
        _spec(f"{source}: specification {at + 1}", each) for at, each in enumerate(tables)
    )
    names = [tuple(_words(each.name)) for each in found]
    for spec, name in zip(found, names, strict=True):
        if names.count(name) > 1:
            raise SpecError(f"{source}: two specifications are called {spec.name!r}.")
    row = FormulaRow(25.4 * formula["ff"], 25.4 * formula["fl"], formula["source"])
    apart = tuple(_apart(f"{source}: apart {at + 1}", each) for at, each in enumerate(aside))
    return found, row, apart


def _apart(where: str, table: Mapping[str, Any]) -> Apart:
    if table.keys() != _APART or not all(isinstance(each, str) for each in table.values()):
        raise SpecError(f"{where}: has {', '.join(sorted(_APART))}, each a text.")
    return Apart(**table)


def _spec(where: str, table: Mapping[str, Any]) -> Spec:
    for key in table:
        if key not in {*_TEXTS, "ways", "columns", "limits"}:
            raise SpecError(f"{where}: {key} is not a key of a specification.")
    for key in _TEXTS:
        if not isinstance(table.get(key), str) or not table[key].strip():
            raise SpecError(f"{where}: {key} is missing.")
    where = f"{where} ({table['name']})"
    if table["known"] not in _KNOWN:
        raise SpecError(f"{where}: known is one of {', '.join(_KNOWN)}.")
    columns = _columns(where, table["columns"]) if "columns" in table else None
    limits = tuple(_limit(where, each, columns) for each in table.get("limits", ()))
    if not limits:
        raise SpecError(f"{where}: there is no limit.")
    ways = table.get("ways", False) is True
    return Spec(table["name"], table["use"], table["source"], table["known"], limits, ways)


def _columns(where: str, rows: Sequence[Any]) -> LimitsByDistance:
    exact = [(Fraction(metres), limit) for metres, limit in rows]
    if len(exact) < 2 or exact != sorted(exact) or exact[0][0] <= 0:
        raise SpecError(f"{where}: columns go on with the distance, their limits grow.")
    return LimitsByDistance(tuple((metres, limit) for metres, limit in rows))


def _limit(where: str, table: Mapping[str, Any], columns: LimitsByDistance | None) -> SpecLimit:
    test = table.get("test")
    if test not in _NEEDS:
        raise SpecError(f"{where}: test is one of {', '.join(_NEEDS)}, not {test}.")
    if table.keys() - {"test", "contact"} != _NEEDS[test]:
        raise SpecError(f"{where}: {test} has {', '.join(sorted(_NEEDS[test])) or 'nothing more'}.")
    if (test in _BY_DISTANCE) and columns is None:
        raise SpecError(f"{where}: {test} wants columns.")
    limit = table.get("limit_mm", table.get("least"))
    length = table.get("length_m")
    return SpecLimit(
        test,
        None if length is None else _more_than_nothing(where, length),
        None if limit is None else _more_than_nothing(where, limit),
        columns if test in _BY_DISTANCE else None,
        table.get("contact", False) is True,
    )


def _more_than_nothing(where: str, number: Any) -> Fraction:
    try:
        exact = Fraction(number)
    except (TypeError, ValueError):
        exact = Fraction(0)
    if exact <= 0 or not isinstance(number, str):
        raise SpecError(f'{where}: {number} is no number in quotes above zero, as "4.7625".')
    return exact
