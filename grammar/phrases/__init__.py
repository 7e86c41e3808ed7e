"""THE grammar: every phrase, what it asks for, how it is explained, and examples.

This table is the only place where the language is defined. The typed parser,
completion, "help", the printed reference, the random sentences of
the tests and the recogniser's word list all come from it. Of several ways to
say a thing the first in a template is its short typed form.
"""

from __future__ import annotations

from grammar.phrase import Phrase
from grammar.phrases import (
    depths,
    doors,
    figures,
    finish,
    flatness,
    guide,
    handover,
    jobs,
    material,
    notes,
    overview,
    pour,
    proof,
    readings,
    record,
    room,
    set_ups,
    site,
    talk,
    things,
    walk,
    zones,
)

__all__ = ["PHRASES"]

PHRASES: tuple[Phrase, ...] = (
    *readings.PHRASES,
    *walk.PHRASES,
    *room.PHRASES,
    *things.PHRASES,
    *material.PHRASES,
    *finish.PHRASES,
    *doors.PHRASES,
    *flatness.PHRASES,
    *zones.PHRASES,
    *depths.PHRASES,
    *overview.PHRASES,
    *figures.PHRASES,
    *set_ups.PHRASES,
    *pour.PHRASES,
    *proof.PHRASES,
    *site.PHRASES,
    *guide.PHRASES,
    *notes.PHRASES,
    *jobs.PHRASES,
    *handover.PHRASES,
    *record.PHRASES,
    *talk.PHRASES,
)
