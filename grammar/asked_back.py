"""Lines that lack a thing or can mean several, known by their look: what is asked of each."""

from __future__ import annotations

_POINT = r"[a-z]{1,2} ?\d{1,2}"
_NUMBER = r"(\d+|one|two|three|four)"
_SIGN = r"(-|\+|minus|plus)"

ASKED_BACK: tuple[tuple[str, str, str], ...] = (
    (
        rf"^{_POINT} (was|is) [\d./]+ (and )?not [\d./]+$",
        "Below or above? Say the value with its side.",
        "B1 was 10 not 9",
    ),
    (
        rf"^(put|make|take|bring|move|set) {_POINT} .*\b(lower|higher)( down| up)?$",
        "Which is meant: its reading put right, or the floor ground there?",
        "put F1 two lower",
    ),
    (r"^go back( one)?$", "Which is meant: undo, step back, or go to a point?", "go back"),
    (
        rf"^(redo|again|re-?read|do|check) {_POINT}( again)?$",
        "Which is meant: go to it, correct it or strike it?",
        "redo B1",
    ),
    (r"^next( please)?$", "Which is meant: next point, next row or next step?", "next"),
    (
        r"^(what if )?(i |we )?(only )?pour (to )?[\d./]+ ?(mm|cm|m|in|inch|inches|metres)?$"
        r"|^what if (i|we) (only )?pour ",
        "Which is meant: the most depth, or the height of the finish?",
        "what if I only pour to 12 mm",
    ),
    (
        r"^what if [\d./]+ ?[a-z]* finish$",
        "Below or above zero? Say the finish with its side.",
        "what if 12 mm finish",
    ),
    (
        r"^(only )?(rows|columns) \w+ (and|to) \w+$",
        "Which is meant: where the pour stops, or readings of them?",
        "rows 1 and 2",
    ),
    (
        r"^when (is|will) (it|floor|slab|pour) (be )?(dry|ready|set|cured)$",
        "Which is meant: to walk on it, or to cover it?",
        "when is it dry",
    ),
    (
        r"^(start |begin |go )?(from |at )?other (side|end|direction|way)( round| around)?$",
        "Which way, and from which point? Go to a point, or along columns.",
        "start from the other side",
    ),
    (
        r"^(row|column) \w+$",
        "Which is meant: its values, said after it, or where to go on?",
        "row 2",
    ),
    (
        rf"^(from )?{_POINT} to {_POINT} ({_SIGN}|[\d.]|level)|^all of (row|column) \w+",
        "The same at each of them? Say each point with its own value.",
        "A1 to D1 minus 8",
    ),
    (
        r"\bbetween [\d./]+ and [\d./]+ \w+$",
        "Which value is it? One reading takes one.",
        "A1 between 8 and 9 low",
    ),
    (
        rf"^door {_NUMBER}$",
        "Which is meant: its heights, left, right or outside, or how it is?",
        "door 1",
    ),
    (
        r"\b(sill|threshold)\b.*\d$",
        "Which is meant: the floor outside, or a jamb, left or right?",
        "door 1 threshold plus 4",
    ),
    (
        rf"^(moved to |this is |start )?set ?up {_NUMBER}$",
        "Which is meant: a new set up, or a tie to the one before?",
        "set up 2",
    ),
)
"""Pattern over the words, what is asked, and a line that it is asked of."""
