"""How a depth and its mark are written on a map."""

from __future__ import annotations

from assistant.reply.replies import MapSpot

MARKS = {"high": "^", "shallow": "<", "deep": ">"}
"""Marks that stand after a depth, so that the numbers still line up."""

DOUBT = "?"
"""Stands in place of any other mark: a doubtful depth is not certainly past a limit."""

MEANINGS = {
    "^": "floor stands above the finish",
    "<": "less than the product's minimum",
    ">": "more than the product's maximum",
    "?": "in doubt: survey check tells why",
    ".": "not read yet",
}
_MM_PER_INCH = 25.4
_SIXTEENTHS = 16


def mark_of(spot: MapSpot) -> str:
    """The mark behind a depth; nothing where it is neither past a limit nor in doubt."""
    return DOUBT if spot.doubt else MARKS.get(spot.flag, "")


def depth_text(depth_mm: float, unit: str) -> str:
    """A depth without its unit: whole mm (a tenth where it has one), or nearest 1/16 in."""
    if unit != "in":
        return f"{round(depth_mm, 1) + 0.0:g}"
    sixteenths = round(depth_mm / _MM_PER_INCH * _SIXTEENTHS)
    whole, rest = divmod(abs(sixteenths), _SIXTEENTHS)
    below, of = rest, _SIXTEENTHS
    while below and below % 2 == 0:
        below, of = below // 2, of // 2
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{below}/{of}")
    return ("-" if sixteenths < 0 else "") + " ".join(parts)
