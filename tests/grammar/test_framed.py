"""When a row is meant: how much of a line it has to be about, by what kind of line it is.

How much a line says of a row is handed in here, so that each bound stands by itself.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from grammar import filling, values_meant
from grammar import framed as module
from grammar.commands import Command
from grammar.filling import filled, parsed
from grammar.frame_table import FRAMES
from grammar.framed import Framed
from grammar.frames import EvokedLine, Match
from grammar.language import short_form
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.values_said import Said
from grammar.words import split_words

STRIKE, DEEP = "strike [point] <point>", "how deep (at | is) [point] <point>"
LEFT = "door <door:whole> left"
ROWS = {phrase.template: phrase for phrase in PHRASES}


def row(template: str) -> Phrase:
    return next(phrase for name, phrase in ROWS.items() if name.startswith(template))


def values_of(line: str) -> tuple[Said, ...]:
    return tuple(values_meant._values(split_words(line), ()))


def match_of(
    template: str,
    score: float = 1.0,
    share: float = 1.0,
    telling: int = 2,
    *,
    strange: bool = False,
    used: frozenset[int] = frozenset(),
) -> Match:
    return Match(row(template), score, share, used, telling, strange)


def meant(
    monkeypatch: pytest.MonkeyPatch, line: str, *of: Match, supposes: bool = False
) -> list[Framed]:
    """What comes of a line where its words say so much of some rows."""
    words, values = split_words(line), values_of(line)
    evoked: dict[str, tuple[frozenset[int], ...]] = {}
    if supposes:
        evoked["suppose"] = (frozenset((0,)),)
    read = values_meant._line(words, values)
    seen = EvokedLine(read.words, read.roots, read.values, evoked, read.weights)
    monkeypatch.setattr(module, "matches", lambda _: list(of))
    return list(module._meant(words, values, seen, supposes))


def forms(found: list[Framed]) -> list[str]:
    return [short_form(one.command) if one.command else one.question for one in found]


# Of each kind of line: one of that kind, and a row that it may mean.
ASKED = ("what are the low spots", "low spots")
TOLD = ("them low spots then", "low spots")
CHANGED = ("get the room shut", "close room")
ORDERED = ("can you get the room shut", "close room")


def test_how_likely_and_how_much_of_a_line_a_row_has_to_be(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for (line, template), score, share in (
        (ASKED, 0.6, 0.66), (TOLD, 0.7, 0.7), (CHANGED, 0.6, 0.62), (ORDERED, 0.55, 0.6),
    ):  # fmt: skip
        for off, just in (((0, 0), True), ((0.01, 0), False), ((0, 0.01), False)):
            found = meant(monkeypatch, line, match_of(template, score - off[0], share - off[1]))
            assert bool(found) is just, (line, off)
            if found:
                assert (found[0].score, found[0].share) == pytest.approx((score, share))


def test_whatreports_by_one_concept_has_to_be_most_of_the_line(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for (line, template), telling, score, share, strange, just in (
        (ASKED, 1, 0.6, 0.72, False, True), (ASKED, 1, 0.6, 0.71, False, False),
        (ASKED, 1, 0.9, 0.9, True, False), (ASKED, 2, 0.6, 0.66, True, True),
        (ASKED, 0, 1.0, 0.72, False, True), (ASKED, 0, 0.99, 0.72, False, False),
        (TOLD, 1, 1.0, 0.9, False, True), (TOLD, 1, 0.99, 0.9, False, False),
        (TOLD, 1, 1.0, 0.89, False, False), (TOLD, 2, 0.7, 0.7, False, True),
        (TOLD, 2, 0.7, 0.78, True, True), (TOLD, 2, 0.7, 0.77, True, False),
        (CHANGED, 1, 0.6, 0.9, False, True), (CHANGED, 1, 0.6, 0.89, False, False),
        (CHANGED, 2, 0.6, 0.62, False, True), (CHANGED, 2, 0.6, 0.61, False, False),
        (CHANGED, 0, 0.99, 1.0, False, False), (CHANGED, 0, 1.0, 1.0, False, True),
        (CHANGED, 2, 0.6, 0.7, True, True),
    ):  # fmt: skip
        match = match_of(template, score, share, telling, strange=strange)
        case = line, telling, score, share, strange
        assert bool(meant(monkeypatch, line, match)) is just, case


def test_a_value_that_fills_a_gap_makes_a_row_likelier(monkeypatch: pytest.MonkeyPatch) -> None:
    """By a quarter, a pair by two; and a fifth of the rest of the line is then about it."""
    for line, template, score, share, just in (
        ("take out B3", STRIKE, 0.35, 0.51, True), ("take out B3", STRIKE, 0.34, 0.51, False),
        ("take out B3", STRIKE, 0.35, 0.49, False),
        ("A1 has the drain 3 low", "drain", 0.1, 0.38, True),
        ("A1 has the drain 3 low", "drain", 0.09, 0.38, False),
        ("A1 has the drain 3 low", "drain", 0.1, 0.37, False),
        ("it is 6 by 4 metres", "room <first", 0.1, 0.6, True),
        ("it is 6 by 4 metres", "room <first", 0.09, 0.6, False),
        ("it is 6 by 4 metres", "room <first", 0.1, 0.49, False),
    ):  # fmt: skip
        found = [one for one in meant(monkeypatch, line, match_of(template, score, share))
                 if one.command]  # fmt: skip
        assert bool(found) is just, (line, score, share)
        if found:
            # of a pair two gaps are filled by one value
            filled_gaps = 2 if template in ("drain", "room <first") else 1
            assert found[0].score == pytest.approx(score + 0.25 * filled_gaps)


def test_one_telling_concept_and_a_value_are_two(monkeypatch: pytest.MonkeyPatch) -> None:
    for telling, just in ((1, True), (0, False)):
        found = meant(monkeypatch, "take out B3", match_of(STRIKE, 0.6, 0.6, telling))
        assert bool(found) is just, telling


def test_a_row_without_a_frame_has_to_be_the_whole_line(monkeypatch: pytest.MonkeyPatch) -> None:
    for template in ("end line", "end line <line:whole>"):
        monkeypatch.delitem(FRAMES, template)
    for share, just in ((0.9, True), (0.89, False)):
        found = meant(monkeypatch, "let the line end", match_of("end line", 1.0, share))
        assert bool(found) is just, share


def test_eight_rows_are_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    for others, just in ((7, True), (8, False)):
        full = [match_of("high spots")] * others
        found = meant(monkeypatch, ASKED[0], *full, match_of("low spots"))
        assert ("low spots" in forms(found)) is just, others
    # those that are no choice are not counted
    weak = [match_of("high spots", share=0.1)] * 20
    assert forms(meant(monkeypatch, ASKED[0], *weak, match_of("low spots"))) == ["low spots"]


def test_a_line_asks_by_its_first_word_or_by_one_of_its_first_eight(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for before, asks in ((7, True), (8, False)):
        line = "tally " * before + "where"
        found = meant(monkeypatch, line, match_of("low spots", 0.6, 0.66))
        assert bool(found) is asks, before
        # and what asks orders nothing
        found = meant(monkeypatch, line, match_of("close room"))
        assert bool(found) is not asks, before


def test_what_somebody_says_or_denies_counts_unless_it_is_what_is_meant(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for line, template, used, just in (
        ("what low spots the pub", "low spots", (), False),
        ("what low spots the pub", "low spots", (3,), True),
        ("what low spots not", "low spots", (), True),
        ("low spots not", "low spots", (), False),
        ("low spots not", "low spots", (2,), True),
        ("do not close that room", "close room", (1,), False),  # "do" asks
        ("close not that room", "close room", (), False),
        ("close not that room", "close room", (1,), True),
        ("he has the room shut", "close room", (), False),
        ("he said the low spots", "low spots", (), False),
    ):
        found = meant(monkeypatch, line, match_of(template, used=frozenset(used)))
        assert bool(found) is just, (line, used)


def test_a_change_is_supposed_and_a_question_or_a_file_is_not(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    line = "say the low spots B3"
    found = meant(monkeypatch, line, match_of("low spots"), match_of(STRIKE), supposes=True)
    assert forms(found) == ["what if strike B3"]
    line = "say that is put away"
    found = meant(monkeypatch, line, match_of("put job away"), supposes=True)
    assert found == []
    # nothing is supposed where no word says so
    monkeypatch.setattr(module, "matches", lambda _: [match_of(STRIKE)])
    words, values = split_words("take out B3"), values_of("take out B3")
    assert list(module._meant(words, values, values_meant._line(words, values), True)) == []
    # a statement beside a supposed change is no order
    found = meant(monkeypatch, "he would strike B3", match_of(STRIKE), supposes=True)
    assert forms(found) == ["what if strike B3"]


# --- what is missing ---------------------------------------------------------------------------


def test_what_is_missing_is_asked_where_the_line_is_clear(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for line, score, share, telling, strange, just in (
        # Two words are the name of a matter.
        ("that one", 0.7, 1.0, 1, False, True), ("that one", 0.69, 1.0, 1, False, False),
        ("that one there", 0.7, 1.0, 1, False, False), ("that one", 0.7, 0.9, 1, True, False),
        # More of them tell the matter by two concepts,
        ("get that one there", 0.6, 0.7, 2, False, True),
        ("get that one there", 0.6, 0.69, 2, False, False),
        ("get that one there", 0.6, 0.8, 2, True, False),
        # and a weaker row has to be all of the line.
        ("get that one there", 0.45, 1.0, 2, False, True),
        ("get that one there", 0.44, 1.0, 2, False, False),
        ("get that one there", 0.5, 0.99, 2, False, False),
    ):  # fmt: skip
        found = meant(monkeypatch, line, match_of(STRIKE, score, share, telling, strange=strange))
        assert forms(found) == (["Strike which point?"] if just else []), (line, score, share)
        if found:
            assert found[0].score == pytest.approx(score - 0.15)
            assert found[0].command is None
    # A question is clear by itself where it is most of the line.
    for share, just in ((0.73, True), (0.72, False)):
        found = meant(monkeypatch, "how deep is it then", match_of(DEEP, 0.6, share, 1))
        assert forms(found) == (["How deep at which point?"] if just else []), share
    assert meant(monkeypatch, "say that goes out", match_of(STRIKE), supposes=True) == []


def test_a_weak_row_is_not_taken_though_it_lacks_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert meant(monkeypatch, "take out B3", match_of(STRIKE, 0.34, 1.0)) == []


def test_one_thing_is_asked_for_and_what_was_said_is_kept() -> None:
    for template, line, asked in (
        ("grind", "4 mm", "Grind which point 4 mm?"), ("grind", "B3", "Grind B3 how much?"),
        ("grind", "", ""),  # two things
        ("strike", "B3", ""),  # nothing
        ("strike", "B3 C4", ""),  # a value too many
        ("strike", "4 mm", ""),  # and one that fits nowhere
        ("floor is", "the cement", ""), ("floor is", "", "Floor is what?"),
        ("readings in", "in imperial", ""),
        ("low spots", "", ""),
    ):  # fmt: skip
        question = filling.lacking_of(row(template), values_of(line), split_words(line))
        assert question == asked, (template, line)
    point = Said("point", tuple(split_words("b3")))
    assert filling._shown(point) == "B3"
    assert filling._shown(Said("point", tuple(split_words("b three")))) == "b three"
    assert filling._shown(Said("length", tuple(split_words("mm")))) == "mm"


# --- which of several --------------------------------------------------------------------------


def command(line: str) -> Command:
    (one,) = parsed(line)
    return one


def chosen(
    monkeypatch: pytest.MonkeyPatch, *of: tuple[str, float], could: str = ""
) -> Framed | None:
    """What becomes of several that a line may mean; ``could`` is what the job could take."""
    found = [Framed(command(line) if line else None, "Which?" if not line else "", score, 0.8)
             for line, score in of]  # fmt: skip
    monkeypatch.setattr(module, "_meant", lambda *_: iter(found))
    words = split_words("anything at all")
    return module.framed(
        "anything at all", words, lambda one: not could or short_form(one) in could.split("|"), ()
    )


def test_of_two_the_likelier_is_meant_and_of_two_alike_either_is_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    both = "Low spots or high spots?"
    for of, could, told in (
        ([("low spots", 0.8), ("high spots", 1.0)], "", "high spots"),
        ([("low spots", 1.0), ("high spots", 0.8)], "", "low spots"),
        ([("low spots", 1.0), ("high spots", 0.86)], "", both),
        ([("low spots", 1.0), ("high spots", 0.84)], "", "low spots"),
        ([("strike B3", 1.0), ("undo", 0.86)], "", "Strike B3 or undo?"),
        ([("strike B3", 1.0), ("undo", 0.84)], "", "strike B3"),
        ([("low spots", 1.0), ("low spots", 1.0)], "", "low spots"),
        # what the job could take comes first, and where it could take none, all count
        ([("low spots", 1.0), ("high spots", 1.0)], "high spots", "high spots"),
        ([("low spots", 1.0), ("high spots", 1.0)], "tally", both),
        ([("low spots", 1.0), ("high spots", 0.8)], "high spots", "low spots"),
        # of a question and a command the command
        ([("", 1.0), ("high spots", 1.0)], "", "high spots"),
        ([("", 1.0)], "", "Which?"),
        ([("tally", 1.0), ("low spots", 1.0), ("map", 1.0)], "", "Tally, low spots or map?"),
        # more than eight words name nothing
        ([("tally", 1), ("low spots", 1), ("high spots", 1), ("what if strike B3", 1)], "", None),
        ([], "", None),
    ):  # fmt: skip
        found = chosen(monkeypatch, *of, could=could)
        shown = found and (short_form(found.command) if found.command else found.question)
        assert shown == told, of


def test_twenty_six_words_are_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_meant", lambda *_: iter([Framed(command("tally"), "", 1, 1)]))
    for count, just in ((26, True), (27, False), (0, False)):
        found = module.framed("", split_words("floor " * count)[:count], lambda _: True, ())
        assert (found is not None) is just, count


def test_what_is_supposed_comes_before_what_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    def supposed(*asked: object) -> Iterator[Framed]:
        line = "what if strike B3" if asked[-1] else "strike B3"
        if asked[-1] is not False or not only:
            yield Framed(command(line), "", 1.0, 1.0)

    monkeypatch.setattr(module, "_meant", supposed)
    only = False
    found = module.framed("say B3", split_words("say B3"), lambda _: True, ())
    assert found is not None
    assert found.command == command("what if strike B3")


# --- values ------------------------------------------------------------------------------------


def lines_of(line: str) -> list[list[str]]:
    """The values of a line in each way that they may be meant."""
    ways = values_meant.values_and_words(line, split_words(line), ())
    return [[f"{value.sort} {value.text}" for value in values] for values, _ in ways]


def test_the_ways_in_which_values_may_be_meant() -> None:
    for line, ways in (
        ("put up 3 mm", [["reading up 3 mm"], ["length 3 mm"]]),
        ("put up 3", [["reading up 3"], ["number 3"]]),
        ("put minus 3 mm", [["reading minus 3 mm"]]),
        ("B3 is 3 mm", [["point b3", "length 3 mm"]]),
        ("2 m along and 3 m in",
         [["length 2 m", "length 3 m"], ["pair 2 m by 3 m"]]),
        ("2 m along and 3 in", [["length 2 m", "length 3 in"], ["pair 2 m by 3 in"]]),
        ("2 m and 3 m", [["length 2 m", "length 3 m"]]),
        ("2 along and 3 up", [["number 2", "reading 3 up"], ["number 2", "number 3"]]),
        ("2 m along", [["length 2 m"]]),
        ("across 2 m and 3 m and 4 m", [["length 2 m", "length 3 m", "length 4 m"]]),
        ("20 litres", [["counted 20"]]), ("20 tonnes", []),
        ("22 euros", [["number 22 euros"]]),
        ("zero", [[]]), ("it is concrete", [[]]), ("one of them", [[]]),
        ("door one", [["number one"]]), ("two", [["number two"]]),
        ("skip it because The boss says", [["reason The boss says", "opener because"], []][::-1]),
        ("skip it because wet", [[], ["reason wet", "opener because"]]),
        ("because wet it is", [[]]),  # nothing stands before it
        ("go because wet", [[]]),
        ("skip it because", [[]]),  # and nothing after
    ):  # fmt: skip
        assert lines_of(line) == ways, line


def test_an_order_before_a_thing_is_its_number() -> None:
    for line, numbered in (
        ("the second door", "the door 2"), ("door second", "door second"),
        ("first strip", "strip 1"), ("fifth column please", "column 5"),
        ("the second wall", "the second wall"), ("second second door", "second door 2"),
    ):  # fmt: skip
        found = module._numbered(split_words(line))
        assert " ".join(word.text for word in found) == " ".join(
            word.text for word in split_words(numbered)
        ), line
    assert module._numbered(split_words("second door"))[1].kind == split_words("2")[0].kind


def test_values_fill_a_row_where_each_has_its_gap() -> None:
    for template, line, form, count in (
        ("strike", "B3", "strike B3", 1), ("strike", "", None, 0), ("strike", "B3 C4", None, 0),
        ("difference", "B3 C4", "difference B3 to C4", 2),
        ("floor is", "cement", "floor is concrete", 1),
        ("floor is", "the glue", "floor is old adhesive", 1),
        ("floor is", "cement and glue", None, 0),
        ("floor is", "wood or timber", "floor is timber", 1),
        ("readings in", "imperial", "readings in inches", 1),
        (LEFT, "door 2 left minus 4 right minus 7", "door 2 left -4 right -7", 3),
        (LEFT, "door 2 right minus 7 left minus 4", "door 2 left -4 right -7", 3),
        (LEFT, "door 2 rh minus 7 lh minus 4", "door 2 left -4 right -7", 3),
        (LEFT, "door 2 minus 7 minus 4", None, 0),
        (LEFT, "door 2 left minus 7 minus 4", None, 0),
        ("order [[at] risk", "5 percent", "order risk 5 percent", 1),
        ("order [[at] risk", "", "order", 0),
        ("order [[at] risk", "5", None, 0),  # what may be left out is said in full
        ("hole", "", "hole", 0), ("no hole", "", "no hole", 0),
        ("shorter", "", "shorter", 0),
    ):  # fmt: skip
        found, values = filled(row(template), values_of(line), split_words(line))
        assert (found and short_form(found), values) == (form, count), (template, line)


def test_three_ways_of_a_row_are_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    tried = []

    def seen(line: str) -> tuple[Command, ...]:
        tried.append(line)
        return ()

    monkeypatch.setattr(filling, "parsed", seen)
    assert len(ROWS["low spots"].every_way) > 3
    assert filled(ROWS["low spots"], (), ()) == (None, 0)
    assert len(tried) == 3


def test_what_only_tells_is_no_order() -> None:
    for line, told in (
        ("they told the mixer", True), ("told you shut it", False),
        ("told the lad to shut it", False),
        ("we would have shut it", True), ("we would shut it", False), ("if it is shut", True),
        ("shut it if wet", False), ("he shuts it", True), ("she needs it shut", False),
        ("he wants it shut", False), ("shut it", False),
    ):  # fmt: skip
        assert module.reports([word.text for word in split_words(line)]) is told, line


def test_the_kind_of_a_line() -> None:
    for line, does, asks, supposes, kind in (
        ("can you shut it", True, True, False, "order"),
        ("can you shut what", True, True, False, None),
        ("is it shut", True, True, False, None), ("shut it", True, False, False, "change"),
        ("is it shut", False, True, False, "ask"), ("it is", False, False, False, "tell"),
        ("shut it", True, False, True, "ask"),
    ):  # fmt: skip
        assert module._kind(line.split(), does, asks, supposes) == kind, (line, does)
