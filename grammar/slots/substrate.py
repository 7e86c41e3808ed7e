"""What the bare floor is made of."""

from __future__ import annotations

from grammar.slots.slot import Slot, SpokenForm, ValueKind, alternatives_of, one_of

SUBSTRATES = ("concrete", "screed", "timber", "tile", "old adhesive", "levelling compound")

KIND = ValueKind(
    slots=(
        Slot(
            name="substrate",
            rule="r_one_word_floor | [r_old] r_adhesive | r_levelling r_compound",
            build=lambda *words: next(word for word in words if word),
            short=str,
            sample=one_of({"glue": "old adhesive"} | {name: name for name in SUBSTRATES}),
            aloud=SpokenForm(
                heard=alternatives_of(SUBSTRATES), say=lambda _voice, substrate: str(substrate)
            ),
        ),
    ),
    roles={
        "one_word_floor": {
            **{word: word for word in ("concrete", "screed", "timber", "tile")},
            "wood": "timber",
            "tiles": "tile",
            "cement": "concrete",
        },
        "old": {"old": None},
        "adhesive": dict.fromkeys(("adhesive", "glue"), "old adhesive"),
        "levelling": dict.fromkeys(("levelling", "leveling"), None),
        "compound": {"compound": "levelling compound"},
    },
    expected={
        "r_one_word_floor": "what the floor is: concrete, screed, timber, tile, old adhesive …"
    },
    never_unsaid=dict.fromkeys(("one_word_floor", "adhesive", "compound"), "floor"),
    spellings={"levelling": ("leveling",)},
)
