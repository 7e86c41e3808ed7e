"""A point, a letter or two for the column and a number to 99 for the row; and a line of points."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from grammar.errors import Unsayable
from grammar.numbers import in_words
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import Slot, SpokenForm, TypedOnly, ValueKind, alternatives_of
from grammar.slots.whole import to_99

if TYPE_CHECKING:
    from random import Random

ALPHABET = (
    "alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november "
    "oscar papa quebec romeo sierra tango uniform victor whiskey xray yankee zulu"
).split()
"""The ICAO alphabet; source: ICAO Annex 10, volume II, figure 5-1."""
_ALSO_SPELT = {"alpha": "A", "juliet": "J", "juliette": "J", "whisky": "W", "x-ray": "X"}
LETTERS = {
    **{word[0]: word[0].upper() for word in ALPHABET},
    **{word: word[0].upper() for word in ALPHABET},
    **_ALSO_SPELT,
}
"""A letter as it is typed or said -> the letter."""
PLAIN_PAIRS = frozenset(
    """
    ah am an as at ay be by do ee ef eh el em en ex go he hi if in is it me my no of oh ok on or ox
    so to up us we ye
    """.split()
)
"""Words of two letters, which name a column only where its number is joined to them: be3."""

_RULES = """
p_column: p_letter | p_letter p_letter | LETTERS
p_letter: r_letter | p_xray
p_xray: r_ex r_ray
p_row: NUMERAL | r_digit | p_two_digits | n_below
"""
"""``LABEL`` is a name written together, ``LETTERS`` two letters on their own."""


def _row(said: Any) -> int:
    return to_99(said, "points and doors are numbered from 1 to 99")


def _label(said: str) -> str:
    letters = said.rstrip("0123456789")
    return f"{letters.upper()}{_row(said[len(letters) :])}"


def named_point(*said: Any) -> str:
    return _label(said[0]) if len(said) == 1 else f"{said[0]}{said[1]}"


def spoken_point(name: str) -> str:
    """
    A point's name to be read out by the ICAO alphabet.

    >>> spoken_point("B3"), spoken_point("AA12")
    ('bravo three', 'alfa alfa one two')
    """
    letters = [ALPHABET[ord(sign) - ord("A")] for sign in name if sign.isalpha()]
    digits = [in_words(int(sign)) for sign in name if sign.isdigit()]
    return " ".join(letters + digits)


def _say(voice: SpokenNumbers, name: str) -> str:
    letters = [sign for sign in name if sign.isalpha()]
    if len(letters) > (2 if voice.spoken.two_letter_columns else 1):
        raise Unsayable
    said = [ALPHABET[ord(letter) - ord("A")] for letter in letters]
    return " ".join([*said, voice.whole(int(name[len(letters) :]))])


def _sample(random: Random) -> tuple[str, str]:
    letters = "".join(random.choice(ALPHABET)[0].upper() for _ in range(_letters(random)))
    row = random.randrange(1, 100)
    name = f"{letters}{row}"
    return random.choice(
        (name, name.lower(), spoken_point(name), " ".join((*letters, str(row))))
    ), name


def _letters(random: Random) -> int:
    return 2 if random.random() < 0.15 else 1


def _sample_line(random: Random) -> tuple[str, str]:
    letter, row = random.choice("BCDEFGHIJKLNOP"), str(random.randrange(1, 30))
    line = random.choice((letter, row, letter + row))
    return line, line


def _written_line(line: object) -> str:
    """A column, row or point; the two letters of a column apart, as together some are other
    words: MM a unit, AN an article."""
    written = str(line)
    return " ".join(written) if written.isalpha() else written


def _say_column(_voice: SpokenNumbers, column: str) -> str:
    if len(column) > 1:
        raise Unsayable
    return ALPHABET[ord(column) - ord("A")]


def _sample_column(random: Random) -> tuple[str, str]:
    word = random.choice(ALPHABET)
    return random.choice((word, word[0], word[0].upper())), word[0].upper()


def _sample_grid_line(random: Random) -> tuple[str, str]:
    line = random.choice((random.choice("BCDEFGHIJKLNOP"), str(random.randrange(1, 30))))
    return line, line


_A_POINT = "a point (like B3)"

KIND = ValueKind(
    slots=(
        Slot(
            name="point",
            rule="LABEL | p_column p_row",
            build=named_point,
            short=str,
            sample=_sample,
            aloud=SpokenForm(
                heard="<letter> <under_hundred>",
                say=_say,
                under={"two_letter_columns": "wide_point"},
            ),
        ),
        Slot(
            name="column",
            rule="p_column",
            build=str,
            short=_written_line,
            sample=_sample_column,
            aloud=SpokenForm(heard="<letter>", say=_say_column),
        ),
        Slot(
            name="line",
            rule="point | p_column | whole",
            build=str,
            short=_written_line,
            sample=_sample_line,
            aloud=TypedOnly(why="a letter or a number alone is too short to be heard surely"),
        ),
        Slot(
            name="grid_line",
            rule="p_column | whole",
            build=str,
            short=_written_line,
            sample=_sample_grid_line,
            aloud=TypedOnly(why="a letter or a number alone is too short to be heard surely"),
        ),
    ),
    roles={"letter": LETTERS, "ex": {"x": "X"}, "ray": {"ray": None}},
    rules=_RULES,
    builders={
        "p_column": lambda *letters: "".join(letters).upper(),
        "p_letter": lambda letter: letter,
        "p_xray": lambda ex, _ray: ex,
        "p_row": _row,
    },
    unbroken=("p_row",),
    expected={
        **dict.fromkeys(("point", "r_letter", "p_column", "r_ex"), _A_POINT),
        "p_row": "a number",
    },
    spoken_pieces={
        "letter": alternatives_of(ALPHABET),
        "wide_point": "<letter> [<letter>] <under_hundred>",
    },
    spellings={
        "alfa": ("alpha",),
        "juliett": ("juliet",),
        "whiskey": ("whisky",),
        "xray": ("x-ray",),
    },
)
