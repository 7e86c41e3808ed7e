"""
The gaps of a row filled by what stands where in a line, for rows that hold several values alike.

Which size is the thing's and which its place, which of two lengths is the gap and which the
straightedge: the words beside them and the values themselves show which. Each function
here takes a row and a line in pieces, and gives the texts of the row's gaps, or nothing; a
number or a point that it doesn't take is left over, and nothing is filled then.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from grammar.commands.doors import MeasureDoor
from grammar.commands.finish import FinishOverHighest
from grammar.commands.flatness import SetOwnSpec
from grammar.commands.proof import CorrectLineValue, MeasureGap, TakeLineValues
from grammar.commands.readings import CorrectReading, MarkStep, TakeReadings
from grammar.commands.site import AskWarmLeg
from grammar.commands.things import AddJointBetween, AddObstacle
from grammar.commands.walk import TakeLine, TakePoints, TakeRun
from grammar.commands.zones import AddZone
from grammar.frozen import frozen
from grammar.numbers_said import LENGTHS
from grammar.phrase import Phrase
from grammar.pieced_values import in_millimetres, numbers_of
from grammar.pieces import Piece, line_of
from grammar.runs_said import Heights, heights_in, line_named, without_counts
from grammar.sizes_said import Lacks, obstacle
from grammar.zones_said import zone


@frozen
class Shaped:
    """A row's gaps with their texts, or a question for what they lack."""

    texts: dict[str, str]
    question: str = ""


def shaped(phrase: Phrase, pieces: Sequence[Piece]) -> Shaped | None:
    """The gaps of a row by the shape of a line; None where it has none, or another's."""
    way = _SHAPES.get(phrase.command)
    found = way(phrase, list(pieces)) if way is not None and pieces else None
    if isinstance(found, Lacks):
        return Shaped({}, found.question)
    return Shaped(found) if found else None


def has_shape(phrase: Phrase) -> bool:
    """Whether a row is filled by a shape."""
    return phrase.command in _SHAPES


def is_plain_too(phrase: Phrase) -> bool:
    """Whether such a row holds a value of each kind at most, so that each finds its own gap."""
    return phrase.command in (CorrectReading, FinishOverHighest, TakePoints, TakeReadings)


Texts = dict[str, str]


def _asked(heights: Heights, point: str = "") -> Lacks:
    """Which side is asked of what has none."""
    return Lacks(f"{point} {heights.unsigned}: below or above?".lstrip())


def _run(phrase: Phrase, pieces: list[Piece]) -> Texts | Lacks | None:
    """Heights alone, or those of a row, a column, or a line."""
    texts: Texts = {}
    if "line" in phrase.fields:
        named = line_named(pieces)
        if named is None:
            return None
        word, name, pieces = named
        if (word == "line") is not (phrase.command is TakeLineValues) and name.isdigit():
            return None
        texts["line"] = name
    elif line_named(pieces) is not None:
        return None
    heights = heights_in(without_counts(pieces))
    if heights is None:
        return None
    if heights.unsigned:
        # A single one before a height may be a point's number.
        return _asked(heights) if "line" in phrase.fields or "," in heights.unsigned else None
    if len(heights.texts) < 2:
        return None
    return {**texts, "readings": " ".join(heights.texts)}


def _several(_phrase: Phrase, pieces: list[Piece]) -> Texts | Lacks | None:
    """Several heights of one point."""
    points = [piece for piece in pieces if piece.kind == "point"]
    if len({point.text for point in points}) != 1:
        return None
    rest = without_counts([piece for piece in pieces if piece.kind != "point"])
    heights = heights_in(rest)
    if heights is None or len(list(numbers_of(rest))) < 2:
        return None
    if heights.unsigned:
        return _asked(heights, points[0].shown)
    signs = {text[0] for text in heights.texts if text != "0"}
    units = {text.partition(" ")[2] for text in heights.texts} - {""}
    if len(signs) != 1 or "0" in heights.texts or len(units) > 1:
        return None
    sizes = " ".join(text.partition(" ")[0][1:] for text in heights.texts)
    unit = next(iter(units), "")
    return {"point": points[0].shown, "readings": f"{signs.pop()}{sizes} {unit}".rstrip()}


def _points(_phrase: Phrase, pieces: list[Piece]) -> Texts | Lacks | None:
    """Points, each with its height after it."""
    values = [
        piece
        for piece in without_counts(pieces)
        if piece.kind != "word" or piece.text in ("level", "flush")
    ]
    if len(values) < 4 or len(values) % 2:
        return None
    pairs = []
    for point, height in zip(values[::2], values[1::2], strict=True):
        if point.kind != "point" or height.kind == "point":
            return None
        at = pieces.index(height)
        found = heights_in(pieces[at : at + 2] if pieces[at + 1 : at + 2] else [height])
        beside = pieces[at + 1 : at + 2]
        if beside and beside[0].kind != "word":
            found = heights_in([height])
        if found is None:
            return None
        if found.unsigned:
            return _asked(found, point.shown)
        pairs.append(f"{point.shown} {found.texts[0]}")
    return {"points": ", ".join(pairs)}


_GAP_SIZES = 2


def _gap(phrase: Phrase, pieces: list[Piece]) -> Texts | None:
    """Two lengths: the gap is the smaller one, and what lies over it the longer."""
    points = [piece for piece in pieces if piece.kind == "point"]
    lengths = list(numbers_of(pieces))
    sizes = [in_millimetres(length) for length in lengths]
    if len(lengths) != _GAP_SIZES or None in sizes or any(length.sign for length in lengths):
        return None
    if len(points) != ("point" in phrase.fields):
        return None
    longer = sizes[1] > sizes[0]  # type: ignore[operator]
    gap, under = lengths if longer else lengths[::-1]
    over = "under" if "under" in phrase.fields else "length"
    texts = {"gap": gap.shown, over: under.shown}
    return {**texts, "point": points[0].shown} if points else texts


_TWO_LINES = re.compile(
    r"(?:(?P<what>row|column|col)s? )?(?P<first>[a-z]|\d\d?|[A-Z]{1,2}\d\d?)"
    r" ?(?:and|to|from|/|,|-) ?(?:(?:row|column|col) )?(?P<second>[a-z]|\d\d?|[A-Z]{1,2}\d\d?)\b"
)


def _two_lines(phrase: Phrase, pieces: list[Piece]) -> Texts | None:
    """Two lines of the grid, or two points, between which something lies."""
    line = line_of(pieces)
    line = re.sub(r"\b(row|column|col) (\w+) (row|column|col) ", r"\1 \2 and \3 ", line)
    of_words = re.compile(r"(?<![\w'])" + _TWO_LINES.pattern)
    found = [one for one in of_words.finditer(line) if _same_kind(one["first"], one["second"])]
    if len(found) != 1:
        return None
    one = found[0]
    rest = line[: one.start()] + line[one.end() :]
    if re.search(r"\d|\b[b-h]\b", rest):
        return None
    named = one["what"] or re.search(r"\b(?:from|between|step)\b", line)
    if one["first"].islower() and not named:
        return None
    if phrase.command is AddJointBetween:
        if one["first"][0].isupper():
            return None
        return {"first_line": one["first"], "second_line": one["second"]}
    return {"first": one["first"], "second": one["second"]}


def _same_kind(first: str, second: str) -> bool:
    """Whether two names are both of rows, of columns or of points, and not the same."""
    return first != second and all(
        test(first) == test(second) for test in (str.isdigit, str.isupper, str.isalpha)
    )


def _warm_leg(_phrase: Phrase, pieces: list[Piece]) -> Texts | None:
    """How far a hose rises, how warm it is there, and how warm elsewhere."""
    numbers = list(numbers_of(pieces))
    rises = [each for each in numbers if each.unit in LENGTHS and not each.sign]
    warm = [each for each in numbers if each.unit.startswith("degrees") or not each.unit]
    if len(rises) != 1 or len(warm) != 2 or len(numbers) != 3:
        return None
    if any(piece.kind == "point" for piece in pieces):
        return None
    leg, rest = warm
    before = pieces[: pieces.index(leg)]
    if any(piece.text in ("rest", "remainder", "others", "elsewhere") for piece in before):
        leg, rest = rest, leg
    kind = next((each.unit for each in (rest, leg) if each.unit.endswith("fahrenheit")), "degrees")
    said = {"leg": f"{leg.text} {kind}", "rest": f"{rest.text} {kind}"}
    return {"run": rises[0].shown, **said}


_CORRECTED = re.compile(
    r"\bline (?P<line>\d\d?)\b(?P<rest>.*)|(?P<before>.*)\bline (?P<later>\d\d?)\b(?P<after>.*)"
)
_THE_VALUE = re.compile(r"\b(?:point|pt|value|number|no|spot|reading)\W{0,3}(?:number )?(\d\d?)\b")


def _line_value(phrase: Phrase, pieces: list[Piece]) -> Texts | Lacks | None:
    """A value of a line by its number, put right."""
    line = line_of(pieces)
    of_line = re.search(r"\bline (?:number )?(\d\d?)\b|\bL(\d\d?)\b", line)
    if ("line" in phrase.fields) is not (of_line is not None):
        return None
    rest = line[: of_line.start()] + " " + line[of_line.end() :] if of_line else line
    number = _THE_VALUE.search(rest) if "number" in phrase.fields else None
    if "number" in phrase.fields and number is None:
        return None
    if number is not None:
        rest = rest[: number.start()] + " " + rest[number.end() :]
    heights = re.findall(r"(?<![\w.])[-+]?\d[\d./]*(?: (?:mm|cm|in))?(?: [a-z]+)?", rest)
    if len(heights) != 1:
        return None
    said = _height(heights[0])
    if said is None:
        return Lacks(f"{heights[0].split()[0]}: below or above?")
    texts = {"reading": said}
    if number is not None:
        texts["number"] = number[1]
    if of_line is not None:
        texts["line"] = of_line[1] or of_line[2]
    return texts


def _height(text: str) -> str | None:
    """A height as it is written in a line of pieces; None where it has no side."""
    parts = text.split()
    if parts[0].startswith(("-", "+")):
        with_unit = parts[1:] and parts[1] in LENGTHS
        return " ".join(parts[: 2 if with_unit else 1])
    if parts[0] == "0":
        return "level"
    last = parts[-1]
    return text if len(parts) > 1 and last in ("below", "above", "low", "high", "under") else None


_SIDE = {
    "left": "left", "l": "left", "lh": "left", "right": "right", "r": "right", "rh": "right",
    "outside": "outside", "out": "outside", "hall": "outside", "write": "right",
}  # fmt: skip


def _jambs(_phrase: Phrase, pieces: list[Piece]) -> Texts | None:
    """A door with the heights at its jambs, each by the name before or after it."""
    line = line_of(pieces)
    door = re.search(r"\b(?:door|doorway)(?: number)? (\d\d?)\b|\bD(\d\d?)\b", line)
    if door is None:
        return None
    rest = (line[: door.start()] + " " + line[door.end() :]).split()
    heights = [at for at, text in enumerate(rest) if re.fullmatch(r"[-+]\d[\d./]*|0", text)]
    if any(re.search(r"\d", text) for at, text in enumerate(rest) if at not in heights):
        return None
    named: dict[str, str] = {}
    sides = [(at, _SIDE[text]) for at, text in enumerate(rest) if text in _SIDE]
    first = bool(sides and heights) and sides[0][0] < heights[0]
    for at in heights:
        near = [(place, side) for place, side in sides if (place < at) is first]
        side = (near[-1] if first else near[0])[1] if near else ""
        unit = rest[at + 1] if rest[at + 1 : at + 2] and rest[at + 1] in LENGTHS else ""
        if not side or side in named:
            return None
        named[side] = "level" if rest[at] == "0" else f"{rest[at]} {unit}".rstrip()
    if not {"left", "right"} <= named.keys():
        return None
    return {"door": door[1] or door[2], **named}


def _over(phrase: Phrase, pieces: list[Piece]) -> Texts | None:
    """How much over the highest, where that is said with a plus."""
    numbers = list(numbers_of(pieces))
    if "over" not in phrase.fields or len(numbers) != 1 or numbers[0].sign != "+":
        return None
    if any(piece.kind == "point" for piece in pieces):
        return None
    return {"over": numbers[0].shown.removeprefix("+")}


_DENIES = frozenset(("not", "isn't", "wasn't", "than", "of"))


def _corrected(_phrase: Phrase, pieces: list[Piece]) -> Texts | None:
    """A point's height, where it is said, too, what it is not or was before."""
    points = [piece for piece in pieces if piece.kind == "point"]
    heights = [at for at, piece in enumerate(pieces) if piece.kind == "number"]
    if len(points) != 1 or len(heights) != 2:
        return None
    denied = [at for at in heights if pieces[at - 1].text in _DENIES]
    replaces = any(piece.text in ("replace", "swap", "exchange") for piece in pieces)
    if replaces and not denied:
        denied = heights[:1]
    if len(denied) != 1:
        return None
    at = next(at for at in heights if at not in denied)
    heard = heights_in(pieces[at : at + 2] if at + 1 not in heights else [pieces[at]])
    if heard is None or heard.unsigned or len(heard.texts) != 1:
        return None
    height = "level" if heard.texts[0] == "0" else heard.texts[0]
    return {"point": points[0].shown, "reading": height}


def _zone(phrase: Phrase, pieces: list[Piece]) -> Texts | Lacks | None:
    return zone(dict(phrase.fixed).get("kind"), phrase.fields, pieces)


def _obstacle(phrase: Phrase, pieces: list[Piece]) -> Texts | Lacks | None:
    return obstacle(phrase, pieces)


_SHAPES: dict[type, Callable[[Phrase, list[Piece]], Texts | Lacks | None]] = {
    AddJointBetween: _two_lines,
    AddObstacle: _obstacle,
    AddZone: _zone,
    AskWarmLeg: _warm_leg,
    CorrectLineValue: _line_value,
    CorrectReading: _corrected,
    FinishOverHighest: _over,
    MarkStep: _two_lines,
    MeasureDoor: _jambs,
    MeasureGap: _gap,
    SetOwnSpec: _gap,
    TakeLine: _run,
    TakeLineValues: _run,
    TakePoints: _points,
    TakeReadings: _several,
    TakeRun: _run,
}
