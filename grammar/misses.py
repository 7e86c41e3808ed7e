"""Lines that the grammar does not take: where they left it, and what would have been right."""

from __future__ import annotations

import re
from functools import cached_property

from grammar.errors import GrammarError, Impossible
from grammar.expected import expectations, expected_in_words
from grammar.frozen import frozen
from grammar.match import NoParse
from grammar.repair import nearest
from grammar.words import Word


@frozen
class Mistake:
    """A frequent slip, known by its look."""

    pattern: str
    """Found in the words joined by single spaces."""
    answer: str
    example: str
    """A line that makes it; the tests try each."""


_SIDES = r"(below|low|under|down|above|high|over|up)"
MISTAKES = (
    Mistake(
        rf"(-|\+|minus|plus|negative|positive) .*\b{_SIDES}$",
        "Say the side once: minus 18, or 18 below.",
        "B3 minus 18 below",
    ),
    Mistake(
        rf"\b{_SIDES} (-|\+|minus|plus)",
        "Say the side once: minus 18, or 18 below.",
        "B3 below minus 18",
    ),
    Mistake(
        r"^(room|grid|wall|point \w+ at|how deep at) .*\d$",
        "The unit is missing: say metres, feet, or another one.",
        "room 12 by 8",
    ),
    Mistake(
        r"^door \S+ (left|right) .*[^t]$",
        "A door takes both jambs: door 1 left minus 4 right minus 9.",
        "door 1 left minus 4",
    ),
    Mistake(
        r"^wall ([^a-z]|metres|\d)",
        "Say which way the wall runs: wall east 4.2 metres.",
        "wall 4.2 metres",
    ),
    Mistake(
        r"^what if (tally|map|doors|warnings|weight|cut|high|low|how|what|products$|confirm)",
        "What if goes before something that changes the job: what if raise finish 3 mm.",
        "what if tally",
    ),
    Mistake(
        r"^correct \S+$",
        "Say what the reading should be: correct B3 to minus 16.",
        "correct B3",
    ),
)
_DECIMAL_COMMA = re.compile(r"\d,\d")


class Misunderstood(GrammarError):
    """A line that the grammar does not take."""

    def __init__(
        self,
        text: str,
        words: list[Word],
        stop: NoParse | None,
        senseless: Impossible | None = None,
    ) -> None:
        super().__init__(text)
        self.text = text
        self._words = words
        self._stop = stop
        self._senseless = str(senseless or "")
        at = stop.at if stop else _index_at(words, senseless)
        self.at_end = stop is not None and at >= len(words)
        self.position = len(text.rstrip()) if self.at_end else words[at].start
        """Offset in the text where it stopped making sense."""
        self.found = "" if self.at_end else text[words[at].start : words[at].end]
        """The word that did not fit; empty at the end of the line."""

    @cached_property
    def accepted(self) -> tuple[str, ...]:
        """What would have been accepted there."""
        if self._stop is None:
            return (self._senseless,)
        return expected_in_words(expectations(self._stop.state))

    @cached_property
    def nearest(self) -> str | None:
        """The nearest line that works, in its short form; worked out when asked for."""
        return nearest(self.text, self._words)

    def explain(self) -> str:
        """What was wrong, what would have been right, in a sentence or two."""
        parts = [self._where()]
        hint = self._known_mistake()
        if hint:
            parts.append(hint)
        elif self._stop is not None and self._stop.at > 0:
            parts.append(f"I would take {_listed(self.accepted)}.")
        if self.nearest:
            parts.append(f"Nearest: {self.nearest}")
        elif self._stop is not None and self._stop.at == 0:
            parts.append("Say 'what can I say' for the list.")
        return " ".join(parts)

    def _where(self) -> str:
        before = _clip(self.text[: self.position].strip())
        if self._stop is None:
            return f"“{_clip(self.text.strip())}” makes no sense: {self._senseless}."
        if self.at_end:
            return f"“{before}” is not finished."
        if not before:
            return f"I don't know “{_clip(self.found)}” at the start of a line."
        return f"I follow “{before}”, but not “{_clip(self.found)}” after it."

    def _known_mistake(self) -> str | None:
        if _DECIMAL_COMMA.search(self.text):
            return "A decimal takes a point: 2.5, not 2,5."
        joined = " ".join(word.text for word in self._words)
        for mistake in MISTAKES:
            if re.search(mistake.pattern, joined):
                return mistake.answer
        return None


def _index_at(words: list[Word], senseless: Impossible | None) -> int:
    start = senseless.start if senseless else 0
    return next((i for i, word in enumerate(words) if word.start == start), 0)


def _clip(text: str, most: int = 60) -> str:
    shown = "".join(sign if sign.isprintable() else "·" for sign in text)
    return shown if len(shown) <= most else f"{shown[:most]}…"


def _listed(names: tuple[str, ...], most: int = 6) -> str:
    shown = list(names[:most])
    if not shown:
        return "nothing more"
    return shown[0] if len(shown) == 1 else f"{', '.join(shown[:-1])} or {shown[-1]}"
