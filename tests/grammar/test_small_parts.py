"""Small values and small helpers, each by itself: what is made of what was said, and what not."""

from __future__ import annotations

from datetime import time
from decimal import Decimal
from random import Random
from typing import Any

import pytest

from grammar import Misunderstood, understand
from grammar.asking import asked_plainly
from grammar.commands.site import Temperature
from grammar.contractions import in_full
from grammar.errors import Impossible
from grammar.filling import asked_for, parsed, row_sentence, slots_of
from grammar.language import short_form
from grammar.misses import EXPECTED_NAMES, MISTAKES, _clip, _index_at, _listed, main_words
from grammar.numbers import DIGITS, TEENS
from grammar.phrases import PHRASES
from grammar.read_off import read_off
from grammar.slots import change, clock_time, name, remark, temperature, whole
from grammar.slots.point import LETTERS
from grammar.slots.reading import BELOW
from grammar.suggest import hint, next_expected, suggestions
from grammar.within import question_within
from grammar.words import split_words


def built(build: Any, *said: Any) -> Any:
    """What is built; None where it is impossible."""
    try:
        return build(*said)
    except Impossible:
        return None


# --- values ------------------------------------------------------------------------------------


def test_doors_are_counted_to_99_and_bags_to_9999() -> None:
    for said, number in (("0", None), ("1", 1), ("99", 99), ("100", None), ("x", None), (99, 99)):
        assert built(whole._whole, said) == number, said
    for said, number in (("-1", None), ("0", 0), ("1", 1), ("9999", 9999), ("10000", None),
                         ("1.5", None), ("2.0", 2)):  # fmt: skip
        assert built(whole._count, Decimal(said)) == number, said
    assert whole.KIND.builders["p_two_digits"](2, 5) == 25


def test_a_time_of_day_is_parted_into_hours_and_minutes() -> None:
    for said, at in (
        (("10",), time(10)), (("9",), time(9)), (("10.30",), time(10, 30)), (("10.3",), None),
        (("10.300",), None), (("1030",), time(10, 30)), (("930",), time(9, 30)), (("24",), None),
        (("10300",), None), (("2359",), time(23, 59)), (("23", "59"), time(23, 59)),
        (("10", "60"), None),
    ):  # fmt: skip
        assert built(clock_time._on_the_clock, *said) == at, said


def test_noon_is_twelve_pm_and_midnight_twelve_am() -> None:
    for said, at in (
        ((time(12, 5), "am"), time(0, 5)), ((time(12, 5), "pm"), time(12, 5)),
        ((time(1), "am"), time(1)), ((time(1), "pm"), time(13)), ((time(11), "pm"), time(23)),
        ((time(0), "pm"), None), ((time(13), "pm"), None), ((time(13),), time(13)),
        (("9",), time(9)),
    ):  # fmt: skip
        assert built(clock_time._clock_time, *said) == at, said


def test_a_remark_begins_with_its_point_or_is_of_none() -> None:
    for said, words, at in (
        ("crack", "crack", None), ("at B2 crack", None, ("B2", "crack")), ("at B2", None, None),
        ("at 3 pm come", "at 3 pm come", None), ("on bravo three crack", None, ("B3", "crack")),
        ("at charlie eleven crack", None, ("C11", "crack")), ("at B2 mm", "at B2 mm", None),
        ("for the point b 2 : crack", None, ("B2", "crack")), ("at B100 x", "at B100 x", None),
        ("at B0 x", "at B0 x", None), ("", None, None), (" , ", None, None), ("a\nb", "a b", None),
    ):  # fmt: skip
        assert built(remark._remark, said) == words, said
        assert built(remark._remark_at, said) == at, said


def test_every_letter_and_number_that_is_said_names_the_point_of_a_remark() -> None:
    for said, letter in LETTERS.items():
        if len(said) > 1:
            assert built(remark._remark_at, f"at {said} seven crack") == (
                f"{letter.upper()}7", "crack"
            ), said  # fmt: skip
    for said, number in {**DIGITS, **TEENS}.items():
        point = f"B{number}" if str(number) != "0" else None
        found = built(remark._remark_at, f"at bravo {said} crack")
        assert (found and found[0]) == point, said


def test_a_name_of_a_client_is_no_talk_about_one() -> None:
    for said, title, short in (
        ("Smith", "Smith", "Smith"), ("is wants oak", "wants oak", "is is wants oak"),
        ("= x", "x", "is = x"), ("wants oak", None, "is wants oak"), ("", None, None),
        ("Hall and Sons", "Hall and Sons", "Hall and Sons"), ("Hall wants", None, "is Hall wants"),
        ("the Mill", None, "is the Mill"), ("is", None, "is is"),
    ):  # fmt: skip
        assert built(remark._title, said) == title, said
        if short is not None:
            assert remark._short_title(said) == short, said
            assert built(remark._title, remark._short_title(said)) == said


def test_a_temperature_is_below_zero_where_that_was_said() -> None:
    five = Decimal(5)
    for said, number, scale in (
        ((five,), 5, None), ((BELOW, five), -5, None), ((1, five), 5, None), ((five, "F"), 5, "F"),
        ((BELOW, five, None, "C"), -5, "C"), ((BELOW, Decimal(0)), 0, None),
        ((Decimal(-1),), -1, None),
    ):  # fmt: skip
        found = temperature._temperature(*said)
        assert (int(found.number), found.scale) == (number, scale), said
        assert not found.number.is_signed() or found.number
    assert temperature.short_temperature(Temperature(Decimal(-5), None)) == "-5 degrees"


def test_a_name_has_eight_words_and_is_kept_as_it_is_cut_again() -> None:
    for said, kept in (
        ("a b c d e f g h", "a b c d e f g h"), ("a b c d e f g h i", None), ("1 / 2", "1/2"),
        ("2,5 x", "2,5 x"),
    ):  # fmt: skip
        assert built(name._name, said) == kept, said
    assert name._own_words(" : it is", " wet") == "it is wet"


def test_changes_in_one_breath_are_taken_apart() -> None:
    one, two, three = parsed("undo")[0], parsed("redo")[0], parsed("close room")[0]
    assert change._more(one, None) == (one,)
    assert change._more((one, two), None, three) == (one, two, three)
    assert change._several(one, None, two) == (one, (two,))
    assert change._several(one, None, (two, three)) == (one, (two, three))
    assert change._short_several((one, (two, three))) == "undo and redo and close room"
    for seed in range(8):
        text, (first, others) = change._sample_several(Random(seed))
        assert text.count(" and ") == len(others) >= 1, (text, first)


# --- what stands around ------------------------------------------------------------------------


def test_readings_are_read_off_among_words_that_change_nothing() -> None:
    for line, readings in (
        ("this one at B1 is dead level", ["B1 level"]), ("at D1 nine under", ["D1 -9"]),
        ("D1 nine under", []),  # nothing beside it: a phrase takes that
        ("over at B3 seven high", ["B3 +7"]), ("at over B3 seven high", []),
        ("B3 came in 4 low", ["B3 -4"]), ("in at B3 4 low", []), ("at B3 in 4 low", []),
        ("A2 is 4 below and B2 is", []), ("A2 is 4 below and B2 is 6 below", ["A2 -4, B2 -6"]),
        ("4 below at A2", ["A2 -4"]), ("4 below at A2 and 6 below at B2", []),
        ("at A2 4 and B2", []), ("what is A2 4 low", []), ("A2 it is 4 low here", ["A2 -4"]),
        ("", []), ("at", []), ("A2 and B2 are low", []),
    ):  # fmt: skip
        assert [short_form(each) for each in read_off(split_words(line))] == readings, line


def plainly(line: str) -> list[str]:
    return [" ".join(word.text for word in less) for less in asked_plainly(split_words(line))]


def test_what_is_put_around_a_question_is_left_out_each_way_once() -> None:
    for line, less in (
        ("what the finish is", ["what is finish"]), ("how deep it is", ["how deep is it"]),
        ("which way the fall is", ["which way is fall"]), ("how long is", ["how is long"]),
        ("what is", []), ("the finish is", []), ("tell me", []), ("tally", []),
        ("where C2 isn't", []), ("map do you think", ["map"]), ("remind me map", ["map"]),
        ("remind me where C2 is do you think",
         ["where c2 is do you think", "remind me where c2 is", "where c2 is", "where is c2"]),
    ):  # fmt: skip
        assert plainly(line) == less, line


def test_words_drawn_together_are_two() -> None:
    for line, full in (
        ("where's it", "where is it"), ("whats it", "what is it"), ("we’ve got", "we have got"),
        ("I'm here", "i am here"), ("b3's low", None), ("'s", None), ("tally", None),
    ):  # fmt: skip
        found = in_full(split_words(line))
        assert (found and " ".join(word.text for word in found)) == full, line
    paused = in_full(split_words("here, it's low"))
    assert paused is not None
    assert [word.after_pause for word in paused] == [False, True, False, False]


def test_six_words_may_stand_beside_a_question_and_none_that_counts() -> None:
    for before, after, meant in (
        ("we we we", "we we we", True), ("we we we we", "we we we", False),
        ("we 3", "", False), ("never", "", False), ("he said", "", False), ("quux", "", True),
        ("door", "", False),
    ):  # fmt: skip
        found = question_within(split_words(f"{before} how many bags {after}"))
        assert (found is not None) is meant, (before, after)
    assert question_within(split_words("we map we")) is None
    assert question_within(split_words("we raise finish 3 mm")) is None


# --- what can come next, and what is missing ---------------------------------------------------


def test_what_comes_next_is_asked_of_the_end_of_a_text_only() -> None:
    assert next_expected(split_words("room 12 zzz")) == []
    assert next_expected(split_words("room 12"))
    assert hint("wall ") == ("a direction: north, south east …",)
    assert hint("zzz ") == ()
    assert [item.start for item in suggestions("wall s")] == [-1]
    assert [item.start for item in suggestions("wall S")] == [-1]
    assert [item.display for item in suggestions("wall s")] == ["south"]
    openings = {item.insert: item.help for item in suggestions("")}
    assert openings["tally"]
    assert all(item.help == "" for item in suggestions("correct B3 to "))


def test_gaps_that_may_be_left_out_are_told_from_others() -> None:
    def row(beginning: str) -> Any:
        return next(each for each in PHRASES if each.template.startswith(beginning))

    for beginning, gaps in (
        ("order [[at] risk", [("percent", True)]), ("strike", [("point", False)]),
        ("grid <first:length>", [("length", False), ("length", True)]),
        ("(bag costs", [(slot, True) for slot in ("number", "currency", "currency", "number")]),
        ("cut list", []),
    ):  # fmt: skip
        assert [(gap.slot, may) for gap, may in slots_of(row(beginning).nodes)] == gaps, beginning
    strike = row("strike")
    assert row_sentence(strike.nodes, {"point": "b3"}) == "strike b3"
    assert row_sentence(strike.nodes, {"point": "b3", "by": "4 mm"}) is None
    for beginning, said, asked in (
        ("strike", "", "Strike which point?"), ("waste", "", "Waste how many percent?"),
        ("grid <first:length>", "", "Grid how long?"), ("door <door:whole> left", "", ""),
        ("client", "", ""),  # of a kind that nobody is asked for
        ("line <line:whole> from [point]", "line 1 start a1", "Line 1 from a1 to which point?"),
        # Past eight words only what leads up to the gap is asked,
        ("line <line:whole> from [point]", "line 1 start a1 spacing 2_m", "To which point?"),
        ("drain", "height 18_mm_below", "Drain at which point 18 mm below?"),
        ("drain", "height 18_mm_below_the_zero", "Drain at which point?"),
        # and where nothing leads up to it, nothing is.
        ("<point> same", "like a_point_of_a_very_long_name", ""),
    ):  # fmt: skip
        names, words = said.split()[::2], said.split()[1::2]
        texts = {name: word.replace("_", " ") for name, word in zip(names, words, strict=True)}
        nodes = row(beginning).nodes
        lacking = [gap for gap, may in slots_of(nodes) if not may and gap.fields[0] not in texts]
        assert asked_for(row(beginning), texts, lacking) == asked, (beginning, said)
    assert len(parsed("undo")) == 1
    assert parsed("zzz") == ()


def test_of_a_miss_so_much_is_shown() -> None:
    for names, told in (((), "nothing more"), (("a",), "a"), (("a", "b"), "a or b"),
                        (tuple("abcdef"), "a, b, c, d, e or f"),
                        (tuple("abcdefg"), "a, b, c, d, e or f")):  # fmt: skip
        assert _listed(names) == told, names
    for text, shown in (("q" * 60, "q" * 60), ("q" * 61, "q" * 60 + "…"), ("a\tb", "a·b")):
        assert _clip(text) == shown
    words = split_words("wall east metres")
    for start, at in ((0, 0), (5, 1), (10, 2), (7, 0)):
        senseless = Impossible("no")
        senseless.start = start
        assert _index_at(words, senseless) == at, start
    assert _index_at(words, None) == 0
    assert "tally" in main_words()
    assert not main_words() & {"the", "of", "is"}
    assert "a number" in EXPECTED_NAMES
    for mistake in MISTAKES:
        with pytest.raises(Misunderstood) as caught:
            understand(mistake.example)
        assert caught.value.is_known, mistake.example
