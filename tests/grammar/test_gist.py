"""A line that no phrase takes: what it was about, and never with a value that nobody said."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, framed, short_form, understand
from grammar.commands import Change, Command
from grammar.filling import MOST_ASKED
from grammar.gist import (
    _NOTHING,
    Gist,
    _after_what_if,
    _asks,
    _is_told,
    _plainly,
    gist,
    nearest_line,
)
from grammar.respelling import mend_slips
from grammar.values_said import values_said
from grammar.words import split_words


def _nearest(line: str) -> str | None:
    with pytest.raises(Misunderstood) as caught:
        understand(line)
    return caught.value.nearest


def _gist(line: str) -> Gist | None:
    with pytest.raises(Misunderstood):
        understand(line)
    return gist(line)


@pytest.mark.parametrize(
    ("line", "nearest"),
    [
        ("taly", "tally"),
        ("rom 12 by 8 m", "room 12 by 8 m"),
        ("wall nroth 4 m", "wall north 4 m"),
        ("corect B3 -18", "correct B3 -18"),
        ("B3 minus 18 milimetres", "B3 -18 mm"),
        ("could you give me the cut lsit, mate", "cut list"),
    ],
)
def test_a_slip_of_the_finger_is_mended(line: str, nearest: str) -> None:
    assert _nearest(line) == nearest
    assert understand(nearest)


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("put the cut list up", "cut list"),
        ("where on the floor are those low spots now", "low spots"),
        ("amend the number at B3 to minus 16", "correct B3 -16"),
        ("what would happen if we raise the finish by about 3 mm", "what if raise finish 3 mm"),
        ("suppose we raise the finish 3 mm", "what if raise finish 3 mm"),
        ("what if the finish goes to plus 3 mm", "what if finish +3 mm"),
        ("can you work out a best finish for me", "best finish"),
        # A height read in full among words that change nothing of it.
        ("after pour B2 minus 1", "B2 -1"),
        ("final reading at B2 3 low", "B2 -3"),
        # By words that nobody says to a program, but to a mate.
        ("how many sacks will this lot take", "how many bags"),
        ("what will the slab have to carry", "weight"),
        ("can I trust these readings", "survey check"),
        ("what safety stuff should I know", "cautions"),
        ("roughly how thick would it come on average", "mean depth"),
        ("points 2 metres apart", "grid 2 m"),
        ("put 10 percent on for waste", "waste 10 percent"),
    ],
)
def test_it_is_found_by_what_it_is_about(line: str, meant: str) -> None:
    found = _gist(line)
    assert (found and found.command and short_form(found.command)) == meant


@pytest.mark.parametrize(
    "line",
    [
        "zzz",
        "weight 5 litres",
        "hello there my friend",
        "room 12 by 8",
        "wall east metres",
        "B3 2,5",
        "B3 18 litres",
        # Other words may change what a height is of.
        "manhole at B2 minus 20",
        "A1 minus 8 wet spot",
        "A1 point 8 low",
        "leave B1 minus 10",
        "B1 could be minus 10",
        "one two three lift",
        # A length left beside the values, so that what would be filled in is a piece of one.
        # Left and right could be the other way round.
        "door 1 right jamb minus 4 left jamb minus 9",
        # Words alike in letters, not in what they are about.
        "how many flags",
        "which bag am I using",
        "how high is the moon",
        "is the weather dry",
    ],
)
def test_nothing_is_offered_that_would_be_a_guess(line: str) -> None:
    assert _nearest(line) is None


@pytest.mark.parametrize(
    "line",
    [
        "don't amend B3 to minus 16",
        "do not remove the reading at B3",
        "never mind the second door",
        "yesterday we had three points off",
        "he said amend B3 to minus 16",
        "the client thinks B3 is high by 3",
        "no need to grind C1 by 4 mm",
        "they told me the primer was on",
        "I would have raised the finish 3 mm",
    ],
)
def test_what_is_told_or_denied_is_no_command(line: str) -> None:
    assert _gist(line) is None


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("grind it down by 4 mm", "Grind which point 4 mm?"),
        ("the waste", "Waste how many percent?"),
        ("how deep is it", "How deep at which point?"),
    ],
)
def test_what_is_missing_is_asked_in_few_words(line: str, asked: str) -> None:
    found = _gist(line)
    assert found == Gist(None, asked)
    assert len(asked.split()) <= MOST_ASKED


@pytest.mark.parametrize("line", ["is B3 deleted", "was the finish raised by 3 mm", "undo B3?"])
def test_a_question_orders_nothing(line: str) -> None:
    found = _gist(line)
    assert found is None or not isinstance(found.command, Change)


def test_of_two_as_likely_the_one_that_the_job_could_take(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("grammar.likely_meant.likely_meant", lambda *_: None)
    monkeypatch.setattr("grammar.framed._MARGIN", 0.8)
    monkeypatch.setitem(framed._SHARE, "tell", 0.3)
    monkeypatch.setitem(framed._SCORE, "tell", 0.3)
    line = "difference or slope A1 to D3"

    def only(form: str) -> Gist | None:
        return gist(line, lambda command: short_form(command) == form)

    assert gist(line) is None  # both named would be more than is said
    for form in ("slope A1 to D3", "difference A1 to D3"):
        found = only(form)
        assert found is not None
        assert isinstance(found.command, Command)
        assert short_form(found.command) == form


def test_of_two_as_likely_each_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("grammar.framed._MARGIN", 0.8)
    monkeypatch.setitem(framed._SHARE, "ask", 0.3)
    monkeypatch.setitem(framed._SCORE, "ask", 0.3)
    both = gist("where is it high or low")
    assert both is not None
    assert both.question in ("High spots or low spots?", "Low spots or high spots?")


def test_a_product_is_taken_by_its_name() -> None:
    found = gist("we're using example standard as the product", names=("example standard",))
    assert found is not None
    assert found.command is not None
    assert short_form(found.command) == "product example standard"


@pytest.mark.parametrize(
    ("line", "values"),
    [
        ("make b three minus 16 mm", [("point", "b three"), ("reading", "minus 16 mm")]),
        ("set it to 6 by 4.5 metres", [("pair", "6 by 4.5 metres")]),
        ("A2 is 12 low", [("point", "a2"), ("reading", "12 low")]),
        ("bravo three twenty", [("point", "bravo three"), ("number", "twenty")]),
        ("it's 5 percent, or 20 degrees", [("percent", "5 percent"), ("degrees", "20 degrees")]),
        ("3 feet 6 inches", [("length", "3 feet 6 inches")]),
        ("two and a half mm", [("length", "two and a half mm")]),
        ("18 litres and 25 kg", [("alien", "18 litres"), ("alien", "25 kg")]),
        # "A" and "I" are words.
        ("a 3 mm gap", [("length", "3 mm")]),
        ("I 3 times", [("number", "3")]),
    ],
)
def test_values_are_taken_out_in_their_own_words(line: str, values: list[tuple[str, str]]) -> None:
    assert [(each.sort, each.text) for each in values_said(split_words(line))[0]] == values


@pytest.mark.parametrize("line", ["later in", "weather", "the litres", "zz", "milk"])
def test_other_words_are_no_slips(line: str) -> None:
    assert mend_slips(split_words(line)) is None


def _plain(line: str) -> str | None:
    """What a line says but for a slip, in its short form; empty where it had better not be said."""
    found = _plainly(line, split_words(line))
    if found is None:
        return None
    return "" if found == _NOTHING or found.command is None else short_form(found.command)


def test_what_is_said_plainly_but_for_a_slip_or_what_stands_around_it() -> None:
    for line, meant in (
        ("taly", "tally"),
        ("udno", "undo"),
        ("raise the finsih 3 mm", "raise finish 3 mm"),
        # An answer, and what is about the talk, has to be said as it is.
        ("confrim", ""),
        ("loudre", ""),
        ("ears opne", ""),
        ("put the cut list up on the screen", "cut list"),
        ("what's the cut list now", "cut list"),
        ("that's the cut list now", None),
        ("it's the cut list now", None),
        ("say again please now", None),
        ("after pour B2 minus 1", "B2 -1"),
        ("is B2 minus 1", None),
        ("B2 minus 1 ?", None),
        ("B2 minus 1 wet", None),
        ("B2 C2 minus 1", None),
        ("tell us how B2 minus 1", None),
        ("what if raise finsih 3 mm", "what if raise finish 3 mm"),
        ("what if we make raise finish 3 mm", "what if raise finish 3 mm"),
        ("suppose minus 18", None),
        ("what if it zzz", None),
    ):
        assert _plain(line) == meant, line


def test_a_line_of_sixteen_words_may_be_guessed_and_none_that_is_told() -> None:
    line = "B2 minus 1"
    for more, meant in ((12, "B2 -1"), (13, "B2 -1"), (14, None)):
        # "Floor" changes nothing of a reading, but is a word all the same.
        long = f"{line} {'floor ' * more}"
        assert len(split_words(long)) == 3 + more
        assert nearest_line(long) == meant, more
    assert nearest_line(f"{line} he said") is None
    for none in ("", "please", "2,5", "put the cut list up, at 2,5"):
        assert gist(none) is None, none


def test_who_tells_and_who_asks() -> None:
    for line, told in (
        ("don't amend B3", True), ("yesterday amend B3", True), ("amend B3", False),
        # A question may hold words of telling,
        ("was B3 amended", False), ("B3 was amended", True), ("was B3 amended yesterday", True),
        # and so may what comes after "what if".
        ("what if it was higher", False), ("suppose we raise it", False), ("we suppose so", True),
        ("how about if he says", True), ("what if we don't", True),
        ("turn it off", True), ("switch the sound off", True), ("leave the very last off", True),
        ("leave one very wet bit off", False), ("the offcut", False),
    ):  # fmt: skip
        assert _is_told(split_words(line)) is told, line
    for line, asks in (
        ("tell me how deep", True), ("tell how deep", True), ("tell me please now how", False),
        ("low spots?", True), ("low spots", False), ("where are they", True),
    ):  # fmt: skip
        assert _asks(line, split_words(line)) is asks, line


def test_what_is_supposed_begins_after_who_does_it() -> None:
    for line, rest in (
        ("what if we make it 3 mm higher", "3 mm higher"), ("what if", ""),
        ("suppose you go 3", "3"), ("what would happen if only we pour", "pour"),
        ("how about if it it it", ""), ("what about 3", None), ("if we pour", None),
    ):  # fmt: skip
        found = _after_what_if(split_words(line))
        assert (found if found is None else " ".join(word.text for word in found)) == rest, line


def test_a_question_for_what_is_missing_is_no_nearest_line() -> None:
    assert gist("grind it down by 4 mm") == Gist(None, "Grind which point 4 mm?")
    assert nearest_line("grind it down by 4 mm") is None
    assert nearest_line("zzz zzz") is None


@pytest.mark.parametrize(
    ("line", "form"),
    [("water for 2 bags", "water a bag"), ("pin heights for row b please", "cut list")],
)
def test_a_question_is_answered_without_what_is_said_beside_it(line: str, form: str) -> None:
    found = gist(line)
    assert found is not None
    assert found.command is not None
    assert short_form(found.command) == form
