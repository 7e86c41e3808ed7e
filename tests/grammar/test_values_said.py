"""Values in lines that no phrase takes: each line, what is found in it, and what is left."""

from __future__ import annotations

import pytest

from grammar.values_said import values_said
from grammar.words import split_words

LINES: list[tuple[str, list[tuple[str, str]], str]] = [
    ("B3 18 low", [("point", "b3"), ("reading", "18 low")], ""),
    ("b three minus 4", [("point", "b three"), ("reading", "minus 4")], ""),
    ("b three twenty", [("point", "b three"), ("number", "twenty")], ""),
    ("b three twenty one", [("point", "b three"), ("number", "twenty one")], ""),
    ("b twenty one minus 4", [("point", "b twenty one"), ("reading", "minus 4")], ""),
    ("b twenty one two low", [("point", "b twenty one"), ("reading", "two low")], ""),
    ("b 12 18 low", [("point", "b 12"), ("reading", "18 low")], ""),
    ("b 123 18 low", [("number", "123"), ("reading", "18 low")], "b"),
    ("x three 4", [("number", "three 4")], "x"),
    ("m 3 4", [("point", "m 3"), ("number", "4")], ""),
    ("bravo three four", [("point", "bravo three"), ("number", "four")], ""),
    ("c five", [("number", "five")], "c"),
    ("a 3 is fine", [("number", "3")], "a is fine"),
    ("a three is fine", [("number", "three")], "a is fine"),
    ("i three", [("number", "three")], "i"),
    ("AA12 is level", [("point", "aa12"), ("level", "level")], "is"),
    ("b3 is level", [("point", "b3"), ("level", "level")], "is"),
    ("b3 reads dead level", [("point", "b3"), ("level", "level")], "reads dead"),
    ("b3 spot on", [("point", "b3")], "spot on"),
    ("is it level", [], "is it level"),
    ("b3 is not level", [("point", "b3")], "is not level"),
    ("minus 18", [("reading", "minus 18")], ""),
    ("18 below", [("reading", "18 below")], ""),
    ("18 mm below", [("reading", "18 mm below")], ""),
    ("18 mm below zero", [("reading", "18 mm below zero")], ""),
    ("minus 18 zero", [("reading", "minus 18 zero")], ""),
    ("18", [("number", "18")], ""),
    ("eighteen", [("number", "eighteen")], ""),
    ("18 mm", [("length", "18 mm")], ""),
    ("6 by 4", [("number", "6"), ("number", "4")], "by"),
    ("6 by 4 metres", [("pair", "6 by 4 metres")], ""),
    ("6 metres by 4", [("length", "6 metres"), ("number", "4")], "by"),
    ("6 metres by 4 metres", [("pair", "6 metres by 4 metres")], ""),
    ("six metres by four metres", [("pair", "six metres by four metres")], ""),
    (
        "minus 6 metres by 4 metres",
        [("reading", "minus 6 metres"), ("length", "4 metres")],
        "by",
    ),
    ("18 percent", [("percent", "18 percent")], ""),
    ("18 %", [("percent", "18 %")], ""),
    ("18 per cent", [("percent", "18 per cent")], ""),
    ("minus 5 percent", [("alien", "minus 5 percent")], ""),
    ("minus 5 per cent", [("alien", "minus 5 per cent")], ""),
    ("18 per", [("number", "18")], "per"),
    ("21 degrees", [("degrees", "21 degrees")], ""),
    ("21 degrees celsius", [("degrees", "21 degrees celsius")], ""),
    ("21 degrees c", [("degrees", "21 degrees c")], ""),
    ("21 degrees f now", [("degrees", "21 degrees f")], "now"),
    ("minus 5 degrees", [("degrees", "minus 5 degrees")], ""),
    ("20 litres", [("alien", "20 litres")], ""),
    ("20 kg", [("alien", "20 kg")], ""),
    ("20 bags", [("number", "20")], "bags"),
    ("20 l", [("alien", "20 l")], ""),
    ("point 8", [("alien", "8")], "point"),
    ("zero point 8", [("number", "zero point 8")], ""),
    ("5 ft 4 in", [("length", "5 ft 4 in")], ""),
    ("5 feet 4 inches", [("length", "5 feet 4 inches")], ""),
    ("5 feet 4", [("length", "5 feet"), ("number", "4")], ""),
    ("5 feet", [("length", "5 feet")], ""),
    ("4 inches", [("length", "4 inches")], ""),
    ("1 1/2 in", [("length", "1 1/2 in")], ""),
    ("1/2 in", [("length", "1/2 in")], ""),
    ("one and a half inches", [("length", "one and a half inches")], ""),
    ("one and one half", [("number", "one and one half")], ""),
    ("1 and 3/4 in", [("length", "1 and 3/4 in")], ""),
    ("a half", [("number", "a half")], ""),
    ("half", [("number", "half")], ""),
    ("half inch low", [("reading", "half inch low")], ""),
    ("a fourth", [("number", "a fourth")], ""),
    ("an a fourth", [("number", "a fourth")], "an"),
    ("5 feet 4 low", [("length", "5 feet"), ("reading", "4 low")], ""),
    ("minus zero zero", [("reading", "minus zero zero")], ""),
    ("an eighth", [("number", "an eighth")], ""),
    ("three eighths", [("number", "three eighths")], ""),
    ("three quarters", [("number", "three quarters")], ""),
    ("one and three quarters", [("number", "one and three quarters")], ""),
    ("one and three", [("number", "one"), ("number", "three")], "and"),
    ("a quarter", [("number", "a quarter")], ""),
    ("3 quarters low", [("reading", "3 quarters low")], ""),
    ("one two three four", [("alien", "one two three four")], ""),
    ("one two", [("number", "one two")], ""),
    ("one two three", [("alien", "one two three")], ""),
    ("eighteen low", [("reading", "eighteen low")], ""),
    ("low", [], "low"),
    ("high 18", [("reading", "high 18")], ""),
    ("plus", [], "plus"),
    ("plus 18 mm", [("reading", "plus 18 mm")], ""),
    ("north", [("direction", "north")], ""),
    ("south west", [("direction", "south"), ("direction", "west")], ""),
    ("wall north 4 metres", [("direction", "north"), ("length", "4 metres")], "wall"),
    ("concrete", [("substrate", "concrete")], ""),
    ("column b", [("column", "b")], "column"),
    ("row b", [("column", "b")], "row"),
    ("column bee", [], "column bee"),
    ("row a", [("column", "a")], "row"),
    ("rows", [], "rows"),
    ("grey floor 20", [("name", "grey floor"), ("number", "20")], ""),
    ("the grey floor", [("name", "grey floor")], ""),
    ("grey floor", [("name", "grey floor")], ""),
    ("minus zero point five", [("reading", "minus zero point five")], ""),
    ("1000000", [("number", "1000000")], ""),
    ("one hundred and five", [("number", "one hundred and five")], ""),
]


@pytest.mark.parametrize(("line", "values", "left"), LINES)
def test_what_was_said_is_kept_as_it_was_said(
    line: str, values: list[tuple[str, str]], left: str
) -> None:
    found, rest = values_said(split_words(line), ["grey floor"])
    assert [(each.sort, each.text) for each in found] == values
    assert " ".join(word.text for word in rest) == left


@pytest.mark.parametrize(("words", "taken"), [(9, True), (10, True), (11, False)])
def test_a_number_has_ten_words_at_most(words: int, taken: bool) -> None:
    # Nobody says more; what goes on is a number of its own.
    line = " ".join(["one"] * words)
    (first, *_), _ = values_said(split_words(line))
    assert (first.text == line) is taken


@pytest.mark.parametrize(("line", "values", "left"), LINES)
def test_words_before_and_after_a_value_are_no_part_of_it(
    line: str, values: list[tuple[str, str]], left: str
) -> None:
    found, rest = values_said(split_words(f"look {line} again today"), ["grey floor"])
    assert [(each.sort, each.text) for each in found] == values
    assert " ".join(word.text for word in rest) == " ".join(f"look {left} again today".split())
