"""A command to the words it is said in aloud: every way at once, as a template.

The way back of :mod:`grammar.spoken`. A recogniser is given these to weigh a command
that it did not think of by itself.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from decimal import Decimal
from typing import Any

from grammar.commands import Command, Measure, Reading
from grammar.errors import Unsayable
from grammar.figures import in_figures
from grammar.numbers import DIGITS, TENS, ZEROS, as_fraction, in_words, plain
from grammar.phrase import Phrase
from grammar.points import ALPHABET
from grammar.spoken import Manner, Spoken, plain_words, spoken_nodes
from grammar.template import Literal, Node, SlotNode, read

_UNIT_WORDS = {
    "mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches", "ft": "feet",
}  # fmt: skip
_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth"}


def said_aloud(spoken: Spoken, command: Command, written: bool = False) -> str | None:
    """
    A template of all ways to say a command, or None where it cannot be said.

    With ``written`` the numbers may also be figures.

    >>> said_aloud(Spoken(), Command())
    """
    values = {
        field.name: getattr(command, field.name)
        for field in fields(command)
        if getattr(command, field.name) is not None
    }
    voice = _Voice(spoken, written)
    ways = [
        way
        for phrase in spoken.phrases
        if isinstance(command, phrase.command)
        and (way := voice.phrase(phrase, dict(values))) is not None
    ]
    return " | ".join(ways) if ways else None


def first_way(template: str) -> str:
    """
    The first of all ways that a template gives.

    >>> first_way("[point] bravo (three | 3) minus (one | a) hundred [and] five")
    'bravo three minus one hundred five'
    """
    return " ".join(_first_words(read(template)))


def _first_words(nodes: tuple[Node, ...]) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, Literal):
            yield node.word
        elif not isinstance(node, SlotNode) and not node.optional:
            yield from _first_words(node.ways[0])


def written_ways(words: str) -> str:
    """
    A template of all ways in which a piece of a sentence may be written.

    >>> written_ways("fifteen"), written_ways("one five"), written_ways("delta")
    ('(fifteen | 1 +5)', '(one five | 1 5 | 1 +5)', '(delta)')
    """
    plainly = plain_words(words)
    said = " ".join(plainly)
    ways = [said, _TENS_AND_ONES.sub(r"\1 +- +\2", said)]
    if all(word in _FIGURES for word in plainly):
        ways.append(" ".join(str(_FIGURES[word]) for word in plainly))
    ways.append(" ".join(_token(token) for token in in_figures(said).split()))
    return f"({' | '.join(dict.fromkeys(ways))})"


_FIGURES = DIGITS | ZEROS
_TENS_AND_ONES = re.compile(rf"\b({'|'.join(TENS)}) ({'|'.join(DIGITS)})\b")


def _token(token: str) -> str:
    """A number in figures as the pieces that a recogniser joins, any other word as it is."""
    if not token[:1].isdigit():
        return token
    first, *rest = re.findall(r"[0-9]|[./]", token)
    return " ".join([first, *(f"+{sign}" for sign in rest)])


class _Voice:
    """Values to templates, in one manner of numbers."""

    def __init__(self, spoken: Spoken, written: bool) -> None:
        self.spoken = spoken
        self.manner: Manner = spoken.manner
        self.written = written

    def phrase(self, phrase: Phrase, values: dict[str, Any]) -> str | None:
        """One phrase with these values, or None where it does not hold just them."""
        for name, value in phrase.fixed:
            if values.pop(name, None) != value:
                return None
        if phrase.fields < values.keys() or not phrase.fields >= values.keys():
            return None
        used: set[str] = set()
        try:
            words = self.nodes(spoken_nodes(phrase), values, used)
        except Unsayable:
            return None
        return words if used == values.keys() else None

    def nodes(self, nodes: tuple[Node, ...], values: Mapping[str, Any], used: set[str]) -> str:
        """A row of nodes; raises :class:`Unsayable` where a value for one is missing."""
        parts = []
        for node in nodes:
            if isinstance(node, Literal):
                parts.append(node.word.lower())
            elif isinstance(node, SlotNode):
                held = [values.get(name) for name in node.fields]
                if any(value is None for value in held):
                    raise Unsayable
                used.update(node.fields)
                parts.append(self.slot(node.slot, held[0] if len(held) == 1 else held))
            else:
                parts.append(self._either(node.ways, node.optional, values, used))
        return " ".join(part for part in parts if part)

    def _either(
        self,
        choices: tuple[tuple[Node, ...], ...],
        optional: bool,
        values: Mapping[str, Any],
        used: set[str],
    ) -> str:
        ways, needed = [], False
        for choice in choices:
            mine: set[str] = set()
            try:
                ways.append(self.nodes(choice, values, mine))
            except Unsayable:
                continue
            needed = needed or bool(mine)
            used |= mine
        if not ways:
            if optional:
                return ""
            raise Unsayable
        inside = " | ".join(ways)
        return f"[{inside}]" if optional and not needed else f"({inside})"

    def slot(self, slot: str, value: Any) -> str:
        """A value as its slot is said."""
        say: Callable[[Any], str] | None = getattr(self, f"_{slot}", None)
        if say is None:
            raise Unsayable
        return say(value)

    # --- numbers ------------------------------------------------------------

    def whole(self, number: int, below: int = 100) -> str:
        """A whole number from one, in words of the manner or in figures."""
        if not 1 <= number < below:
            raise Unsayable
        ways = [_digits(str(number)) if self.manner == "digits" else _worded(number)]
        if self.written:
            ways.append(_joined(str(number)))
            if number < 100 and number % 10 and number > 20 and self.manner == "words":
                tens, ones = in_words(number).split()
                ways.append(f"{tens} +- +{ones}")
            if number > 9 and self.manner == "digits":
                ways.append(" ".join(str(number)))
        return f"({' | '.join(ways)})"

    def number(self, number: Decimal, below: int = 100, places: int = 1) -> str:
        """A number that may have decimals."""
        whole, _, decimals = plain(number).partition(".")
        if not decimals:
            return self.whole(int(whole), below)
        if len(decimals) > places or not 0 <= int(whole) < 100:
            raise Unsayable
        before = "zero" if int(whole) == 0 else self.whole(int(whole)).strip("()").split(" | ")[0]
        ways = [f"{before} point {_digits(decimals)}"]
        if self.written:
            ways.append(" ".join((_joined(str(int(whole))), "+.", *(f"+{d}" for d in decimals))))
        return f"({' | '.join(ways)})"

    def fraction(self, number: Decimal) -> str:
        """Inches: a whole number, a part, or both."""
        parts = as_fraction(number)
        if parts is None:
            return self.whole(int(number))
        whole, top, bottom = parts
        if bottom not in _PARTS:
            raise Unsayable
        name = _PARTS[bottom]
        article = "an" if name == "eighth" else "a"
        part = f"(one | {article}) {name}" if top == 1 else f"{in_words(top)} {name}s"
        if not whole:
            figures = f" | {_joined(str(top))} +/ {_tied(str(bottom))}" if self.written else ""
            return f"({part}{figures})"
        figures = f" | {_joined(str(whole))} {_joined(str(top))} +/ {_tied(str(bottom))}"
        return f"({self.whole(whole)} and {part}{figures if self.written else ''})"

    # --- slots ----------------------------------------------------------------

    def _point(self, name: str) -> str:
        letters = [sign for sign in name if sign.isalpha()]
        if len(letters) > (2 if self.spoken.two_letter_columns else 1):
            raise Unsayable
        said = [ALPHABET[ord(letter) - ord("A")] for letter in letters]
        return " ".join([*said, self.whole(int(name[len(letters) :]))])

    def _whole(self, number: int) -> str:
        return self.whole(number)

    def _number(self, number: Decimal) -> str:
        return self.number(number)

    def _percent(self, number: Decimal) -> str:
        said = self.number(number, 101)
        return f"{said} (percent | +%)" if self.written else f"{said} percent"

    def _size(self, size: Measure) -> str:
        if size.unit in ("mm", "cm"):
            said = self.number(size.number, 1000 if size.unit == "mm" else 100)
        elif size.unit == "in":
            said = self.fraction(size.number)
        else:
            raise Unsayable
        return f"{said} {_UNIT_WORDS[size.unit]}"

    def _loose(self, size: Measure) -> str:
        return self._size(size)

    def _reading(self, reading: Reading) -> str:
        if reading.number == 0 and reading.unit is None:
            return "level"
        return self._signed_reading(reading)

    def _signed_reading(self, reading: Reading) -> str:
        if not reading.side_said or reading.number == 0:
            raise Unsayable
        sign = "minus" if reading.number < 0 else "plus"
        size = self._size(Measure(abs(reading.number), reading.unit))
        if self.written and self.spoken.open_unit and reading.unit == "mm":
            # The unit first: one way of all is what is looked for among those heard already.
            size = f"({size} | {size.removesuffix(_UNIT_WORDS['mm']).rstrip()})"
        return f"{sign} {size}"

    def _length(self, length: Measure) -> str:
        number, unit = length.number, length.unit
        if unit == "ft-in":
            feet, inches = divmod(number, 12)
            if inches == 0:
                raise Unsayable
            return f"{self.whole(int(feet))} feet {self.whole(int(inches))} inches"
        if unit == "m":
            return f"{self.number(number, places=2)} metres"
        if unit == "mm" and number == int(number):
            return f"{self.whole(int(number), 10_000)} millimetres"
        if unit in ("in", "ft") and number == int(number):
            return f"{self.whole(int(number))} {_UNIT_WORDS[unit]}"
        if unit == "cm":
            return self._size(length)
        raise Unsayable

    def _pair(self, pair: list[Measure]) -> str:
        first, second = pair
        families = {("ft" if m.unit == "ft-in" else m.unit) for m in pair}
        if len(families) > 1 or not families <= {"m", "mm", "ft"}:
            raise Unsayable
        one = self._length(first)
        if first.unit == second.unit and first.unit in ("m", "mm", "ft"):
            number, _, unit = one.rpartition(" ")
            one = f"{number} [{unit}]"
        return f"{one} by {self._length(second)}"

    def _temperature(self, temperature: Any) -> str:
        sign = "minus " if temperature.number < 0 else ""
        scale = {"C": " celsius", "F": " fahrenheit", None: ""}[temperature.scale]
        return f"{sign}{self.number(abs(temperature.number))} degrees{scale}"

    def _direction(self, direction: str) -> str:
        return direction

    def _substrate(self, substrate: str) -> str:
        return substrate

    def _reading_unit(self, unit: str) -> str:
        return _UNIT_WORDS[unit]

    def _name(self, name: str) -> str:
        for said, meant in self.spoken.names_said.items():
            if meant == name:
                return said
        raise Unsayable

    def _change(self, change: Command) -> str:
        said = said_aloud(self.spoken, change, self.written)
        if said is None:
            raise Unsayable
        return f"({said})"


def _digits(figures: str) -> str:
    return " ".join("zero" if sign == "0" else in_words(int(sign)) for sign in figures)


def _worded(number: int) -> str:
    """
    The words of a number, with what people leave out.

    >>> _worded(105)
    '(one | a) hundred [and] five'
    """
    words = in_words(number).replace(" and ", " [and] ")
    if 100 <= number < 200:
        words = words.replace("one hundred", "(one | a) hundred", 1)
    return words


def _joined(figures: str) -> str:
    return " ".join([figures[0], *(f"+{sign}" for sign in figures[1:])])


def _tied(figures: str) -> str:
    return " ".join(f"+{sign}" for sign in figures)
