"""Every kind of value has its whole story in its module: what is missing is named here."""

from __future__ import annotations

from itertools import chain
from pathlib import Path
from random import Random

import pytest

from grammar import GrammarError, hint, short_form, slots, suggestions, understand
from grammar.aloud import first_way, said_aloud
from grammar.commands import Command
from grammar.language import rule_table, terminals
from grammar.misses import Misunderstood
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence
from grammar.slots import KINDS, SLOTS, Slot, SpokenForm
from grammar.spoken import Spoken, spoken_nodes
from grammar.template import Literal, Node, SlotNode, read_template, walk_template
from tests.grammar.every_rule import every_rule

HERE = Path(slots.__file__).parent
MODULES = sorted({path.stem for path in HERE.glob("*.py")} - {"__init__", "slot"})
EACH = pytest.mark.parametrize("slot", SLOTS.values(), ids=SLOTS)
NAMES = ("Harbour fine",)


def _phrases_with(slot: Slot) -> list[Phrase]:
    return [
        phrase
        for phrase in PHRASES
        for leaf in walk_template(phrase.nodes)
        if isinstance(leaf, SlotNode) and leaf.slot == slot.name
    ]


def _meanings(text: str) -> tuple[Command, ...]:
    try:
        return understand(text)
    except GrammarError:
        return ()


def _pieces_in(template: str) -> set[str]:
    return {
        leaf.slot for leaf in walk_template(read_template(template)) if isinstance(leaf, SlotNode)
    }


@pytest.mark.parametrize("module", MODULES)
def test_every_module_is_in_the_registry(module: str) -> None:
    kind = getattr(getattr(slots, module, None), "KIND", None)
    assert kind in KINDS, f"grammar/slots/{module}.py: its KIND is not in grammar.slots.KINDS"


def test_nothing_has_two_homes() -> None:
    for part in ("roles", "builders", "expected", "offered", "never_unsaid", "usual",
                 "spoken_pieces", "figures", "apart", "tied", "spellings"):  # fmt: skip
        names = list(chain.from_iterable(getattr(kind, part) for kind in KINDS))
        assert len(names) == len(set(names)), (part, sorted(names))
    names = [slot.name for kind in KINDS for slot in kind.slots]
    assert len(names) == len(set(names)), sorted(names)


@EACH
def test_it_stands_in_a_phrase(slot: Slot) -> None:
    assert _phrases_with(slot), f"no phrase holds <{slot.name}>"


def test_each_has_a_rule_and_every_rule_a_builder() -> None:
    made = {rule.origin.name for rule in every_rule(rule_table())}
    lacking = [name for name in SLOTS if name not in made]
    assert not lacking, f"{', '.join(lacking)}: no rule"
    named = {rule for rule in made if not rule.startswith(("r_", "ph_", "b_", "_", "start"))}
    assert named <= slots.BUILDERS.keys(), sorted(named - slots.BUILDERS.keys())


@EACH
def test_what_it_samples_is_understood_and_comes_back_from_its_short_form(slot: Slot) -> None:
    phrase = _phrases_with(slot)[0]
    for seed in range(12):
        made = random_sentence(phrase, Random(seed))
        assert made.command in _meanings(made.text), f"{slot.name}: sample {made.text!r}"
        short = short_form(made.command)
        assert _meanings(short) == (made.command,), f"{slot.name}: short form {short!r}"


@EACH
def test_it_is_said_aloud_or_why_not_is_told(slot: Slot) -> None:
    if not isinstance(slot.aloud, SpokenForm):
        assert slot.aloud.why
        speakable = [phrase.template for phrase in _phrases_with(slot) if phrase.speakable]
        reached = [
            phrase.template
            for phrase in Spoken(names=NAMES).phrases
            for leaf in walk_template(spoken_nodes(phrase))
            if isinstance(leaf, SlotNode) and leaf.slot == slot.name
        ]
        assert not reached, (slot.name, speakable)
        return
    for spoken in (Spoken(names=NAMES), Spoken("digits", NAMES, True, True)):
        nodes = spoken.slot(slot.name)
        assert nodes, f"{slot.name} is heard in no way"
        for form in (slot.aloud.heard, *slot.aloud.under.values()):
            if isinstance(form, str):
                assert _pieces_in(form) <= _known_pieces(), (slot.name, form)


def _known_pieces() -> set[str]:
    pieces = {name for kind in KINDS for name in kind.spoken_pieces}
    numbers = {n for kind in KINDS for names in kind.spoken_numbers.values() for n in names}
    return pieces | numbers | SLOTS.keys() | {"worded_hundred", "worded_rest"}


@EACH
def test_what_is_heard_of_it_can_be_said_back(slot: Slot) -> None:
    if not isinstance(slot.aloud, SpokenForm):
        return
    spoken = Spoken(names=NAMES)
    phrases = [
        phrase
        for phrase in spoken.phrases
        if slot.name
        in {n.slot for n in walk_template(spoken_nodes(phrase)) if isinstance(n, SlotNode)}
    ]
    assert phrases, f"no phrase that may be said holds <{slot.name}>"
    for seed in range(6):
        words = spoken.sample(phrases[0], Random(seed))
        (command, *_) = spoken.meanings(words)
        template = said_aloud(spoken, command)
        assert template is not None, f"{slot.name} has no words for {command}"
        assert command in spoken.meanings(first_way(template)), template


def _before(nodes: tuple[Node, ...], name: str) -> list[str] | None:
    """The words that lead to a slot, where only words do."""
    words: list[str] = []
    for node in nodes:
        if isinstance(node, SlotNode):
            return words if node.slot == name else None
        if isinstance(node, Literal):
            words.append(node.word)
        elif not node.optional:
            return None
    return None


@EACH
def test_a_gap_where_it_would_stand_is_named(slot: Slot) -> None:
    openings = [
        " ".join(words)
        for phrase in _phrases_with(slot)
        if (words := _before(phrase.nodes, slot.name))
    ]
    for opening in openings[:3]:
        assert hint(opening), f"{slot.name}: nothing is named after “{opening}”"


def test_what_completes_a_line_is_a_word_of_a_role_of_its_kind() -> None:
    for kind in KINDS:
        for role, words in kind.offered.items():
            assert role in kind.roles
            own = set(chain.from_iterable(kind.roles.values()))
            assert set(words) <= own & terminals().keys(), (role, words)
    assert "mm" in [item.insert for item in suggestions("B3 minus 18 ")]


def test_what_rules_are_named_by_exists() -> None:
    """A rule that was renamed would no longer be named, offered, mended or kept whole."""
    made = {rule.origin.name for rule in every_rule(rule_table())}
    for kind in KINDS:
        named = {*kind.expected, *kind.unbroken, *(f"r_{role}" for role in kind.never_unsaid)}
        assert named <= made, sorted(named - made)
        assert kind.usual.keys() <= kind.never_unsaid.keys()


def test_other_spellings_are_of_words_that_are_said() -> None:
    said = {word for word in terminals() if word.isalpha()}
    for kind in KINDS:
        assert kind.spellings.keys() <= said, sorted(kind.spellings.keys() - said)


def test_values_that_make_no_sense_are_refused_with_their_rule() -> None:
    for line, rule in (
        ("undo 100", "1 to 99"),
        ("B3 1 3/7 in", "halves, quarters"),
        ("room 13 ft 14 in by 8 ft", "feet and inches"),
        ("product a b c d e f g h i", "at most 8 words"),
    ):
        with pytest.raises(Misunderstood) as refused:
            understand(line)
        assert rule in refused.value.explain(), line
