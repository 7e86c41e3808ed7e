"""What the rows of ``grammar/phrases/set_ups.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "instrument range <reach:length>": ("range ~instrument ~zero ~side",),
    "instrument resolution <step:length>": (
        "resolution ~instrument",
        "finest",
    ),
    "instrument repeatability <spread:length>": ("repeat ~instrument ~measure ~same_place",),
    "instrument offset <offset:reading>": (
        "offset ~instrument ~zero",
        "nothing says high",
    ),
    "new set up": (
        "newsetup ~instrument",
        "instrument newsetup/moved fresh/new/elsewhere/other_side/somewhere_else",
        "instrument carried",
    ),
    "benchmark <benchmark:whole> at <height:reading>": ("benchmark ~zero ~wall",),
    "tie on benchmark <benchmark:whole> <reading>": (
        "tie benchmark",
        "new_place benchmark",
    ),
    "tie on [point] <point> <reading>": (
        "tie ~here",
        "old_place new",
    ),
    "check zero <reading>": (
        "zero checkword ~again ~says",
        "zero again",
    ),
    "check zero [is | still] <reading:unmoved>": ("zero ok/fine/good/still/same ~checkword",),
    "check benchmark <benchmark:whole> <reading>": (
        "benchmark checkword ~again",
        "benchmark again",
    ),
    "reference moved": (
        "instrument moved ~foot ~i !new !fresh !set_up",
        "leg caught/moved",
    ),
    (
        "(they [all] [still] (hold | stand) | readings [still] (hold | stand) | (rest | "
        "others) (hold | holds | stand | stands))"
    ): (
        "again theyhold ~reading ~others ~fine",
        "again nothing different",
    ),
    "survey check": (
        "trust survey ~right ~may",
        "survey trust ~go_round",
        "survey sound",
        "measure right/properly",
    ),
    "survey check of slab": (
        "survey before trust/good/enough/relied",
        "trust numbers before",
    ),
}
