"""The numbers in a line, in figures: said in words, written, and with what may be a part of one."""

from __future__ import annotations

from grammar.confusable import LINE_WRITTEN, NUMBERS_WRITTEN
from grammar.numbers import DIGITS, TEENS, TENS, ZEROS
from grammar.slots import ROLES
from grammar.words import FRACTION, NUMERAL, WORD, Word

UNITS = {
    **ROLES["metric_unit"],
    **ROLES["inch"],
    **ROLES["foot"],
    **dict.fromkeys(("l", "ltr", "ltrs", "litre", "litres", "liter", "liters"), "litres"),
    **dict.fromkeys(("ml", "millilitre", "millilitres", "milliliters"), "ml"),
    **dict.fromkeys(("quart", "quarts"), "quarts"),
    **dict.fromkeys(("gallon", "gallons"), "gallons"),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), "lb"),
    **dict.fromkeys(("%", "percent", "pc", "pct"), "%"),
    **dict.fromkeys(("degrees", "degree", "deg", "celsius"), "degrees"),
    "fahrenheit": "degrees fahrenheit",
}
"""A word -> the unit that it is after a number."""
LENGTHS = ("mm", "cm", "m", "in", "ft")

_PARTS = {**ROLES["half"], **ROLES["quarter"], **ROLES["eighth"], **ROLES["sixteenth"]}
"""A word for a part of one -> how many of them make one."""
LINES = frozenset(("column", "columns", "col", "cols", "row", "rows"))
NAMES_A_NUMBER = (
    LINES
    | frozenset("line door strip benchmark crack opening batch number point value".split())
    | LINE_WRITTEN
)
ONE = frozenset(("a", "an", "one", "1"))
BY = frozenset(("by", "x", "times"))
SIGNS = {word: "-" if value < 0 else "+" for word, value in ROLES["sign"].items()}


_OF_ONE = frozenset("this that which next last first other another old new the".split())
_TEN_TIMES = frozenset(("teen", "tea", "ty"))
COUNT = {**DIGITS, **TEENS, **TENS}


def figure(number: str) -> str:
    return str(COUNT[number])


class NumbersSaid:
    """The numbers of a line, looked for word by word."""

    def __init__(self, words: tuple[Word, ...], heard: bool) -> None:
        self.words = words
        self.heard = heard

    def _text(self, at: int) -> str:
        return self.words[at].text if 0 <= at < len(self.words) else ""

    def _kind(self, at: int) -> str:
        return self.words[at].kind if 0 <= at < len(self.words) else ""

    def _figures(self, at: int, *, plain: bool = False) -> tuple[str | None, int]:
        """A number in figures that begins here, and where it ends; None where none does."""
        text = self._text(at)
        whole, end = self._whole(at)
        if whole is None:
            if text in ("point", "decimal") and not plain:
                return self._below_one(at)
            return self._part(at, at)
        is_numbered = self._text(at - 1) in ("line", "lines")
        if self._text(end) in ("point", "decimal") and not plain and not is_numbered:
            tail, tail_end = self._digits(end + 1)
            if tail and not self.words[end].after_pause and whole.isdigit():
                return f"{whole}.{tail}", tail_end
        if self._kind(end) == FRACTION and not self.words[end].after_pause:
            return f"{whole} {self._text(end)}", end + 1
        if self._text(end) in _PARTS and whole.isdigit() and int(whole) < 16:
            return f"{whole}/{_PARTS[self._text(end)]}", end + 1
        if self._text(end) == "and":
            part, part_end = self._part(end + 1, end + 1)
            if part is not None and part_end > end + 1:
                return f"{whole} {part}", part_end
        return whole, end

    def _below_one(self, at: int) -> tuple[str | None, int]:
        """ "Point five metres": less than one where a size is spoken of."""
        tail, end = self._digits(at + 1)
        sized = self._text(end) in BY | UNITS.keys() or self._text(at - 1) in BY | {"buy"}
        of_hearing = self.heard and self._text(end) == "buy"
        return (f"0.{tail}", end) if tail and (sized or of_hearing) else (None, at)

    def _digits(self, at: int) -> tuple[str, int]:
        """The digits after a point."""
        tail, end = "", at
        while end < len(self.words) and not (self.words[end].after_pause and end > at):
            digit = self._digit(end, first=end == at)
            if digit is None:
                break
            tail, end = tail + digit, end + 1
        return tail, end

    def _digit(self, at: int, *, first: bool) -> str | None:
        text = self._text(at)
        if self._kind(at) == NUMERAL:
            return text if text.isdigit() else None
        if text in COUNT and (text != "too" or self.heard):
            return str(COUNT[text])
        if not self.heard or text not in NUMBERS_WRITTEN:
            return None
        is_hard = text in ("to", "for") and first and self._text(at + 1) not in UNITS
        return None if is_hard else figure(NUMBERS_WRITTEN[text])

    def _part(self, at: int, start: int) -> tuple[str | None, int]:
        """A half, three quarters, an eighth."""
        if self._kind(at) == FRACTION:
            return self._text(at), at + 1
        top = 1
        if self._text(at) in ONE and self._text(at + 1) in _PARTS:
            at += 1
        elif self._text(at) in DIGITS and self._text(at + 1) in _PARTS:
            top, at = DIGITS[self._text(at)], at + 1
        elif self._text(at) != "half" and self._text(at) not in ("quarter",):
            return None, start
        return f"{top}/{_PARTS[self._text(at)]}", at + 1

    def _whole(self, at: int) -> tuple[str | None, int]:
        """A number without a part that begins here, in figures or in words."""
        text = self._text(at)
        if self._kind(at) == NUMERAL:
            return text, at + 1
        if self._kind(at) != WORD:
            return None, at
        if text in ZEROS and text != "oh":
            return "0", at + 1
        if text in ("a", "one") and self._text(at + 1) in ("hundred", "thousand"):
            return self._whole(at + 1)
        if text == "thousand":
            return "1000", at + 1
        if text in ("a", "an") or (text == "one" and self._text(at + 1) in _PARTS):
            return None, at
        if text == "too" and not self.heard:
            return None, at
        if (small := self._under_hundred(at)) is None:
            if text != "hundred":
                return None, at
            small = (1, at)
        value, end = small
        if self._text(end) == "hundred":
            value, end = value * 100, end + 1
            more = end + (self._text(end) == "and")
            if (rest := self._under_hundred(more)) is not None:
                value, end = value + rest[0], rest[1]
        return str(value), end

    def _under_hundred(self, at: int) -> tuple[int, int] | None:
        text = self._text(at)
        if text in TENS:
            if (ones := self._ones(at + 1)) and not self.words[at + 1].after_pause:
                return TENS[text] + ones, at + 2
            return TENS[text], at + 1
        if text == "one" and not self._counts(at):
            return None
        if text in COUNT and text != "too":
            return COUNT[text], at + 1
        if self.heard and text in NUMBERS_WRITTEN:
            value, after = int(figure(NUMBERS_WRITTEN[text])), self._text(at + 1)
            if after in _TEN_TIMES and value > 2:
                return (value + 10 if after == "teen" else value * 10), at + 2
            if self._is_a_number(at):
                return value, at + 1
        return None

    def _ones(self, at: int) -> int | None:
        """The ones after tens."""
        text = self._text(at)
        if self.heard and text in ("ate", "too", "won", "sicks", "nein"):
            return int(figure(NUMBERS_WRITTEN[text]))
        return DIGITS.get(text) if text != "too" else None

    def _counts(self, at: int) -> bool:
        """Whether "one" counts or measures; "this one" does neither."""
        before, after = self._text(at - 1), self._text(at + 1)
        if before in NAMES_A_NUMBER or before in SIGNS or before in BY or after in BY:
            return True
        if after in ("point", "hundred", "thousand", "bag", "bags", "in", "low", "high", "and"):
            return before not in _OF_ONE
        return after in UNITS or after in ROLES["side"]

    def _is_a_number(self, at: int) -> bool:
        """Whether what sounds like a number stands where only one may."""
        before, after, text = self._text(at - 1), self._text(at + 1), self._text(at)
        if before in SIGNS or before in NAMES_A_NUMBER:
            return True
        if before == "to" and self._follows_a_number(at - 1):
            return text != "to"
        if after == "point" and self._digits(at + 2)[0]:
            return True
        if after in UNITS and after not in ("in", "'", '"', "m"):
            return True
        if text in ("won", "ate", "sicks", "nein"):
            return bool({before, after} & (BY | {"buy", "point"})) or text in ("ate", "nein")
        return before in ("by", "buy") or (after in ("by", "buy") and before != "")

    def _follows_a_number(self, at: int) -> bool:
        """Whether a number stands before a word."""
        before = self._text(at - 1)
        return self._kind(at - 1) == NUMERAL or before in COUNT or before in NUMBERS_WRITTEN
