"""Answers about doubtful readings that were confirmed by others."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.floor.heights import survey_of
from assistant.floor.holding import Held, holding_of
from assistant.floor.holding_words import comparison_words, why_not
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.set_ups import TheyHold


def held_told(moment: Moment, _command: TheyHold) -> Reply:
    """What was compared, the differences, and which readings count again."""
    before = moment.before
    found = [held for held in holding_of(before) if held.in_doubt]
    cleared = tuple(point for held in found for point in held.cleared)
    left = tuple(survey_of(moment.after).doubtful)
    details = [f"{comparison_words(before, held)} {why_not(held)}".strip() for held in found]
    details += [_later(held) for held in found if held.cleared and held.left]
    headline = f"They hold: {wording.counted(len(cleared), 'reading')} in doubt no more, "
    spoken = ["they hold", f"{wording.spoken_count(len(cleared), 'reading')} cleared"]
    if left:
        spoken.append(f"{wording.spoken_count(len(left), 'reading')} still in doubt")
    data = {
        "held": {
            "cleared": list(cleared),
            "in_doubt": list(left),
            "compared": [_data(held) for held in found if held.pairs],
        }
    }
    reply = Reply(
        f"{headline}{wording.join_names(cleared)}.", tuple(spoken), tuple(details), data=data
    )
    return with_matters(moment, reply)


def _later(held: Held) -> str:
    return (
        f"Still in doubt, read later than what was read again: {wording.join_names(held.left)}. "
        f"The zero may have moved after {held.last}. Read {held.left[-1]} again, and say: they "
        "hold."
    )


def _data(held: Held) -> dict[str, Any]:
    return {
        "set_up": held.set_up + 1,
        "points": [pair.point for pair in held.pairs],
        "off_mm": [pair.off_mm for pair in held.pairs],
        "mean_mm": held.mean_mm,
        "sd_mm": held.sd_mm,
        "limit_mm": round(held.limit_mm, 3),
        "chance": held.chance,
        "cleared": list(held.cleared),
    }


ANSWERS: dict[type[Command], Answerer] = {TheyHold: held_told}
