"""The spoken language: narrower than the typed one, and never outside of it."""

from __future__ import annotations

from dataclasses import fields
from decimal import Decimal
from random import Random

import pytest

from grammar import short_form
from grammar.aloud import first_way, said_aloud, written_ways
from grammar.automaton import Automaton
from grammar.commands import Measure, Reading
from grammar.commands.material import ChooseProduct
from grammar.commands.readings import TakeReading
from grammar.commands.room import SetRoom
from grammar.commands.talk import WhatIf
from grammar.figures import in_figures
from grammar.numbers import in_words
from grammar.phrases import PHRASES
from grammar.spoken import Manner, Spoken, plain_words, spoken_nodes
from grammar.template import read_template
from grammar.vocabulary import fit_vocabulary, recogniser_phrases, vocabulary

NAMES = ("Example standard", "Fine 40")
MANNERS: tuple[Manner, ...] = ("words", "digits")
WORDS = Spoken("words", NAMES)
DIGITS = Spoken("digits", NAMES)


@pytest.mark.parametrize(
    ("spoken", "said", "taken"),
    [
        (WORDS, "bravo three minus eighteen millimetres", True),
        (WORDS, "point bravo three plus one and five eighths inches", True),
        (WORDS, "minus a hundred and five millimetres", True),
        (WORDS, "bravo three level", True),
        (WORDS, "what if product fine forty", True),
        (WORDS, "strike bravo three", True),
        (WORDS, "take that back", True),
        (WORDS, "bring that back", True),
        (WORDS, "ears open", True),
        (WORDS, "ears closed", True),
        (WORDS, "help", True),
        (DIGITS, "bravo one two minus one zero five millimetres", True),
        (DIGITS, "zulu nine nine minus zero point five millimetres", True),
        # Numbers are said in one manner, never both.
        (WORDS, "bravo one two minus eighteen millimetres", False),
        (DIGITS, "bravo three minus eighteen millimetres", False),
        # Only plus and minus, and the unit always: each is typed in more ways.
        (WORDS, "bravo three eighteen millimetres below", False),
        (WORDS, "bravo three minus eighteen", False),
        (WORDS, "b three minus eighteen millimetres", False),
        # One short word must not change the record.
        (WORDS, "level", False),
        (WORDS, "undo", False),
        (WORDS, "below", False),
        (WORDS, "done", False),
        (WORDS, "hold", False),
        # Names are those of the cards at hand.
        (WORDS, "product fine", False),
        (WORDS, "alfa alfa three level", False),
    ],
)
def test_what_may_be_said(spoken: Spoken, said: str, taken: bool) -> None:
    assert spoken.automaton.accepts(said.split()) is taken


def test_points_past_column_z_on_request() -> None:
    wide = Spoken(two_letter_columns=True)
    assert wide.automaton.accepts("alfa alfa three level".split())


def test_product_comes_back_under_the_name_on_its_card() -> None:
    (command,) = WORDS.meanings("product fine forty")
    assert command == ChooseProduct("fine 40")
    (asked,) = WORDS.meanings("what if product fine forty")
    assert isinstance(asked, WhatIf)
    assert asked.change == ChooseProduct("fine 40")


def test_without_names_no_product_may_be_said() -> None:
    assert Spoken().automaton.walk(["product"]) is None


@pytest.mark.parametrize("manner", MANNERS)
def test_every_speakable_phrase_can_be_said(manner: Manner) -> None:
    """A new slot needs a spoken form in grammar/spoken.py, or its phrase speakable=False."""
    missing = [phrase.template for phrase in PHRASES if phrase.speakable]
    for phrase in Spoken(manner, NAMES).phrases:
        missing.remove(phrase.template)
    assert not missing


@pytest.mark.slow
@pytest.mark.parametrize("manner", MANNERS)
def test_every_sentence_has_one_meaning_and_comes_back_as_words(manner: Manner) -> None:
    spoken = Spoken(manner, NAMES)
    random = Random(7)
    for phrase in spoken.phrases:
        for _ in range(3):
            said = spoken.sample(phrase, random)
            commands = spoken.meanings(said)
            assert len(commands) == 1, said
            assert isinstance(commands[0], phrase.command), said
            assert spoken.automaton.accepts(plain_words(said)), said
            again = said_aloud(spoken, commands[0])
            assert again is not None, said
            ways = Automaton([read_template(f"({again})")], read_template)
            assert ways.accepts(plain_words(said)), (said, again)


@pytest.mark.slow
@pytest.mark.parametrize("manner", MANNERS)
def test_every_way_to_write_a_command_is_that_command(manner: Manner) -> None:
    spoken = Spoken(manner, NAMES)
    random = Random(11)
    for phrase in spoken.phrases:
        said = spoken.sample(phrase, random)
        (command,) = spoken.meanings(said)
        template = said_aloud(spoken, command, written=True)
        assert template is not None
        written = Automaton([read_template(f"({template})")], read_template, written=True)
        for _ in range(3):
            text = _some_sentence(written, random)
            assert spoken.meanings(text) == (command,), text
            # "Pour neat" and "no aggregate" come together only when they are parsed.
            change = command.change if isinstance(command, WhatIf) else command
            held = phrase.fields and fields(change)
            assert not held or in_figures(text) == in_figures(said), (text, said)


@pytest.mark.parametrize("manner", MANNERS)
def test_what_a_recogniser_may_write_is_understood(manner: Manner) -> None:
    spoken = Spoken(manner, NAMES)
    random = Random(13)
    lost = [
        text
        for text in (_some_sentence(spoken.written_automaton, random) for _ in range(150))
        if not spoken.meanings(text)
    ]
    assert not lost


@pytest.mark.parametrize("open_unit", [False, True])
def test_a_number_is_written_in_words_or_in_figures_but_not_in_both(open_unit: bool) -> None:
    spoken = Spoken("words", NAMES, open_unit=open_unit)
    read_as = {
        "minus nine hundred seventy two millimeters": True,
        "minus nine hundred and seventy +- +two millimetres": True,
        "minus 9 +7 +2 mm": True,
        "minus nine hundred 7 +2 millimeters": False,
        "minus nine hundred and 7 +2 mm": False,
    }
    for words, may_be in read_as.items():
        assert spoken.written_automaton.accepts(words.split()) == may_be, words
        if may_be:
            assert spoken.meanings(words.replace(" +", "")), words


@pytest.mark.parametrize("number", range(101, 1000, 53))
def test_numbers_past_a_hundred_are_understood_however_written(number: int) -> None:
    spoken, random = Spoken("words"), Random(number)
    length = read_template("grid <under_ten_thousand> millimetres")
    automaton = Automaton([length], lambda name: spoken.slot(name, written=True), written=True)
    for _ in range(40):
        text = _some_sentence(automaton, random)
        assert spoken.meanings(text), text


def _some_sentence(automaton: Automaton, random: Random) -> str:
    state, words = 0, []
    while not (automaton.is_final(state) and (random.random() < 0.5 or not automaton.arcs(state))):
        word, state = random.choice(sorted(automaton.arcs(state).items()))
        words.append(word)
    return " ".join(words).replace(" +", "")


# --- the answers to a question ---------------------------------------------------------

ANSWERS = [
    "fifteen", "one five", "twenty five", "two five", "one hundred and five", "one zero five",
    "zero point five", "fifteen point five", "three and five eighths", "delta", "minus",
    "eighteen inches", "alfa three", *(in_words(number) for number in range(1, 1000, 37)),
]  # fmt: skip


@pytest.mark.parametrize("words", ANSWERS)
def test_every_way_to_write_an_answer_is_that_answer(words: str) -> None:
    automaton = Automaton([read_template(written_ways(words))], read_template, written=True)
    assert automaton.accepts(words.split())
    random = Random(17)
    written = {_some_sentence(automaton, random) for _ in range(30)}
    assert {in_figures(text) for text in written} == {in_figures(words)}


def test_an_answer_may_be_written_as_a_recogniser_would() -> None:
    automaton = Automaton([read_template(written_ways("twenty five"))], read_template, written=True)
    for written in ("twenty five", "Twenty five", "twenty +- +five", "2 +5"):
        assert automaton.accepts(written.split()), written


def test_answers_may_be_said_beside_everything_else_and_are_forgotten() -> None:
    automaton = Automaton([spoken_nodes(phrase) for phrase in WORDS.phrases], WORDS.slot)
    answers = [read_template("fifteen"), read_template("one five")]
    arcs = list(automaton.everywhere())
    asked = automaton.also(answers)
    assert automaton.also(answers) == asked
    for said, anyway in [
        ("fifteen", False), ("one five", False), ("one", False), ("five", False),
        ("fifteen millimetres", False), ("confirm", True), ("minus fifteen millimetres", True),
    ]:  # fmt: skip
        answer = said in ("fifteen", "one five")
        assert automaton.accepts(said.split(), asked) is (anyway or answer), said
        assert automaton.accepts(said.split()) is anyway, said
    assert automaton.also([]) == 0
    assert list(automaton.everywhere()) == arcs


def test_an_answer_begins_with_a_capital_where_a_sentence_would() -> None:
    automaton = Automaton([read_template("confirm")], read_template, written=True)
    assert automaton.accepts(["Fifteen"], automaton.also([read_template("fifteen")]))


@pytest.mark.parametrize(
    ("command", "said"),
    [
        (
            TakeReading("B3", Reading(Decimal(-18), "mm")),
            "bravo three minus eighteen millimetres",
        ),
        (
            TakeReading("X12", Reading(Decimal("1.625"), "in")),
            "xray twelve plus one and five eighths inches",
        ),
        (TakeReading(None, Reading(Decimal("-0.5"), "mm")), "minus zero point five millimetres"),
        (TakeReading("B3", Reading(Decimal(0), None)), "bravo three level"),
    ],
)
def test_said_aloud(command: TakeReading, said: str) -> None:
    template = said_aloud(WORDS, command)
    assert template is not None
    assert first_way(f"({template})") == said


@pytest.mark.parametrize(
    "reading",
    [
        Reading(Decimal(18), "mm", side_said=False),
        Reading(Decimal(-18), None),
        Reading(Decimal(-18), "m"),
        Reading(Decimal("0.015625"), "in"),
        Reading(Decimal(5000), "mm"),
    ],
)
def test_what_has_no_spoken_form_is_not_said(reading: Reading) -> None:
    assert said_aloud(WORDS, TakeReading("B3", reading)) is None


def test_measures_of_a_pair_share_their_unit() -> None:
    (room,) = WORDS.meanings("room twelve by eight metres")
    assert room == SetRoom(Measure(Decimal(12), "m"), Measure(Decimal(8), "m"))
    assert in_figures("room twelve metres by eight metres") == "room 12 by 8 metres"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("minus a hundred and five millimeters", "minus one hundred five millimetres"),
        ("Point Bravo 3 level.", "bravo three level"),
        ("plus 2 3/8 inches", "plus two and three eighths inch"),
        ("plus half an inch", "plus half an inch"),
        ("correct golf two to minus one zero mm", "Correct Golf 2 minus 10 millimetres"),
        ("grid 1.5 metres", "grid one point five meters"),
    ],
)
def test_the_same_in_figures(one: str, other: str) -> None:
    assert in_figures(one) == in_figures(other)


@pytest.mark.parametrize(
    ("said", "figures"),
    [
        ("three hundred and seven millimetres", "307 millimetres"),
        ("three thousand six hundred and fifty millimetres", "3650 millimetres"),
        ("a hundred millimetres", "100 millimetres"),
        ("thirty-five point zero five metres", "35.05 metres"),
        ("zero point five millimetres", "0.5 millimetres"),
        ("one zero five millimetres", "105 millimetres"),
        ("9 1/4 inches", "9 1/4 inches"),
        ("point golf seven at eleven by three feet", "golf 7 at 11 by 3 feet"),
        ("room six feet four inches by nine feet", "room 6 feet 4 inches by 9 feet"),
        ("next point", "next point"),
    ],
)
def test_in_figures(said: str, figures: str) -> None:
    assert in_figures(said) == figures


def test_different_numbers_are_never_the_same_in_figures() -> None:
    said = [WORDS.sample(phrase, Random(3)) for phrase in WORDS.phrases for _ in range(2)]
    meanings: dict[str, set[str]] = {}
    for text in said:
        meanings.setdefault(in_figures(text), set()).add(repr(WORDS.meanings(text)))
    assert all(len(found) == 1 for found in meanings.values())


def test_words_a_model_lacks_are_named_and_their_sentences_left_out() -> None:
    lacking = {"juliett", "juliet", "alfa", "metres", "sixteenths"}
    fit = fit_vocabulary(WORDS, lambda word: word not in lacking)
    assert fit.missing == ("juliett", "sixteenths")
    assert fit.spelling["alfa"] == "alpha"
    assert fit.spelling["metres"] == "meters"
    listed = recogniser_phrases(WORDS, fit)
    assert not any(word in lacking for line in listed for word in line.split())
    assert any("alpha" in line for line in listed)


@pytest.mark.parametrize("manner", MANNERS)
def test_phrases_for_a_recogniser_hold_every_pair_of_words(manner: Manner) -> None:
    spoken = Spoken(manner, NAMES)
    fit = fit_vocabulary(spoken, lambda _word: True)
    listed = recogniser_phrases(spoken, fit)
    pairs = {pair for line in listed for pair in zip(line.split(), line.split()[1:], strict=False)}
    for state, word, following in spoken.automaton.everywhere():
        for second in spoken.automaton.arcs(following):
            plain = (fit.spelling[word], fit.spelling[second])
            assert plain in pairs, (state, plain)
    assert all(spoken.automaton.accepts(plain_words(line)) for line in listed)
    assert set(vocabulary(spoken)) == set(fit.spelling)


# --- a unit that goes without saying ----------------------------------------------------

OPEN = Spoken(open_unit=True)


@pytest.mark.parametrize(
    ("said", "canonical"),
    [
        ("bravo three minus eighteen", "B3 -18 mm"),
        ("bravo three minus eighteen millimetres", "B3 -18 mm"),
        ("bravo three plus two point five", "B3 +2.5 mm"),
        ("bravo three minus two inches", "B3 -2 in"),
        ("bravo three minus three eighths inches", "B3 -3/8 in"),
        ("bravo three minus four centimetres", "B3 -4 cm"),
        ("correct bravo three to minus nine", "correct B3 -9 mm"),
    ],
)
def test_in_millimetres_a_reading_needs_no_unit(said: str, canonical: str) -> None:
    assert OPEN.automaton.accepts(said.split())
    assert [short_form(command) for command in OPEN.meanings(said)] == [canonical]


@pytest.mark.parametrize(
    "said", ["bravo three minus three eighths", "bravo three minus two and a half", "waste ten"]
)
def test_what_is_no_whole_reading_without_its_unit(said: str) -> None:
    assert not OPEN.automaton.accepts(said.split())


def test_elsewhere_the_unit_is_said() -> None:
    assert not Spoken().automaton.accepts("bravo three minus eighteen".split())


def test_both_ways_of_saying_it_are_looked_for_and_the_full_one_is_asked_with() -> None:
    (command,) = OPEN.meanings("bravo three minus eighteen")
    written = said_aloud(OPEN, command, written=True)
    assert written is not None
    ways = Automaton([read_template(f"({written})")], read_template)
    assert ways.accepts("bravo three minus eighteen".split())
    assert ways.accepts("bravo three minus eighteen millimetres".split())
    assert first_way(f"({written})") == "bravo three minus eighteen millimetres"
    plain = said_aloud(OPEN, command)
    assert plain is not None
    assert first_way(plain) == "bravo three minus eighteen millimetres"
