"""Phrases: remarks in words of one's own."""

from __future__ import annotations

from grammar.commands.notes import AskNotes, BeginNote, DropNote, EndNote, TakeNote
from grammar.phrase import Phrase

_TOPIC = "notes and record"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "note <point,words:remark_at>",
        TakeNote,
        "a remark about a point, kept as it is said; nothing in it counts as a reading",
        ("note at B2 crack along the wall, 2 mm wide",),
        _TOPIC,
        speakable=False,
        ways=("(remark | comment | memo) <point,words:remark_at>",),
    ),
    Phrase(
        "note <words:remark>",
        TakeNote,
        "the same about the job",
        ("note the client wants oak, not tiles", "note: B3 was minus 18 before the rain"),
        _TOPIC,
        speakable=False,
        ways=("(remark | comment | memo) <words:remark>",),
    ),
    Phrase(
        "notes",
        AskNotes,
        "the remarks so far",
        ("notes",),
        _TOPIC,
        spoken="read notes",
        ways=(
            "(show | list | read | read out | read back | all | my) [my | all] notes",
            "(what | which) notes (are there | do (i | we) have | have (i | we) [got | made])",
            "(any | are there any) (notes | remarks | comments)",
            "what did (i | we) (write | jot) down",
            "what have (i | we) noted",
            "(remarks | comments)",
        ),
    ),
    Phrase(
        "notes (at | on | for | about) [point] <point>",
        AskNotes,
        "those about a point",
        ("notes at B2",),
        _TOPIC,
        speakable=False,
        ways=(
            "(any | are there any | show | read) notes (at | on | for | about) [point] <point>",
            "what have (i | we) noted (at | on | for | about) [point] <point>",
        ),
    ),
    Phrase(
        "write this down",
        BeginNote,
        "aloud: what is said till “end of note” is a note",
        ("write this down",),
        _TOPIC,
    ),
    Phrase(
        "write this down at [point] <point>",
        BeginNote,
        "aloud: the same about a point",
        ("write this down at B2",),
        _TOPIC,
        spoken="write this down at <point>",
    ),
    Phrase(
        "end of note",
        EndNote,
        "aloud: keeps what was said since “write this down”",
        ("end of note",),
        _TOPIC,
    ),
    Phrase(
        "drop note",
        DropNote,
        "aloud: keeps nothing of it",
        ("drop note",),
        _TOPIC,
    ),
)
