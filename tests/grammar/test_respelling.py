"""Slips of the finger: which word is meant, and when none is."""

from __future__ import annotations

import pytest

from grammar.respelling import mend_slips, word_meant
from grammar.words import split_words


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        # One letter left out, one too many, another one, two turned round.
        ("nort", "north"), ("norrth", "north"), ("nirth", "north"), ("nroth", "north"),
        ("talyl", "tally"), ("tallly", "tally"), ("rom", "room"), ("grd", "grid"),
        ("finsih", "finish"), ("fimnish", "finish"), ("primmer", "primer"), ("slaab", "slab"),
        # Two slips in a long word.
        ("milimetrs", "millimetre"), ("redaings", "readings"), ("conctere", "concrete"),
        ("avarege", "average"), ("vardect", "verdict"), ("chimny", "chimney"), ("kichin", None),
        # Not in a short one.
        ("wal", None), ("hwo", None), ("ab", None), ("waal", None), ("gabs", None),
        # The first letter is seldom wrong: turned with the next, or left out of a longer word.
        ("nudo", "undo"), ("udno", "undo"), ("oncrete", "concrete"), ("oom", None),
        ("agrid", None), ("kconcrete", None),
        # Words of every day, and units of something else.
        ("later", None), ("weather", None), ("litre", None), ("kg", None),
        # Both spellings of a metre are one.
        ("metrs", "metre"), ("zzzz", None),
    ],
)  # fmt: skip
def test_the_word_that_a_slip_is_of(said: str, meant: str | None) -> None:
    assert word_meant(said) == meant


@pytest.mark.parametrize(
    ("line", "mended"),
    [
        ("wall nroth 4 m", ["wall", "north", "4", "m"]),
        ("wall north, finsih plus 4", ["wall", "north", ", finish", "plus", "4"]),
        ("wall zzzz 4 m", None),
        ("wall nroth zzzz", None),  # nothing is mended in part
        ("B3 -18", None),  # and nothing where there is no slip
        ("b3 18 low", None),
    ],
)
def test_a_line_is_mended_as_a_whole(line: str, mended: list[str] | None) -> None:
    assert mend_slips(split_words(line)) == mended
