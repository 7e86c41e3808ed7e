"""The phrase table holds together: every phrase works, and nothing is said outside it."""

from __future__ import annotations

import dataclasses
import sys
from collections.abc import Sequence
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.terminal.phrase_list import reference_markdown, reference_text
from grammar import Misunderstood, hint, short_form, suggestions, understand
from grammar.automaton import Automaton
from grammar.commands import Answer, Ask, Change, Command, Filing
from grammar.commands.overview import AskTally
from grammar.commands.readings import Hold
from grammar.commands.talk import Confirm, TakeBack
from grammar.example import worded
from grammar.language import terminals
from grammar.misses import MISTAKES
from grammar.phrase import Aloud, Phrase
from grammar.phrases import PHRASES
from grammar.sentences import SampleSentence, random_sentence
from grammar.slots import SLOTS
from grammar.spoken import Spoken, spoken_nodes
from grammar.template import Literal, SlotNode, read_template, render_template, walk_template
from grammar.words import ALONE, FILLERS


@pytest.mark.slow
def test_every_example_gives_its_command() -> None:
    wrong = [
        f"{example!r} of {phrase.template!r} gives {found}"
        for phrase in PHRASES
        for example in phrase.examples
        for found in [meanings_or_none(example)]
        if [type(command) for command in found] != [phrase.command]
    ]
    assert not wrong, "\n".join(wrong)


def test_every_phrase_has_an_example_and_help() -> None:
    for phrase in PHRASES:
        assert phrase.examples, phrase.template
        assert phrase.help, phrase.template


def _all_commands(base: type[Command] = Command) -> set[type[Command]]:
    """Every command there is; a class made anew for its slots leaves its first self behind."""
    below = {kind for kind in base.__subclasses__() if _stands_in_its_module(kind)}
    kinds = {Change, Answer, Ask, Filing}
    return (below - kinds).union(*map(_all_commands, below))


def _stands_in_its_module(kind: type) -> bool:
    return vars(sys.modules[kind.__module__]).get(kind.__name__) is kind


def test_every_command_can_be_said() -> None:
    assert {phrase.command for phrase in PHRASES} == _all_commands()


def test_slots_fill_fields_of_their_command() -> None:
    for phrase in PHRASES:
        names = {field.name for field in dataclasses.fields(phrase.command)}
        assert phrase.fields | dict(phrase.fixed).keys() <= names, phrase.template
        for leaf in _leaves(phrase):
            if isinstance(leaf, SlotNode):
                assert leaf.slot in SLOTS


def _leaves(phrase: Phrase) -> list[Literal | SlotNode]:
    return [leaf for nodes in phrase.every_way for leaf in walk_template(nodes)]


def test_no_filler_is_a_word_of_the_language() -> None:
    # What is an answer by itself is one nowhere else: beside other words it is left out.
    assert FILLERS & terminals().keys() == ALONE
    for word in ALONE:
        assert understand(word) == (Confirm(),)


WAYS = [(phrase, way) for phrase in PHRASES for way in phrase.ways]
WITH_WAYS = [phrase for phrase in PHRASES if phrase.ways]


def matter_of(phrase: Phrase) -> str:
    return phrase.command.__module__.removeprefix("grammar.commands.")


@pytest.mark.parametrize("said", ["scratch that", "scratch B3", "start listening"])
def test_the_words_of_control_are_of_our_own_choice(said: str) -> None:
    """Plain English and what radio operators say; no set that other programs have."""
    with pytest.raises(Misunderstood):
        understand(said)
    told = (reference_markdown() + reference_text()).casefold()
    assert said.partition(" B3")[0] not in told


@pytest.mark.slow
@pytest.mark.parametrize("matter", list(dict.fromkeys(map(matter_of, WITH_WAYS))))
def test_every_way_gives_its_command(matter: str) -> None:
    """One test a matter: with one for each way, looking after them took a third of their time."""
    wrong = [
        f"{made} by {way!r}"
        for phrase, way in WAYS
        if matter_of(phrase) == matter
        for made in said_by_chance(phrase, way)
        if made.command not in meanings_or_none(made.text)
    ]
    assert not wrong, "\n".join(wrong)


FEWEST_OF_A_WAY = 4


def said_by_chance(phrase: Phrase, way: str) -> list[SampleSentence]:
    """Of twenty sentences of one way the first, and those with more of its own words together."""
    # Alone it is the whole phrase, so that no chance leaves it out.
    alone = dataclasses.replace(phrase, template=way, spoken="", ways=())
    own = {leaf.word.casefold() for leaf in _leaves(alone) if isinstance(leaf, Literal)}
    kept: dict[SampleSentence, None] = {}
    seen: set[frozenset[str]] = set()
    for seed in range(20):
        made = random_sentence(alone, Random(seed))
        # What values may be said in their gaps is for the tests of values.
        chosen = frozenset(own.intersection(made.text.casefold().split()))
        if len(kept) < FEWEST_OF_A_WAY or chosen not in seen:
            kept[made] = None
        seen.add(chosen)
    return list(kept)


def meanings_or_none(text: str) -> Sequence[Command]:
    try:
        return understand(text)
    except Misunderstood:
        return ()


@pytest.mark.parametrize("phrase", WITH_WAYS, ids=[phrase.template for phrase in WITH_WAYS])
def test_no_way_is_a_short_form(phrase: Phrase) -> None:
    command = random_sentence(dataclasses.replace(phrase, ways=()), Random(1)).command
    # Another row of the same command may be its short form, but none of them by a way.
    values = _values(command)
    rendered = [
        render_template(row.nodes, values, lambda slot, value: SLOTS[slot].short(value))
        for row in PHRASES
        if row.command is type(command) and dict(row.fixed).items() <= values.items()
    ]
    assert short_form(command) in rendered


def _values(command: Command) -> dict[str, object]:
    names = (field.name for field in dataclasses.fields(command))
    return {name: value for name in names if (value := getattr(command, name)) is not None}


def test_every_way_aloud_is_heard_and_no_other() -> None:
    for phrase, way in WAYS:
        heard = {
            leaf.word for leaf in walk_template(spoken_nodes(phrase)) if isinstance(leaf, Literal)
        }
        if isinstance(way, Aloud):
            assert {
                leaf.word for leaf in walk_template(read_template(way)) if isinstance(leaf, Literal)
            } <= heard
    assert not Spoken().automaton.accepts(["yeah"])


def test_a_way_may_hold_no_more_than_its_template() -> None:
    row = Phrase("undo", TakeBack, "", ("undo",), "", ways=("undo <steps:whole>",))
    with pytest.raises(ValueError, match="holds"):
        assert row.way_nodes


def test_a_way_of_what_may_not_be_said_aloud_is_not_aloud() -> None:
    row = Phrase("hold", Hold, "", ("hold",), "", speakable=False, ways=(Aloud("hold it"),))
    with pytest.raises(ValueError, match="aloud"):
        assert row.way_nodes


def test_a_way_aloud_is_one_of_all_that_may_be_said() -> None:
    row = Phrase("tally", AskTally, "", ("tally",), "", ways=("sum", Aloud("(how | what) much")))
    spoken = Automaton([row.aloud_nodes], read_template)
    heard = ["tally", "how much", "what much"]
    assert [line for line in (*heard, "sum") if spoken.accepts(line.split())] == heard


@given(st.sampled_from(PHRASES), st.integers(0, 2**32))
@settings(max_examples=5 * settings().max_examples, deadline=None)
def test_every_sentence_means_the_command_it_was_made_from(phrase: Phrase, seed: int) -> None:
    made = random_sentence(phrase, Random(seed))
    meanings = understand(made.text)
    assert made.command in meanings, (made, meanings)
    if len(meanings) > 1:
        # Only words run together can be meant in two ways; figures never.
        assert not any(sign.isdigit() for sign in made.text) or " " in made.text


@given(st.sampled_from(PHRASES), st.integers(0, 2**32))
@settings(max_examples=2 * settings().max_examples, deadline=None)
def test_the_short_form_means_the_same_and_nothing_else(phrase: Phrase, seed: int) -> None:
    command = random_sentence(phrase, Random(seed)).command
    assert understand(short_form(command)) == (command,)


@given(st.sampled_from(PHRASES), st.integers(0, 2**32), st.data())
@settings(max_examples=2 * settings().max_examples, deadline=None)
def test_a_sentence_cut_short_is_taken_or_refused_kindly(
    phrase: Phrase, seed: int, data: st.DataObject
) -> None:
    text = random_sentence(phrase, Random(seed)).text
    part = text[: data.draw(st.integers(0, len(text)))]
    try:
        understand(part)
    except Misunderstood as miss:
        assert miss.explain()
        assert 0 <= miss.position <= len(part)
        assert miss.nearest is None or understand(miss.nearest)


@given(st.text(max_size=60))
@settings(max_examples=2 * settings().max_examples, deadline=None)
def test_anything_at_all_is_taken_or_refused(text: str) -> None:
    try:
        understand(text)
    except Misunderstood as miss:
        assert miss.explain()
        assert 0 <= miss.position <= len(text)


@pytest.mark.parametrize("mistake", MISTAKES, ids=[mistake.example for mistake in MISTAKES])
def test_frequent_mistakes_get_their_answer(mistake: object) -> None:
    with pytest.raises(Misunderstood) as caught:
        understand(mistake.example)  # type: ignore[attr-defined]
    for unit in ("mm", "in"):
        answer = worded((mistake.answer,), unit)  # type: ignore[attr-defined]
        assert answer in caught.value.explain(unit)


@pytest.mark.parametrize(
    ("before", "offered"),
    [
        ("", "tally"),
        ("stri", "strike"),
        ("undo ", "that"),
        ("B3 ", "minus"),
        ("B3 minus 18 ", "mm"),
        ("room 12 by 8 m", "mm"),
        ("what if ra", "raise"),
        ("grid 2 metres st", "starting"),
        ("wall ", "north"),
    ],
)
def test_completion_offers_what_can_come_next(before: str, offered: str) -> None:
    assert offered in [item.insert for item in suggestions(before)]


def test_completion_offers_the_names_it_is_given() -> None:
    assert [item.insert for item in suggestions("product ", ("harbour fine",))] == ["harbour fine"]


@given(st.sampled_from(PHRASES), st.integers(0, 2**32))
@settings(deadline=None)
def test_what_completion_offers_keeps_the_line_alive(phrase: Phrase, seed: int) -> None:
    words = random_sentence(phrase, Random(seed)).text.split(" ")
    before = " ".join(words[: len(words) // 2]) + " "
    for item in suggestions(before)[:4]:
        line = before[: len(before) + item.start] + item.insert
        try:
            understand(line)
        except Misunderstood as miss:
            # "zero mm" is a whole line that cannot be meant, though "zero mm …" could be.
            senseless = "makes no sense" in miss.explain()
            assert senseless or miss.position >= len(before.rstrip()), (line, miss.explain())


def test_hints_speak_plainly() -> None:
    assert {"a number", "below or above", "level"} <= set(hint("B3 "))


def test_the_reference_names_every_phrase() -> None:
    page = reference_markdown()
    for phrase in PHRASES:
        for leaf in _leaves(phrase):
            if isinstance(leaf, Literal):
                assert leaf.word in page
        assert phrase.help in page


@pytest.mark.parametrize("broken", ["grid [of", "grid of]", "(a | b", "a | b"])
def test_a_template_that_does_not_close_is_found(broken: str) -> None:
    with pytest.raises(ValueError, match=r"clos|missing"):
        read_template(broken)
