"""The program's errors, by who has to act on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from grammar.example import Worded


class LeadsmanError(Exception):
    """Base of all errors this program raises on purpose; the text is for the user."""


class Refusal(LeadsmanError):
    """
    An understood command that the job as it stands cannot take.

    Parameters
    ----------
    *told : str or Example
        Why, and what would be taken; read one after the other.
    spoken : str
        Why in few words: whoever hears it waits with the next thing to say. The whole text,
        where that is as short.
    """

    def __init__(self, *told: Worded, spoken: str = "") -> None:
        self._told = told
        super().__init__(self.worded("mm"))
        self.spoken = spoken or self.worded("mm")

    def worded(self, unit: str) -> str:
        """What is read where the job's readings are in `unit`, ``mm`` or ``in``."""
        from grammar.example import worded  # `--version` knows errors, and needs no grammar

        return worded(self._told, unit)


class SurveyError(LeadsmanError):
    """Numbers from which no surface, grid or outline can be made."""


class CardError(LeadsmanError):
    """A product card that cannot be used; names the file and the line to put right."""


class JournalError(LeadsmanError):
    """A job file that cannot be opened or written; it was left as it was."""


class JobInUseError(JournalError):
    """A job file that another window of the program has open."""


class NewerRecordError(JournalError):
    """A job file that holds what only a newer Leadsman can read."""


class EarsError(LeadsmanError):
    """A recogniser that cannot be used; the text says what to do about it."""
