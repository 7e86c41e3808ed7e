"""What the rows of ``grammar/phrases/set_ups.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "instrument range <reach:length>": ("range ~instrument ~zero ~side",),
    "instrument resolution <step:length>": (
        "resolution ~instrument",
        "finest",
        "reads to ~nearest ~instrument",
        "nearest",
    ),
    "instrument repeatability <spread:length>": ("repeat ~instrument ~measure ~same_place",),
    "instrument offset <offset:reading>": (
        "offset ~instrument ~zero",
        "nothing says high",
    ),
    "new set up": (
        "move/moved laser/level/tripod had",
        "newsetup ~instrument",
        "instrument newsetup/moved fresh/new/elsewhere/other_side/somewhere_else",
        "instrument carried",
        "newsetup ~instrument ~i",
        "instrument somewhere_else/elsewhere/another_place/another_spot/other_side",
        "instrument put another/new/different ~place",
        "new place/position/spot/setup instrument",
    ),
    "benchmark <benchmark:whole> at <height:reading>": (
        "benchmark ~zero ~wall",
        "benchmark ~wall ~zero ~on ~above",
    ),
    "tie on benchmark <benchmark:whole> <reading>": (
        "tie benchmark",
        "new_place benchmark",
    ),
    "tie on [point] <point> <reading>": (
        "tie ~here",
        "old_place new",
        "tie ~from",
        "new_setup/new_place/from_new",
        "from new",
        "moved from_here/reads ~now",
    ),
    "check zero <reading>": (
        "back zero",
        "zero checked/check/back",
        "zero checkword ~again ~says",
        "zero again",
        "zero checkword",
        "zero now/again/reads/read/says/shows",
        "back_on zero",
    ),
    "check zero [is | still] <reading:unmoved>": (
        "zero not moved",
        "zero still ~level",
        "zero ok/fine/good/still/same ~checkword",
        "checked zero fine/ok/good/same",
        "zero ok/fine/good/still/same ~checkword ~reads ~still",
    ),
    "check benchmark <benchmark:whole> <reading>": (
        "benchmark checkword ~again",
        "benchmark again",
    ),
    "reference moved": (
        "instrument moved ~foot ~i !new !fresh !set_up",
        "leg caught/moved",
        "instrument moved !new !fresh !set_up !somewhere_else !another_place",
        "moved instrument ~think ~i",
        "leg moved",
    ),
    (
        "(they [all] [still] (hold | stand) | readings [still] (hold | stand) | (rest | "
        "others) (hold | holds | stand | stands))"
    ): (
        "again theyhold ~reading ~others ~fine",
        "again nothing different",
    ),
    "survey check": (
        "check readings/measurements/survey/numbers ~my",
        "zero good/ok/right/still ~is",
        "when check/checked zero ~last",
        "which zero/setup ~on",
        "zero are_we ~what ~on",
        "measure check ~my",
        "readings/reading off/wrong/funny/odd ~any ~anything",
        "trust survey ~right ~may",
        "survey trust ~go_round",
        "survey sound",
        "measure right/properly",
        "trust measure",
        "measure trust ~right",
        "survey ok/good/right/sound",
        "numbers trust",
        "did measure right/properly/ok/correctly",
        "how_sure measure",
        "shots off",
        "zero checkword did_anyone/has_anyone/have_we/did_we/did_somebody ~today",
    ),
    "survey check of slab": (
        "survey before trust/good/enough/relied",
        "trust numbers before",
    ),
}
