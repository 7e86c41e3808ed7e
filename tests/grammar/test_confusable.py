"""What sounds alike is listed in one table, and every module that needs it uses that table."""

from __future__ import annotations

import ast
from decimal import Decimal
from pathlib import Path

import pytest

from assistant.conversation.either_or import digit_by_digit
from assistant.ears.confusable import confusables_of
from assistant.ears.rivals import confusable_wholes, sounding_alike
from assistant.ears.vosk_results import sound_alike
from assistant.floor.mishearings import alternatives
from grammar import understand
from grammar.commands import Reading
from grammar.confusable import LETTERS, PAIRS, UNITS, ConfusableKind, either_way, numbers_alike
from grammar.figures import in_figures
from grammar.language import terminals
from grammar.slots.measure import UNITS as LENGTH_UNITS
from grammar.spoken import Spoken

ROOT = Path(__file__).resolve().parents[2]
READERS = (
    "assistant/floor/mishearings.py",
    "assistant/ears/confusable.py",
    "assistant/ears/rivals.py",
    "assistant/ears/vosk_results.py",
    "assistant/conversation/either_or.py",
)
TEENS = [(13, 30), (14, 40), (15, 50), (16, 60), (17, 70), (18, 80), (19, 90)]
"""From memory: the stress alone tells them apart. Written out, so that the table can be wrong."""


def test_the_table() -> None:
    assert numbers_alike("teen") == dict(TEENS) | {ten: teen for teen, ten in TEENS}
    assert numbers_alike("tens") == {6: 60, 60: 6, 7: 70, 70: 7, 8: 80, 80: 8, 9: 90, 90: 9}
    assert numbers_alike("digit") == {5: 9, 9: 5}
    assert numbers_alike("accent") == {13: 14, 14: 13, 30: 40, 40: 30}
    assert either_way("sign") == {"minus": "plus", "plus": "minus"}
    assert numbers_alike("sign") == {}


@pytest.mark.parametrize("kind", PAIRS)
def test_each_word_of_a_kind_has_one_partner_and_is_in_the_language(kind: ConfusableKind) -> None:
    words = [word for pair in PAIRS[kind] for word in pair]
    assert len(words) == len(set(words))
    assert set(words) <= terminals().keys()


def test_units_are_taken_for_units() -> None:
    named = set(UNITS) | {other for others in UNITS.values() for other in others}
    assert named == set(LENGTH_UNITS)
    assert all(unit not in others for unit, others in UNITS.items())
    assert len(LETTERS) == 26


@pytest.mark.parametrize(("teen", "ten"), TEENS)
def test_a_teen_is_held_against_its_ten_by_all(teen: int, ten: int) -> None:
    words = {pair[0]: pair[1] for pair in PAIRS["teen"]}
    teen_word = next(word for word in words if in_figures(word) == str(teen))
    ten_word = words[teen_word]
    for one, other in ((teen, ten), (ten, teen)):
        heard = Reading(Decimal(-one), "mm")
        assert alternatives(heard)[0].number == -other
        assert other in confusable_wholes(one)
    assert f"minus {ten} inches" in [
        one.words for one in confusables_of(f"minus {teen_word} inches")
    ]
    assert digit_by_digit([teen_word, ten_word]) != []
    assert sound_alike(f"bravo two minus {teen_word}", f"bravo two minus {ten_word}")


def test_a_sign_is_held_against_the_other() -> None:
    (command,) = understand("B3 -18 mm")
    other = understand("B3 +18 mm")[0]
    assert other in sounding_alike(command, Spoken())
    assert Reading(Decimal(18), "mm") in alternatives(Reading(Decimal(-18), "mm"))
    assert sound_alike("bravo three minus two", "bravo three plus two")
    assert not sound_alike("bravo three minus two", "bravo three minus four")


def test_a_five_is_held_against_a_nine() -> None:
    assert Reading(Decimal(-39), "mm") in alternatives(Reading(Decimal(-35), "mm"))
    confusables = [one.words for one in confusables_of("minus five millimetres")]
    assert confusables == ["minus 9 millimetres"]


@pytest.mark.parametrize(("said", "other"), [("B3 -18 mm", "B3 -18 in"), ("grid 2 m", "grid 2 ft")])
def test_a_unit_is_held_against_those_it_is_taken_for(said: str, other: str) -> None:
    assert understand(other)[0] in sounding_alike(understand(said)[0], Spoken())


@pytest.mark.parametrize("reader", READERS)
def test_it_is_read_from_the_one_table(reader: str) -> None:
    tree = ast.parse((ROOT / reader).read_text("utf-8"))
    read = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert "grammar.confusable" in read
