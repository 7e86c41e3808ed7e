"""The way a wall runs."""

from __future__ import annotations

from grammar.slots.slot import Slot, SpokenForm, ValueKind, one_of

_WINDS = ("north", "east", "south", "west")
_BETWEEN = {
    north + east: f"{north} {east}" for north in ("north", "south") for east in ("east", "west")
}
DIRECTIONS = (*_WINDS, *_BETWEEN.values())

KIND = ValueKind(
    slots=(
        Slot(
            name="direction",
            rule="r_north | r_east | r_south | r_west | r_north r_east | r_north r_west"
            " | r_south r_east | r_south r_west | r_between",
            build=lambda *winds: " ".join(winds),
            short=str,
            sample=one_of({wind: wind for wind in DIRECTIONS}),
            aloud=SpokenForm(
                heard="(north [east | west] | south [east | west] | east | west)",
                say=lambda _voice, direction: str(direction),
            ),
        ),
    ),
    roles={**{wind: {wind: wind} for wind in _WINDS}, "between": _BETWEEN},
    expected={"r_north": "a direction: north, south east …"},
    offered={wind: (wind,) for wind in _WINDS},
    never_unsaid=dict.fromkeys((*_WINDS, "between"), "wind"),
)
