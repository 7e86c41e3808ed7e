"""A currency: any word or sign, for no rate is ever looked up."""

from __future__ import annotations

from grammar.slots.slot import Slot, TypedOnly, ValueKind, one_of

_USUAL = ("euros", "pounds", "dollars", "francs", "kronor", "crowns")

KIND = ValueKind(
    slots=(
        Slot(
            name="currency",
            rule="r_money | UNKNOWN",
            build=str,
            short=str,
            sample=one_of({word: word for word in (*_USUAL, "shillings")}),
            aloud=TypedOnly(why="a recogniser held to the language hears no other words"),
        ),
    ),
    roles={"money": {word: word for word in _USUAL}},
    expected={"r_money": "a currency", "currency": "a currency"},
)
