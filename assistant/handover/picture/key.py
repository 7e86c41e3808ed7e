"""What the colours and lines of a plan mean, and how long a metre is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.handover.picture.frame import MARGIN, WIDTH, PictureFrame
from assistant.handover.picture.pen import Pen, width_of
from assistant.handover.picture.scale import INK, text_on
from assistant.handover.strips import strip_shapes
from assistant.job import Job
from assistant.reply import wording

if TYPE_CHECKING:
    from assistant.handover.picture.bands import Bands
    from assistant.handover.picture.views import View

_SIZE = 11.5
_ROW = 22.0
_BARS_M = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
_BARS_FT = (1, 2, 5, 10, 20, 50, 100)


def key_of(pen: Pen, view: View, bands: Bands, job: Job, frame: PictureFrame, top: float) -> float:
    """Draw it from a height on; where it ends."""
    top = _colours(pen, view, bands, top) if view.surfaces else top
    for words in _meanings(view, job):
        for line in _lines(words):
            pen.text(line, MARGIN, top + _SIZE, font_size=_SIZE, fill=INK)
            top += 17
    return _bar(pen, view, frame, top + 4) + 12


def _colours(pen: Pen, view: View, bands: Bands, top: float) -> float:
    count = len(bands.shades)
    wide = (WIDTH - 2 * MARGIN) / count
    for row, shade in enumerate(bands.shades):
        x = MARGIN + row * wide
        pen.add("rect", x=x, y=top, width=wide, height=_ROW, fill=shade, stroke=INK,
                stroke_width=0.6, class_="plate")  # fmt: skip
        low, high = (view.words(level) for level in bands.levels[row : row + 2])
        words = f"{low}–{high}"
        size = min(_SIZE, wide / max(width_of(words, 1), 1))
        pen.text(words, x + wide / 2, top + _ROW / 2 + size * 0.36, font_size=size,
                 text_anchor="middle", fill=text_on(shade), class_="on-plate")  # fmt: skip
    return top + _ROW + 8


def _meanings(view: View, job: Job) -> list[str]:
    unit = {"mm": "millimetres", "in": "inches"}[view.unit]
    above = "the finish" if view.to_grind else "the zero"
    lines = [f"In {unit}, the darker the deeper. Framed: least and most. ○ not read yet."]
    least = min((spot.value_mm for spot in view.spots if spot.value_mm is not None), default=0.0)
    if least < 0:
        lines.append(f"↑ stands above {above}.{_hatched(view, least)}")
    if any(spot.doubtful for spot in view.spots):
        lines.append("? the reading is in doubt.")
    if strip_shapes(job):
        front = " Thick line: the front, by the bags used." if job.pour.fronts else ""
        lines.append(f"Dashed, numbered: strips of the pour.{front}")
    lines += ["Dotted, named: zones, each with its finish."] if job.layout.zones else []
    kinds = {thing.kind for thing in job.layout.things.lines}
    lines += ["Dash and dot: a joint."] if "joint" in kinds else []
    lines += ["Short dashes: a crack."] if "crack" in kinds else []
    lines.append("Between the points the colours are worked out, not read.")
    return lines


def _hatched(view: View, least_mm: float) -> str:
    """What is hatched: of a poured floor only what is too high to be let pass."""
    if not view.to_grind or least_mm >= -view.let_pass_mm:
        return ""
    if not view.let_pass_mm:
        return " Hatched: grind, or raise the finish."
    return f" Hatched: to grind, more than {wording.length(view.let_pass_mm, view.unit)} above."


def _lines(words: str) -> list[str]:
    """Words in lines that fit."""
    most, lines = int((WIDTH - MARGIN) / width_of("x", _SIZE)), [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) > most:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _bar(pen: Pen, view: View, frame: PictureFrame, top: float) -> float:
    """A length of floor, to measure by."""
    if view.unit == "in":
        fitting = [each * 0.3048 for each in _BARS_FT if each * 0.3048 * frame.scale < WIDTH / 3]
    else:
        fitting = [each for each in _BARS_M if each * frame.scale < WIDTH / 3]
    length_m = fitting[-1] if fitting else _BARS_M[0]
    end = MARGIN + length_m * frame.scale
    pen.path([[(MARGIN, top), (MARGIN, top + 8), (end, top + 8), (end, top)]], closed=False,
             fill="none", stroke=INK, stroke_width=1.4)  # fmt: skip
    pen.text(wording.distance(length_m, view.unit), end + 8, top + 10, font_size=_SIZE, fill=INK)
    return top + 14
