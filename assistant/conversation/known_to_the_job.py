"""
What a line leaves out and the job knows: the only door there is, or the reading that was given last
.

Nothing is taken for it: what the line would mean with that is offered.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress

from assistant.conversation.instead import last_reading
from assistant.errors import Refusal
from assistant.job import Job, being_read, is_poured_over
from assistant.job.reading_history import readings_on_record
from grammar import GrammarError, understand
from grammar.commands import Command, Reading
from grammar.commands.doors import MeasureDoor, MeasureOutside
from grammar.commands.readings import CorrectReading
from grammar.numbers import DIGITS
from grammar.plain_words import in_plain_words
from grammar.small_words import ASKING
from grammar.values_said import values_said
from grammar.words import Word, join_words, split_words

_NUMBERED = re.compile(rf"\b(?:door|doorway) (?:\d+|{'|'.join(DIGITS)})\b")
_DOOR = re.compile(r"\b(?:front |back )?(?:door|doorway)\b")
_SIDE_OF_A_DOOR = re.compile(
    r"\b(?:jambs?|outside|hall|corridor|hallway|landing|doorway|door|dore)\b"
)
_BOTH = re.compile(r"\bboth(?: jambs| sides)?(?: are| is| at| read| reads)* (?P<height>.+)$")
_SAME = re.compile(r"\bleft (?P<height>.+?) (?:and )?right (?:is |the )?same\b")
_BESIDE = re.compile(
    r"\b(?:and|is|are|it|its|the|at|of|a|jambs?|side|hand|tiles?|floor|sits?|reads?|with|has|sill|on)\b"
)
_OUTSIDE = re.compile(r"\b(?:hall|corridor|hallway|landing|outside)\b")


def of_the_only_door(text: str, job: Job) -> Command | None:
    """
    The heights of the only door of the job, where a line says "the door" or a jamb; else None.
    """
    if len(job.doors) != 1 or "?" in text:
        return None
    words = split_words(text)
    line = join_words(word.text for word in in_plain_words(words) or words)
    if line.startswith(("level", "flush", "match", "finish", "even")):
        return None  # what is to be made level with it
    if _NUMBERED.search(line) or not _SIDE_OF_A_DOOR.search(line):
        return None
    line = _SAME.sub(r"left \g<height> right \g<height>", line.replace("dore", "door"))
    line = _BOTH.sub(r"left \g<height> right \g<height>", line)
    outside = _OUTSIDE.search(line) is not None
    line = _BESIDE.sub(" ", _OUTSIDE.sub(" ", _DOOR.sub(" ", line)))
    said = f"door {next(iter(job.doors))} {'outside ' if outside else ''}{' '.join(line.split())}"
    with suppress(GrammarError):
        meant = understand(said)
        if len(meant) == 1 and isinstance(meant[0], MeasureDoor | MeasureOutside):
            return meant[0]
    return None


_TURNS = re.compile(
    r"^(?:no |sorry |oops |i |it |that |this |last one |was |is |should be |should have been "
    r"|meant |mean |make it "
    r"|make that |said )*(?P<side>plus|minus|above|below|positive|negative|high|low)"
    r"(?: not (?:plus|minus|above|below|positive|negative|high|low))?$"
)
_WRONG_SIGN = re.compile(
    r"^(?:i |got |have |the |it is |that is )*(?:wrong|other|opposite|change|flip|swap|turn)(?: "
    r"the)? sign"
    r"(?: on| of| at| for)? ?(?P<point>[a-z]{1,2} ?\d{1,2})?$|^(?:sign is wrong|wrong way round"
    r"|wrong side)"
    r"(?: on| of| at| for)? ?(?P<other>[a-z]{1,2} ?\d{1,2})?$"
)


def with_its_sign_turned(text: str, job: Job) -> Command | None:
    """
    The last reading, or one that is named, with its sign turned: "I meant plus"; else None.
    """
    words = split_words(text)
    line = " ".join(word.text for word in in_plain_words(words) or words)
    turned, wrong = _TURNS.match(line), _WRONG_SIGN.match(line)
    if turned is None and wrong is None:
        return None
    last = last_reading(job)
    point = (wrong["point"] or wrong["other"]) if wrong else None
    if point is not None:
        name = point.replace(" ", "").upper()
        told = [each for each in readings_on_record(being_read(job)) if each.point == name]
        reading = told[-1].said if told else None
    elif last is not None and last.line is None:
        name, reading = last.point, last.reading
    else:
        return None
    if reading is None or not reading.number:
        return None
    if turned is not None and (turned["side"] in _ABOVE) == (reading.number > 0):
        return None
    return CorrectReading(name, Reading(-reading.number, reading.unit))


_ABOVE = frozenset(("plus", "above", "positive", "high"))


_OF_THE_SLAB = re.compile(
    r"\b(?:on|of|at|for|in) (?:the )?(?:slab|first survey)\b|\bslab's\b|\bslab at\b"
    r"|^(?:the )?slab\b"
)


def change_of_closed_slab(text: str, job: Job) -> Refusal | None:
    """Why a reading of the slab is not taken or changed once it is poured over; None otherwise."""
    words = split_words(text)
    line = join_words(word.text for word in words).casefold()
    if not (is_poured_over(job) and _OF_THE_SLAB.search(line)):
        return None
    if "?" in text or words[0].text in ASKING or not _names_a_point(words):
        return None
    return Refusal(
        "The slab is poured over: what was read of it stays as it is, and is shown by “readings of "
        "the slab”. Readings are of the finished floor now, nothing was recorded.",
        spoken="The slab is poured over. What was read of it stays.",
    )


def _names_a_point(words: Sequence[Word]) -> bool:
    return any(value.sort == "point" for value in values_said(words)[0])
