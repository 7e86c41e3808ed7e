"""What the rules of a country let a doorway step, as rows: values, wording and sources."""

from __future__ import annotations

from fractions import Fraction

from assistant.limits.limits import BEVEL_RUN, DOOR_SLOPE, STEP_PLAIN, THRESHOLD, at_least
from grammar.frozen import frozen


@frozen
class DoorRules:
    """Of one country, for the floor as it is walked on."""

    id: str
    title: str
    plain_mm: Fraction
    """The greatest step that needs no work."""
    most_mm: Fraction
    """The greatest step that is let pass, worked as ``between`` says."""
    no_slope: str
    """Why a slope is no cure for more."""
    source_between: str
    source_over: str
    bevel_run: Fraction | None = None
    """Length to height of the bevel that a step above ``plain_mm`` wants; None where it is only
    to be rounded or chamfered."""

    def between(self, step_mm: Fraction, unit: str) -> str:
        """What a step above the plain one wants."""
        if self.bevel_run is None:
            return "Round or chamfer what stands up"
        return (
            f"Bevel the threshold not steeper than 1 in {self.bevel_run}, at least "
            f"{at_least(step_mm * self.bevel_run, unit)} long"
        )


USA = DoorRules(
    "usa",
    "2010 ADA Standards",
    STEP_PLAIN.value,
    THRESHOLD.value,
    f"a slope is no cure: the floor at a door stays within 1 in {DOOR_SLOPE.value}",
    f"{THRESHOLD.source}, 303.2 and 303.3, decided in millimetres",
    f"{THRESHOLD.source} and 404.2.4.4, decided in millimetres",
    BEVEL_RUN.value,
)
UK = DoorRules(
    "uk",
    "Approved Document M",
    Fraction(5),
    Fraction(15),
    "a slope is no cure: where a door is opened and passed the floor stays level",
    "guidance to Approved Document M; what is rounded or chamfered, from memory",
    "guidance to Approved Document M",
)

DOOR_RULES: dict[str, DoorRules] = {rules.id: rules for rules in (USA, UK)}
"""The first holds until another is set."""
