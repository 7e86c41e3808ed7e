"""The part of a turn that is said aloud: the read-back, and what has just changed in the tally.

The listener has gloves on and a mixer running: two seconds, then silence.
"""

from __future__ import annotations

import re
from fractions import Fraction

from assistant.decide import Question
from assistant.floor.geometry import depths_of, points_missing
from assistant.floor.tally import tally_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Turn

ENOUGH_POINTS = 4
"""Points read before a new shallowest one is said aloud; at first nearly every point is one."""
LONGEST = 160
"""Most characters of an answer without a spoken form; longer ones give their first sentence."""


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
    said = [_short(turn.reply.say) if not turn.reply.spoken else turn.reply.spoken]
    if turn.recorded and "reading" in turn.reply.data:
        said[0] = _in_few_words(said[0])
        said += _what_changed(before, after, said[0])
    if pending is not None and pending.spoken not in said[0] and pending.text not in said[0]:
        said.append(pending.spoken)
    return sayable(" ".join(said))


FEWER = {
    "Under the product's minimum": "Too shallow",
    "Over the product's maximum": "Too deep",
    "Over the maximum with aggregate": "Too deep with aggregate",
    " All points read.": "",
}
"""Long wordings in the answer to a reading -> the short ones that are said, as the next reading
waits. That all points are read is clear from the tally, which is said with the last one."""
_UNIT_AGAIN = re.compile(r"( millimetres? .*\bDepth [a-z ]+?) millimetres?\b")


def _in_few_words(said: str) -> str:
    """
    The answer to a reading in few words.

    >>> _in_few_words("Bravo three, nine millimetres below. Depth one two millimetres. Replaced.")
    'Bravo three, nine millimetres below. Depth one two. Replaced.'
    """
    for at_length, sooner in FEWER.items():
        said = said.replace(at_length, sooner)
    return _UNIT_AGAIN.sub(r"\1", said)


def _what_changed(before: Job, after: Job, said: str) -> list[str]:
    """A new shallowest point, and the tally with the last one. Limits are in the reply itself."""
    found = []
    depths_before, depths = depths_of(before).values(), depths_of(after).values()
    is_shallowest = len(depths_before) >= ENOUGH_POINTS and min(depths) < min(depths_before)
    if is_shallowest and not ("Too shallow" in said or "High spot" in said):
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


def _short(text: str) -> str:
    if len(text) <= LONGEST:
        return text
    return re.split(r"(?<=[.?!;:]) ", text, maxsplit=1)[0]


_UNITS = {
    "mm": "millimetres", "cm": "centimetres", "m": "metres", "m²": "square metres",
    "m³": "cubic metres", "kg": "kilos", "L": "litres", "in": "inches", "ft": "feet",
}  # fmt: skip
_UNIT = re.compile(rf"(?<=\d) ({'|'.join(sorted(_UNITS, key=len, reverse=True))})(?![\w²³])")


def sayable(text: str) -> str:
    """
    The text without signs that can only be read.

    >>> sayable("That can mean “B3 -15 mm” or …")
    'That can mean B3 minus 15 millimetres or'
    """
    text = re.sub(r"[“”\"…()]", "", text)
    text = re.sub(r"(?<![\w.])[-−](?=\d)", "minus ", text)
    text = re.sub(r"(?<![\w.])\+(?=\d)", "plus ", text)
    text = _UNIT.sub(lambda found: f" {_UNITS[found.group(1)]}", text)
    return " ".join(text.split())
