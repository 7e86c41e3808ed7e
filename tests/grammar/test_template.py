"""Templates: one text that is a rule for the parser and a sentence for people."""

from __future__ import annotations

import pytest

from grammar.phrases import PHRASES
from grammar.template import (
    Literal,
    OneOf,
    SlotNode,
    beginnings,
    binding_rule,
    held_fields,
    read_template,
    render_template,
    walk_template,
    words_of_templates,
)


def _short(slot: str, value: object) -> str:
    return f"{slot}={value}"


def test_its_four_marks() -> None:
    first, second, third = read_template("cut (list | for) [<point>]")
    assert first == Literal("cut")
    assert second == OneOf(((Literal("list"),), (Literal("for"),)))
    assert third == OneOf(((SlotNode(("point",), "point"),),), optional=True)


def test_a_slot_may_fill_a_field_of_another_name_or_two() -> None:
    assert read_template("<by:length>") == (SlotNode(("by",), "length"),)
    (pair,) = read_template("<first,second:pair>")
    assert isinstance(pair, SlotNode)
    assert pair == SlotNode(("first", "second"), "pair")
    assert binding_rule(pair) == "b_first_and_second__pair"


@pytest.mark.parametrize("broken", ["a [b", "a b]", "(a | b", "a | b", "a (b]"])
def test_a_mark_that_does_not_close_is_refused(broken: str) -> None:
    with pytest.raises(ValueError, match=r"close|missing"):
        read_template(broken)


def test_words_and_beginnings_are_found_without_the_tree() -> None:
    for phrase in PHRASES:
        for template in phrase.templates:
            leaves = list(walk_template(read_template(template)))
            words = [leaf.word for leaf in leaves if isinstance(leaf, Literal)]
            assert words_of_templates([template]) == words
            first = next(beginnings(template))
            assert first == leaves[0], template
    found = {
        template: " ".join(str(leaf.word) for leaf in beginnings(template))  # type: ignore[union-attr]
        for template in ("[a [b|c]] (d [e] | [f] | [g] [h]) i", "(a [b|] | c) d", "[a] [b] c d")
    }
    assert list(found.values()) == ["a d f g h i", "a c", "a b c"]
    assert list(beginnings("[[a] <x>] (<one,two:y> | b)")) == [
        Literal("a"),
        SlotNode(("x",), "x"),
        SlotNode(("one", "two"), "y"),
        Literal("b"),
    ]


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"x": 1}, "set x=1"),
        ({"x": 1, "y": 2}, "set x=1 with y=2"),
        ({"y": 2}, None),
        ({}, None),
    ],
)
def test_the_shortest_sentence_that_holds_the_values(
    values: dict[str, int], said: str | None
) -> None:
    assert render_template(read_template("set [to] <x> [with <y>]"), values, _short) == said


def test_the_first_way_that_holds_the_values_is_taken() -> None:
    nodes = read_template("(one <x> | two <y> | <x> <y>)")
    assert render_template(nodes, {"y": 2}, _short) == "two y=2"
    assert render_template(nodes, {"x": 1, "y": 2}, _short) == "one x=1"
    assert render_template(nodes, {}, _short) is None


def test_words_and_slots_are_walked_in_order() -> None:
    nodes = read_template("a [b <x>] (c | <y>)")
    leaves = [
        leaf.word if isinstance(leaf, Literal) else leaf.slot for leaf in walk_template(nodes)
    ]
    assert leaves == ["a", "b", "x", "c", "y"]
    assert held_fields(nodes) == {"x", "y"}
