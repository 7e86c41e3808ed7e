"""The comparison of repeated readings with doubtful ones, in words."""

from __future__ import annotations

from assistant.floor.holding import MOST_CHANCE, Held
from assistant.job import Job
from assistant.reply import wording


def comparison_words(job: Job, held: Held) -> str:
    """What was read again, and how it compares; empty where nothing was."""
    lines = []
    if held.sd_mm:
        equal = [pair for pair in held.pairs if pair not in held.odd]
        unit = job.reading_unit
        names = wording.join_names([pair.point for pair in equal])
        mean = "differs by" if len(equal) == 1 else "differ on average by"
        lines.append(
            f"{names}, read again, {mean} {wording.error_size(abs(held.mean_mm), unit)} (standard "
            f"deviation {wording.error_size(held.sd_mm, unit)}). Had the zero been off by "
            f"{wording.length(round(held.limit_mm, 3), unit)}, they would agree so well in "
            f"{_in_100(held.chance)} of 100 cases."
        )
    for pair in held.odd:
        off = wording.error_size(abs(pair.off_mm), job.reading_unit)
        side = "above" if pair.off_mm > 0 else "below"
        lines.append(f"{pair.point} reads {off} {side} what it read before.")
    return " ".join(lines)


def why_not(held: Held) -> str:
    """Why a run of doubtful readings is not confirmed yet, and what would settle it."""
    if held.cleared:
        return ""
    others = [point for point in held.in_doubt if point not in {p.point for p in held.pairs}]
    last = others[-1] if others else held.in_doubt[-1]
    if not held.pairs:
        return (
            f"{wording.join_names(held.in_doubt)}: in doubt, and none read again since from a "
            f"sound zero. Read the last one again, {last}; where it is as before, say: they hold."
        )
    if held.odd:
        again = wording.join_names(held.in_doubt)
        return (
            f"They do not hold: the zero had moved by then, or one was misread. Read {again} again."
        )
    return (
        f"That is not sure enough yet: {round(MOST_CHANCE * 100)} of 100 is the most. Read one "
        f"more of them again, {last}, or tie once more."
    )


def _in_100(chance: float) -> str:
    shown = chance * 100
    return "fewer than 1" if shown < 0.95 else wording.figure(shown, 0 if shown >= 9.5 else 1)
