"""The floor zone by zone, as a table and as numbers."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import depth_cell
from assistant.floor.tally import Tally, tally_of
from assistant.floor.zones import cards_of, parts_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Table


def parts_data(job: Job) -> list[dict[str, Any]]:
    """
    Each zone, then what is in none: metres, cubic metres and whole bags.

    Areas and volumes add up to the room's; bags, each rounded up, to as many or more.
    """
    found = []
    for name, part in parts_of(job).items():
        tally = tally_of(part)
        found.append(
            {
                "name": name,
                "area_m2": tally.area_m2,
                "volume_m3": tally.volume_m3,
                "bags": tally.material.bags if tally.material else None,
                "points": tally.points,
                "finish_mm": float(part.finish_mm),
                "product": part.card.name if part.card else None,
            }
        )
    return found


def parts_table(job: Job, unit: str) -> Table:
    """The same to read; finish and product where zones have their own."""
    parts = parts_of(job)
    pours = job.zones.pours.values()
    own_finish = any(pour.finish_mm is not None for pour in pours)
    own_card = len(cards_of(job)) > 1 or any(pour.card is not None for pour in pours)
    head = ["Zone", "Area", *["Finish"] * own_finish, "Mean", "Volume", "Bags"]
    rows = []
    for name, part in parts.items():
        tally = tally_of(part)
        finish = [_signed(part, unit)] * own_finish
        card = [part.card.name if part.card else "-"] * own_card
        rows.append((name, _area(tally, unit), *finish, *_amounts(tally, unit), *card))
    return Table("Zone by zone", (*head, *["Product"] * own_card), tuple(rows))


def _signed(part: Job, unit: str) -> str:
    shown = wording.length(abs(part.finish_mm), unit)
    return f"{'+' if part.finish_mm > 0 else '-'}{shown}" if part.finish_mm else "zero"


def _area(tally: Tally, unit: str) -> str:
    return "-" if tally.area_m2 is None else wording.area(tally.area_m2, unit)


def _amounts(tally: Tally, unit: str) -> tuple[str, str, str]:
    volume = "-"
    if tally.volume_m3 is not None:
        volume = wording.short_volume(tally.volume_m3, unit)
    return (
        depth_cell(tally.depths.mean, unit) if tally.depths else "-",
        volume,
        str(tally.material.bags) if tally.material else "-",
    )


def rounded_up_words(job: Job) -> list[str]:
    """Says by how many bags the zones come to more than the floor at once, where they do."""
    whole = tally_of(job).material
    each = [tally_of(part).material for part in parts_of(job).values()]
    if whole is None or not each:
        return []
    together = sum(made.bags for made in each if made)
    if together == whole.bags:
        return []
    return [
        f"Zone by zone {wording.counted(together, 'bag')}, for the floor at once {whole.bags}: "
        "each is rounded up."
    ]
