"""Lines that the grammar does not take: where they left it, and what would have been right."""

from __future__ import annotations

import re
from functools import cache, cached_property

from grammar.asked_back import ASKED_BACK
from grammar.errors import GrammarError, Impossible, LikeTalk
from grammar.example import Example, worded
from grammar.expected import expected_in_words, expected_terminals
from grammar.frozen import frozen
from grammar.lacking import LACKING
from grammar.match import NoParse
from grammar.phrases import PHRASES
from grammar.slots import EXPECTED
from grammar.small_words import IDLE
from grammar.template import Literal, walk_template
from grammar.words import MOST_WORDS, Word


@frozen
class Mistake:
    """A frequent slip, known by its look."""

    pattern: str
    """Found in the words joined by single spaces."""
    answer: str | Example
    example: str
    """A line that makes it; the tests try each."""


_SIDE_ONCE = Example(
    "Say the side once: minus 18, or 18 below.", "Say the side once: minus 3/4, or 3/4 below."
)
_SIDES = r"(below|low|under|down|above|high|over|up)"
MISTAKES = (
    Mistake(
        rf"(-|\+|minus|plus|negative|positive) .*\b{_SIDES}$",
        _SIDE_ONCE,
        "B3 minus 18 below",
    ),
    Mistake(
        rf"\b{_SIDES} (-|\+|minus|plus)",
        _SIDE_ONCE,
        "B3 below minus 18",
    ),
    Mistake(
        # Values of a line, one of which nobody could read.
        r"^((values|line \d+ values) )?(?=.*(\d|level))((-|\+|minus|plus|level|mm|\d\S*) )*"
        r"(skip|skipped|missing|blank|nan|none|nothing|unread)\b(?! because)"
        r"( (-|\+|minus|plus|level|mm|\d\S*))*$",
        "A line has a value at every place, as what it shows hangs on the next ones: end line "
        "before what is in the way, and begin another past it.",
        "0, skip, minus 1",
    ),
    Mistake(
        r"^(room|grid|wall|point \w+ at|how deep at) (?!.*\b(m|metres?|meters?|mm|cm|feet|foot"
        r"|ft|in"
        r"|inch|inches|millimetres?|centimetres?)\b).*(\d|one|two|three|four|five|six|seven|eight|nine"
        r"|ten|twelve|half)$",
        Example(
            "The unit is missing: say metres, feet, or another one.",
            "The unit is missing: say feet, inches, or another one.",
        ),
        "room 12 by 8",
    ),
    Mistake(
        r"^door \S+ (left|right) .*[^t]$",
        Example(
            "A door takes both jambs: door 1 left minus 4 right minus 9.",
            "A door takes both jambs: door 1 left minus 1/8 right minus 3/8.",
        ),
        "door 1 left minus 4",
    ),
    Mistake(
        r"^door \S+ (is |was |reads |sits )*(dead |quite |nearly )?(level|flat|even|plumb)$",
        "Which of it: left and right, or the floor outside? Say each with its height, as left "
        "level right level, or outside level.",
        "door 1 is level",
    ),
    Mistake(
        r"^(pour|pouring) (is |has |was )*(stopped|halted|paused|interrupted|on hold)$",
        "Where it stands still: stop pour. Where the whole floor is poured: pour finished.",
        "pour has stopped",
    ),
    Mistake(
        r"^wall ([^a-z]|metres|\d)",
        Example(
            "Say which way the wall runs: wall east 4.2 metres.",
            "Say which way the wall runs: wall east 14 feet.",
        ),
        "wall 4.2 metres",
    ),
    Mistake(
        r"^what if (tally|map|doors|warnings|weight|cut|high|low|how|what|products$|confirm)",
        Example(
            "What if goes before something that changes the job: what if raise finish 3 mm.",
            "What if goes before something that changes the job: what if raise finish 1/8 inch.",
        ),
        "what if tally",
    ),
    Mistake(
        r"^correct \S+$",
        "What should it be? Say the value, or strike it.",
        "correct B3",
    ),
    Mistake(
        r"^((close|finish|end|complete) (this )?job|job (is )?(done|finished|complete))$",
        "“quit” ends the chat, and all is on disk; “put job away” takes the job from the list.",
        "close job",
    ),
    Mistake(
        r"^(rename|copy|duplicate|name|call) (this )?job( to| as)?$",
        "Say the name, too: rename job to boat shed, copy job to boat shed upstairs.",
        "rename job",
    ),
    Mistake(
        r"^(note|remark|comment|memo)$",
        "Say what to note: note at B2 crack along the wall.",
        "note",
    ),
    Mistake(
        r"^(delete|remove|strike|scratch|forget|cancel) (last |that |this )?(note|remark|comment)$",
        "A note just made is taken back with undo; it stays in the record.",
        "delete the note",
    ),
    *(Mistake(pattern, answer, example) for pattern, answer, example in (*ASKED_BACK, *LACKING)),
)
_DECIMAL_COMMA = re.compile(r"\d,\d")


EXPECTED_NAMES = frozenset(EXPECTED.values())


@cache
def main_words() -> frozenset[str]:
    """Words of the templates themselves that say something; not those of other ways."""
    return frozenset(
        leaf.word.lower()
        for phrase in PHRASES
        for leaf in walk_template(phrase.nodes)
        if isinstance(leaf, Literal) and leaf.word.lower() not in IDLE
    )


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
        self._is_talk = isinstance(senseless, LikeTalk)
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
        return expected_in_words(expected_terminals(self._stop.state))

    @cached_property
    def nearest(self) -> str | None:
        """The nearest line that works, in its short form; worked out when asked for."""
        from grammar.gist import nearest_line  # it takes the whole language, and a miss may not ask

        return None if self.is_known else nearest_line(self.text)

    @property
    def is_known(self) -> bool:
        """Whether what is wrong is plain, so that nothing else is to be guessed."""
        if self._stop is None:
            return not self._is_talk
        return self._known_mistake() is not None

    def explain(self, unit: str = "mm") -> str:
        """What was wrong, what would have been right, where readings are in `unit`."""
        parts = [self._where()]
        hint = self._known_mistake(unit)
        if hint:
            parts.append(hint)
        elif self._stop is not None and self._stop.at > 0 and (taken := self._worth_telling()):
            parts.append(f"I would take {_listed(taken)}.")
        elif self._stop is not None and (self._stop.at == 0 or self.accepted or self.at_end):
            parts.append("Say 'help' for the list.")
        return " ".join(parts)

    def _worth_telling(self) -> tuple[str, ...]:
        """What would have been accepted, without the small words of other ways to say it."""
        if not self.accepted:
            return () if self.at_end else ("nothing more",)
        main = main_words()
        return tuple(name for name in self.accepted if name in EXPECTED_NAMES or name in main)

    def _where(self) -> str:
        before = _clip(self.text[: self.position].strip())
        if self._stop is None:
            return f"“{_clip(self.text.strip())}” makes no sense: {self._senseless}."
        if self.at_end:
            return f"“{before}” is not finished."
        if not before:
            return f"I don't know “{_clip(self.found)}” at the start of a line."
        return f"I follow “{before}”, but not “{_clip(self.found)}” after it."

    def _known_mistake(self, unit: str = "mm") -> str | None:
        if _DECIMAL_COMMA.search(self.text):
            return "A decimal takes a point: 2.5, not 2,5."
        if self.found.startswith("."):
            return "A decimal takes one point, with its figures on both sides of it: 12.5."
        if len(self._words) > MOST_WORDS:
            return (
                f"A line has at most {MOST_WORDS} words and figures: values with their signs go "
                f"{MOST_WORDS // 2} at a time."
            )
        joined = " ".join(word.text for word in self._words)
        for mistake in MISTAKES:
            if re.search(mistake.pattern, joined):
                return worded((mistake.answer,), unit)
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
