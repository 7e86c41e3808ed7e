"""A zone: a part of the floor by its name, in words of one's own or by a number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grammar.errors import Unsayable
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import Slot, SpokenForm, TypedOnly, ValueKind
from grammar.slots.whole import to_99

if TYPE_CHECKING:
    from random import Random

ROOMS = (
    "kitchen", "hall", "hallway", "bathroom", "bedroom", "living", "lounge", "dining", "office",
    "study", "pantry", "larder", "utility", "laundry", "garage", "workshop", "store", "storage",
    "corridor", "landing", "lobby", "porch", "entrance", "conservatory", "nursery", "closet",
    "toilet", "shower", "cellar", "basement", "attic", "shop", "bar", "canteen", "reception",
    "den", "nook", "alcove", "wing", "rest",
)  # fmt: skip
"""
Usual names, which are known without "zone" before them. After it any word that no phrase has is a
name as well: alone it would be one wherever a zone may be asked for, and "tally, mate" no tally.
``rest`` is what is in no zone.
"""
SPOKEN_ROOMS = ("kitchen", "bathroom", "bedroom", "office", "garage", "corridor")
"""Names that may be said aloud; any other zone's name is typed, or it gets a number instead."""
_SECOND = ("room", "area", "half", "side", "end", "part")
_ZONE = ("zone",)


def _numbered(_zone: str | None, number: int) -> str:
    return f"zone {to_99(number, 'zones are numbered from 1 to 99')}"


def _named(*words: str | None) -> str:
    return " ".join(word for word in words if word)


def _short_named(name: str) -> str:
    return name if name.startswith("zone ") else f"zone {name}"


def _say(voice: SpokenNumbers, name: str) -> str:
    if name in SPOKEN_ROOMS:
        return name
    if not name.startswith("zone "):
        raise Unsayable
    return f"zone {voice.whole(int(name[5:]))}"


def short_zone(name: str) -> str:
    """
    A name as it is typed for short; one of somebody's own needs "zone" before it.

    >>> short_zone("living room"), short_zone("salon"), short_zone("zone 2")
    ('living room', 'zone salon', 'zone 2')
    """
    return name if name.split()[0] in ROOMS else _short_named(name)


def _sample(random: Random) -> tuple[str, str]:
    name = random.choice((*ROOMS, "salon", "living room", "bedroom 2", "zone 3"))
    return random.choice((short_zone(name), _short_named(name))), name


def _sample_named(random: Random) -> tuple[str, str]:
    name = random.choice((*ROOMS, "salon", "living room", "bedroom 2", "zone 3"))
    return _short_named(name), name


KIND = ValueKind(
    slots=(
        Slot(
            name="zone",
            rule="zone_room | r_zone zone_words | zone_number",
            build=_named,
            short=short_zone,
            sample=_sample,
            aloud=SpokenForm(heard="(<spoken_room> | zone <under_hundred>)", say=_say),
        ),
        Slot(
            name="named_zone",
            rule="r_zone zone_words | zone_number",
            build=_named,
            short=_short_named,
            sample=_sample_named,
            aloud=TypedOnly(why="names of one's own are in no recogniser's language"),
        ),
    ),
    roles={
        "zone": dict.fromkeys(_ZONE, None),
        "room_word": {word: word for word in ROOMS},
        "room_second": {word: word for word in _SECOND},
    },
    rules="""
zone_number: r_zone whole
zone_room: r_room_word | r_room_word zone_last
zone_words: zone_word | zone_word zone_last
zone_word: r_room_word | UNKNOWN | LETTERS
zone_last: r_room_second | zone_word | zone_count
zone_count: whole
""",
    builders={
        "zone_number": _numbered,
        "zone_room": _named,
        "zone_words": _named,
        "zone_word": str,
        "zone_last": str,
        "zone_count": lambda number: str(to_99(number, "zones are numbered from 1 to 99")),
    },
    expected={
        **dict.fromkeys(
            ("zone", "zone_words", "zone_word", "zone_room", "r_room_word"),
            "a zone's name (like kitchen; no point, no word with a meaning here)",
        ),
        "zone_last": "more of its name",
    },
    spoken_pieces={"spoken_room": f"({' | '.join(SPOKEN_ROOMS)})"},
)
