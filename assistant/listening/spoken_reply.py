"""The part of a turn that is said aloud: the read-back, and what has just changed in the tally.

The listener has gloves on and a mixer running: two seconds, then silence.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from assistant.decide import Question
from assistant.floor.depths import depths_of
from assistant.floor.tally import tally_of
from assistant.floor.walk import points_missing
from assistant.floor.warnings import warning_kind
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import LimitWarning, Turn, spoken_text

ENOUGH_POINTS = 4
"""Points read before a new shallowest one is said aloud; at first nearly every point is one."""
TOO_SHALLOW = ("high-spot", "under-minimum")
"""Warnings that say already how little there is to pour."""


def spoken_reply(turn: Turn, before: Job, after: Job, pending: Question | None = None) -> str:
    """
    The words to say.

    Parameters
    ----------
    turn : Turn
    before, after : Job
        The job before and after it.
    pending : Question, optional
        The question that waits now; asked once more where the answer was about something else.
    """
    sentences, is_reading = turn.reply.sentences, turn.recorded and "reading" in turn.reply.data
    # Where somebody waits with the next reading, the ear has it sooner.
    usual = turn.reply.length == "usual"
    spoken = [spoken_text(sentences, briefly=True) if is_reading and usual else turn.reply.say]
    if is_reading:
        spoken += _what_changed(before, after, turn.reply.warnings)
    if pending is not None and not any(one.words == pending.spoken for one in sentences):
        spoken.append(pending.spoken)
    return sayable_text(" ".join(spoken))


def _what_changed(before: Job, after: Job, warnings: Sequence[LimitWarning]) -> list[str]:
    """A new shallowest point, and the tally with the last one. Limits are in the reply itself."""
    found = []
    depths_before, depths = depths_of(before).values(), depths_of(after).values()
    is_shallowest = len(depths_before) >= ENOUGH_POINTS and min(depths) < min(depths_before)
    if is_shallowest and not any(warning_kind(one) in TOO_SHALLOW for one in warnings):
        found.append("Shallowest.")
    if points_missing(before) and not points_missing(after) and after.readings:
        found.append(_tally(after))
    return found


def _tally(job: Job) -> str:
    """The bags to order; without a product, how deep it is."""
    tally = tally_of(job)
    if tally.material is not None:
        return wording.sentence(wording.spoken_count(tally.material.bags, "bag"))
    if tally.depths is None:
        return "All read."
    mean = Fraction(round(tally.depths.mean)) if job.reading_unit == "mm" else tally.depths.mean
    return f"Mean depth {wording.spoken_length(mean, job.reading_unit)}."


_UNITS = {
    "mm": "millimetres", "cm": "centimetres", "m": "metres", "m²": "square metres",
    "m³": "cubic metres", "kg": "kilos", "L": "litres", "in": "inches", "ft": "feet",
}  # fmt: skip
_UNIT = re.compile(rf"(?<=\d) ({'|'.join(sorted(_UNITS, key=len, reverse=True))})(?![\w²³])")


def sayable_text(text: str) -> str:
    """
    The text without signs that can only be read.

    >>> sayable_text("That can mean “B3 -15 mm” or …")
    'That can mean B3 minus 15 millimetres or'
    """
    text = re.sub(r"[“”\"…()]", "", text)
    text = re.sub(r"(?<![\w.])[-−](?=\d)", "minus ", text)
    text = re.sub(r"(?<![\w.])\+(?=\d)", "plus ", text)
    text = _UNIT.sub(lambda found: f" {_UNITS[found.group(1)]}", text)
    return " ".join(text.split())
