"""The program's errors, by who has to act on them."""

from __future__ import annotations


class LeadsmanError(Exception):
    """Base of all errors this program raises on purpose; the text is for the user."""


class Refusal(LeadsmanError):
    """An understood command that the job as it stands cannot take.

    The text says why, and what would be taken.
    """


class SurveyError(LeadsmanError):
    """Numbers from which no surface, grid or outline can be made."""


class CardError(LeadsmanError):
    """A product card that cannot be used; names the file and the line to put right."""


class JournalError(LeadsmanError):
    """A job file that cannot be opened or written; it was left as it was."""


class NewerRecordError(JournalError):
    """A job file that holds what only a newer Leadsman can read."""


class EarsError(LeadsmanError):
    """A recogniser that cannot be used; the text says what to do about it."""
