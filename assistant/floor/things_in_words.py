"""Things on the floor in words: their names, sizes and places."""

from __future__ import annotations

from assistant.job.things import Drain, JointOrCrack, Obstacle, Thing
from assistant.reply import wording
from grammar.slots.measure import short_pair


def size_words(obstacle: Obstacle) -> str:
    """``0.4 by 0.4 m``, ``0.3 m round``, as it was said."""
    if obstacle.second is None:
        return f"{wording.as_said(obstacle.first)} round"
    return short_pair((obstacle.first, obstacle.second))


def spoken_size(obstacle: Obstacle) -> str:
    """A thing's size in words, to be said aloud."""
    first = wording.spoken_said(obstacle.first)
    if obstacle.second is None:
        return f"{first} round"
    return f"{first} by {wording.spoken_said(obstacle.second)}"


def where_words(thing: Thing) -> str:
    """``at B2``, ``at 3 by 2 m``, ``A1 to A6``."""
    if isinstance(thing, JointOrCrack):
        return f"at {thing.start}" if thing.end is None else f"{thing.start} to {thing.end}"
    if thing.point is not None:
        return f"at {thing.point}"
    return f"at {short_pair((thing.along, thing.across))}"


def spoken_where(thing: Thing) -> str:
    """A thing's place in words, to be said aloud."""
    if isinstance(thing, JointOrCrack):
        ends = [wording.spoken_name(end) for end in (thing.start, thing.end) if end is not None]
        return f"at {ends[0]}" if thing.end is None else " to ".join(ends)
    if thing.point is not None:
        return f"at {wording.spoken_name(thing.point)}"
    return f"at {wording.spoken_said(thing.along)} by {wording.spoken_said(thing.across)}"


def kind_of(thing: Thing) -> str:
    """``column``, ``drain``, ``crack`` …"""
    return "drain" if isinstance(thing, Drain) else thing.kind


def name_words(thing: Thing) -> str:
    """``column 1``."""
    return f"{kind_of(thing)} {thing.number}"


def spoken_thing(thing: Thing) -> str:
    """A thing's name in words, to be said aloud."""
    return f"{kind_of(thing)} {wording.spoken_number(thing.number)}"
