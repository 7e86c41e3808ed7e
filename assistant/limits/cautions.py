"""The usual safety words, and the moments of the work at which each is said.

A caution is a reminder with its source, not an instruction for the site: local code, the
product's safety data sheet and licensed practice decide.
"""

from __future__ import annotations

from assistant.pours.lifting import BEST_CASE_KG, FROM_THE_FLOOR_KG
from assistant.reply.replies import Caution

__all__ = ["CAUTIONS", "CAUTIONS_AT", "cautions_at", "lifting_caution"]


def lifting_caution(bag_kg: float | None = None) -> Caution:
    """The caution about lifting, with the product's bag mass where it is known."""
    best, floor = f"{BEST_CASE_KG:g} kg", f"about {FROM_THE_FLOOR_KG:.0f} kg"
    if bag_kg is None:
        bag = "A full bag can be"
    elif bag_kg > BEST_CASE_KG:
        bag = f"A {bag_kg:g} kg bag is"
    else:
        return Caution(
            "lifting",
            (
                f"A {bag_kg:g} kg bag is under the {best} that NIOSH recommends for one person at "
                f"best, but off the floor, with the hands 40 cm out, that falls to {floor}.",
                "Lift in pairs or with an aid; local rules decide.",
            ),
            source="NIOSH 94-110, revised lifting equation",
            reminder=LIFTING_REMINDER,
        )
    return Caution(
        "lifting",
        (
            f"{bag} over the {best} that NIOSH recommends for one person at best, {floor} off the "
            "floor with the hands 40 cm out.",
            "Lift in pairs or with an aid; local rules decide.",
        ),
        source="NIOSH 94-110, revised lifting equation",
        reminder=LIFTING_REMINDER,
    )


LIFTING_REMINDER = "Heavy bags: lift in pairs"

CAUTIONS: dict[str, Caution] = {
    caution.id: caution
    for caution in (
        Caution(
            "silica-dust",
            (
                "Grinding, and emptying bags, can raise silica dust; limits differ by country; "
                "OSHA's is 50 micrograms a cubic metre over 8 hours, with action from 25.",
                "Extract or wet it at source and wear the mask that local code and the data sheet "
                "ask for.",
            ),
            source="29 CFR 1926.1153",
            reminder="Silica dust: wet or extract it, wear the mask",
        ),
        Caution(
            "wet-cement",
            (
                "Wet cement burns the skin, at first without pain.",
                "Wear waterproof gloves and knees, wash splashes off at once, and follow the "
                "product's safety data sheet.",
            ),
            source="OSHA guidance on wet cement",
            reminder="Wet cement burns: gloves and knees",
        ),
        Caution(
            "old-adhesive",
            (
                "Old resilient flooring and its adhesive may hold asbestos, in places laid until "
                "2000, and looks prove nothing: never sand, grind, sweep or chip them before a "
                "test.",
                "Leave testing and removal to licensed people, as local code has it.",
            ),
            source="OSHA interpretation letters on floor covering and mastic; local law decides",
            reminder="Old adhesive may hold asbestos: test before grinding",
        ),
        lifting_caution(),
        Caution(
            "electricity-near-water",
            (
                "Run the mixer from a residual-current or ground-fault protected outlet and keep "
                "cables off the wet floor.",
                "Local electrical code and a licensed electrician decide.",
            ),
            source="common practice, no source",
            reminder="Electricity near water: protected outlet, dry cables",
        ),
    )
}

CAUTIONS_AT: dict[str, tuple[str, ...]] = {
    # answers that send somebody to the floor with a grinder: high spots
    "grind": ("silica-dust", "old-adhesive"),
    # answers that end in a pallet at the door: tally, product
    "order": ("lifting",),
    # bags are opened, water is near
    "mix": ("silica-dust", "wet-cement", "lifting", "electricity-near-water"),
    # all of them: before the first work in a room
    "site": tuple(CAUTIONS),
}


def cautions_at(moment: str, bag_kg: float | None = None) -> tuple[Caution, ...]:
    """The cautions for ``grind``, ``order``, ``mix`` or ``site``, the bag's mass in its place."""
    return tuple(
        lifting_caution(bag_kg) if id == "lifting" else CAUTIONS[id] for id in CAUTIONS_AT[moment]
    )
