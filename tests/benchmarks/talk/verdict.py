"""How what became of a phrase stands to what should."""

from __future__ import annotations

import re
from collections.abc import Callable
from fnmatch import fnmatchcase

from tests.benchmarks.talk.outcome import Outcome, is_known, is_reading, whole
from tests.benchmarks.talk.table import Row

MEANT = "taken as meant"
OFFERED = "offered as meant"
ASKED = "rightly asked or said"
LEFT = "rightly left alone"
HINTED = "named, not taken"
NOTHING = "nothing"
WRONG = "wrong hint"
ANOTHER = "taken as another change"
VERDICTS = (MEANT, OFFERED, ASKED, LEFT, HINTED, NOTHING, WRONG, ANOTHER)
HITS = (MEANT, OFFERED, ASKED, LEFT)

SaidInstead = Callable[[str], Outcome]
"""What becomes of another line, said in the same place."""


def verdict(row: Row, got: Outcome, instead: SaidInstead) -> str:
    """
    What a phrase came to, held against what it should.

    Parameters
    ----------
    row : Row
    got : Outcome
    instead : callable
        What becomes of a line in short form, said in the phrase's place.
    """
    wanted = tuple(whole(got.job, line) for line in row.commands)
    if got.events:
        return _of_recorded(row, wanted, got, instead)
    if _named(got.taken_for, wanted) and _as_its_short_form(row, got, instead):
        return MEANT
    if row.do == "take" and any(_same(got, instead(line)) for line in _sayable(row)):
        return MEANT
    if got.asked:
        return _of_asked(row, wanted, got)
    if got.ok and got.taken_for:
        return WRONG  # answered, and not what was asked
    return _of_refused(row, wanted, got)


def _of_recorded(row: Row, wanted: tuple[str, ...], got: Outcome, instead: SaidInstead) -> str:
    if row.do == "take" and (
        _named(got.taken_for, wanted)
        or any(got.events == instead(line).events for line in _sayable(row))
    ):
        return MEANT
    return ANOTHER


def _of_asked(row: Row, wanted: tuple[str, ...], got: Outcome) -> str:
    if row.do == "refuse":
        return WRONG
    if any(_named(each, wanted) for each in got.offered):
        if row.do == "ask":
            return ASKED
        if row.do == "take" and _asks(row, got.told):
            return ASKED
        return HINTED if all(map(is_reading, wanted)) else OFFERED
    return ASKED if _asks(row, got.told) and not _misleads(got, wanted) else WRONG


def _of_refused(row: Row, wanted: tuple[str, ...], got: Outcome) -> str:
    if _misleads(got, wanted):
        return WRONG
    if row.do in ("say", "refuse"):
        return LEFT
    if got.hints:
        return HINTED
    return ASKED if _asks(row, got.told) else NOTHING


def _as_its_short_form(row: Row, got: Outcome, instead: SaidInstead) -> bool:
    """Whether it gets what the short form gets: an answer, a question, or what the job lacks."""
    if not got.asked:
        return True
    return row.do == "take" and instead(got.taken_for or "").asked == got.asked


def _misleads(got: Outcome, wanted: tuple[str, ...]) -> bool:
    return any(not _named(hint, wanted) for hint in got.hints)


def _asks(row: Row, told: str) -> bool:
    return any(re.search(pattern, told, re.IGNORECASE) for pattern in row.asked_by)


def _same(got: Outcome, other: Outcome) -> bool:
    """Whether a question or an answer is the one that another line gets."""
    if got.asked or other.asked:
        return got.asked == other.asked
    return got.ok and other.ok and not other.events and got.headline == other.headline


def _named(line: str | None, wanted: tuple[str, ...]) -> bool:
    return line is not None and any(fnmatchcase(line, each) for each in wanted)


def _sayable(row: Row) -> tuple[str, ...]:
    # What is in no phrase yet is guessed at like the phrase itself.
    return tuple(line for line in row.commands if "*" not in line and is_known(line))
