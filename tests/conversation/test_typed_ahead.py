"""Values typed ahead, past a question that nobody has seen yet: none may land on another point."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.__main__ import main
from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.reply.replies import Turn
from assistant.terminal.talking import talk as type_lines

WORLD = World(cards_in(shipped_folder()))
ROOM = ("room 10 by 18 metres", "grid 2 metres")
SLIPS = ("-150", "+15", "15", "-15", "-90", "-15l", "-1.5.5", "-15 litres")
"""What is asked about, what passes, and what is refused."""


@cache
def walk() -> tuple[str, ...]:
    """The points of a grid of five by nine, in the order they are read in."""
    names = ["A1"]
    with Journal.open(None) as journal:
        talk = Conversation(journal, WORLD)
        for line in (*ROOM, "A1 -15"):
            talk.hear(line)
        while (following := talk.hear("next point").reply.data.get("next")) is not None:
            names.append(str(following))
            talk.hear(f"{following} -15")
            talk.hear("confirm") if talk.pending else None
    return tuple(names)


def typed(values: Sequence[str]) -> tuple[Conversation, dict[str, str], list[bool]]:
    """All of them at once; what each point was meant to read."""
    with Journal.open(None) as journal:
        talk = Conversation(journal, WORLD)
        talk.ahead.on = True
        for line in (*ROOM, f"A1 {values[0]}"):
            talk.hear(line)
        taken = [talk.hear(value).ok for value in values[1:]]
        return talk, dict(zip(walk(), values, strict=False)), taken


def test_the_walk_is_the_whole_grid() -> None:
    assert len(walk()) == len(set(walk())) == 45


@pytest.mark.slow
@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.sampled_from(["-15", "-16", "-14", "-15", "-15", "-16"]), min_size=20, max_size=45),
    st.dictionaries(st.integers(8, 44), st.sampled_from(SLIPS)),
)
def test_no_value_lands_on_another_point(values: list[str], slips: dict[int, str]) -> None:
    values = [slips.get(at, value) for at, value in enumerate(values)]
    talk, meant, _ = typed(values)
    for point, reading in talk.job.readings.items():
        assert reading.mm == int(meant[point]), f"{point} was meant to be {meant[point]}"


def test_what_follows_a_refused_reading_waits_till_a_point_is_named() -> None:
    for slip in ("-15l", "minus twelve.five.", "-15 litres", "F9 -15", "correct Z99 to -15"):
        with Journal.open(None) as journal:
            talk = Conversation(journal, WORLD)
            talk.ahead.on = True
            for line in (*ROOM, "A1 -15", "-16"):
                assert talk.hear(line).ok
            first, *rest = (talk.hear(line) for line in (slip, "-17", "-18", "tally", "-19"))
            assert not first.ok, slip
            assert [turn.ok for turn in rest] == [False, False, True, False], slip
            assert rest[0].reply.headline.startswith(f"Which point is that for? “{slip}” before")
            assert talk.hear("D1 -18").ok
            assert talk.hear("-14").ok
            assert list(talk.job.readings) == ["A1", "B1", "D1", "E1"], slip


def test_a_refused_line_about_another_matter_stops_no_reading() -> None:
    for other in ("product none such 5", "confirm", "hello there"):
        with Journal.open(None) as journal:
            talk = Conversation(journal, WORLD)
            talk.ahead.on = True
            for line in (*ROOM, "A1 -15", other):
                talk.hear(line)
            assert talk.hear("-16").ok, other


def test_who_sees_the_refusal_may_say_the_value_again() -> None:
    with Journal.open(None) as journal:
        talk = Conversation(journal, WORLD)
        for line in (*ROOM, "A1 -15", "-16l"):
            talk.hear(line)
        assert talk.hear("-16").ok
        assert list(talk.job.readings) == ["A1", "B1"]


def test_pasted_lines_are_typed_ahead_and_the_next_line_is_not() -> None:
    with Journal.open(None) as journal:
        talk = Conversation(journal, WORLD)
        opening: Any = SimpleNamespace(conversation=talk)
        screen: Any = SimpleNamespace(show=lambda *_args, **_more: None)
        type_lines(("\n".join((*ROOM, "A1 -15", "-16l", "-17")), "-16"), opening, screen)
        assert {point: at.mm for point, at in talk.job.readings.items()} == {"A1": -15, "B1": -16}


def test_a_played_file_is_typed_ahead(tmp_path: Path) -> None:
    lines, job = tmp_path / "lines.txt", tmp_path / "hall.leadsman"
    lines.write_text("\n".join((*ROOM, "A1 -15", "-16l", "-17")))
    assert main(["run", str(lines), "--job", str(job)]) == 1
    with Journal.open(job) as journal:
        assert list(Conversation(journal, WORLD).job.readings) == ["A1"]


def test_what_follows_a_question_waits_with_it() -> None:
    values = ["-15"] * 12 + ["-150", "-14", "-16", "-15"]
    talk, _, taken = typed(values)
    assert talk.pending is not None
    assert list(talk.job.readings) == list(walk()[:12])
    assert taken[-3:] == [False] * 3


def test_a_value_alone_is_no_point_s_while_a_look_is_asked_about() -> None:
    asking = (
        "check benchmark 1 minus 3",  # 9 mm off: “say what it shows”
        "check benchmark 1 3",  # below or above?
        "check zero plus 9",
        "tie on benchmark 1 minus 3",
        "door 1 left 4 right -3",  # below or above?
        "benchmark 2 at 12",
        "finish 4",
    )
    for line in asking:
        with Journal.open(None) as journal:
            talk = Conversation(journal, WORLD)
            for first in (*ROOM, "A1 -15", "benchmark 1 at 12 below zero", line):
                talk.hear(first)
            turn = talk.hear("-12")
            assert not turn.ok, line
            assert "Which is that for?" in turn.reply.headline, line
            assert list(talk.job.readings) == ["A1"], line

    with Journal.open(None) as journal:
        talk = Conversation(journal, WORLD)
        for first in (*ROOM, "benchmark 1 at 12 below zero", "check benchmark 1 minus 3"):
            talk.hear(first)
        assert talk.hear("check benchmark 1 minus 12").lapsed is None, "another look answers it"


def test_same_is_no_value_while_a_reading_is_asked_about() -> None:
    with Journal.open(None) as journal:
        talk = Conversation(journal, WORLD)
        for line in (*ROOM, *(f"{point} -15" for point in walk()[:12]), "-150"):
            talk.hear(line)
        turn = talk.hear("same")
        assert not turn.ok
        assert turn.reply.headline.startswith("Which point is that for?")
        assert tuple(talk.job.readings) == walk()[:12]


def test_a_question_passed_over_counts_as_not_taken(tmp_path: Path) -> None:
    lines = tmp_path / "lines.txt"
    readings = [f"{point} -15" for point in walk()[:12]]
    lines.write_text("\n".join((*ROOM, *readings, f"{walk()[12]} -150", f"{walk()[13]} -14")))
    assert main(["run", str(lines)]) == 1
    lines.write_text("\n".join((*ROOM, *readings, f"{walk()[12]} -150", f"{walk()[12]} -14")))
    assert main(["run", str(lines)]) == 0


def test_a_played_file_says_that_not_all_was_taken(tmp_path: Path) -> None:
    lines = tmp_path / "lines.txt"
    lines.write_text("\n".join((*ROOM, "A1 -15", *["-15"] * 11, "-150", "-14", "-16")))
    assert main(["run", str(lines)]) == 1
    lines.write_text("\n".join((*ROOM, "A1 -15", *["-15"] * 11, "-150")))
    assert main(["run", str(lines)]) == 1


Say = Callable[..., Turn]


@pytest.mark.parametrize("side", ["below", "under", "low"])
def test_the_side_of_a_value_typed_ahead_settles_no_other_reading(
    say: Say, talk: Conversation, side: str
) -> None:
    """Of "12", then "below", the second was once a yes to nine feet."""
    say("A1 -9", "B1 -10")
    assert say("C1 -9 feet").reply.ask
    for line in ("12", side):
        turn = say(line)
        assert turn.recorded == (), line
    assert "C1" not in talk.job.readings
    assert say("confirm").recorded


def test_the_other_side_is_another_value(say: Say, talk: Conversation) -> None:
    say("A1 -9", "B1 -10")
    assert say("C1 +60").reply.ask
    assert say("below").reply.ask
    assert "C1" not in talk.job.readings


@pytest.mark.parametrize(
    "offered", ["minus fiveteen", "levle", "bellow nine", "minus 9?", "skp this one"]
)
def test_nothing_follows_by_the_walk_what_was_only_offered(
    say: Say, talk: Conversation, offered: str
) -> None:
    """Of a file, "-13" after "minus fiveteen" was the point's for which fifteen was meant."""
    talk.ahead.on = True
    assert (say("A1 -9", "-10", offered).reply.ask or "").startswith("Did you mean: ")
    for line in ("-13", "same", "skip this one", "next row"):
        turn = say(line)
        assert not turn.ok, line
        assert turn.reply.headline.startswith(f"Which point is that for? “{offered}” before it")
    assert say("D1 -12").ok
    assert say("-13").recorded
    assert list(talk.job.readings) == ["A1", "B1", "D1", "D2"]


@pytest.mark.parametrize("answer", ["yes", "no"])
def test_who_answers_an_offer_has_seen_it(say: Say, talk: Conversation, answer: str) -> None:
    talk.ahead.on = True
    say("A1 -9", "-10", "minus fiveteen", answer)
    assert say("-13").recorded


@pytest.mark.parametrize("line", ["skip this one", "skip this one because of a pallet", "next row"])
def test_no_point_is_passed_over_while_a_reading_before_it_is_asked_about(
    say: Say, talk: Conversation, line: str
) -> None:
    """In a file it is of the point after; the one asked about was skipped in its place."""
    talk.ahead.on = True
    say("A1 -9", "-10", "18")
    turn = say(line)
    assert (turn.ok, turn.recorded) == (False, ())
    assert turn.reply.headline.startswith("Which point is that for? C1 is still open")
    assert not say("below", "-13").recorded, "what was refused since may have been its point"


def test_who_sees_the_question_may_pass_its_point_over(say: Say) -> None:
    assert say("A1 -9", "-10", "18", "skip this one").recorded


@pytest.mark.parametrize(
    "lines",
    [
        # The points that the values are of were to be others, in another order, or in inches.
        ("grid 1 metre",),
        ("room 6 by 6 metres",),
        ("B2 -9", "row 2 -12 -13 -12 -11"),
        ("grid 3 metrs",),
        ("grid 3",),
        ("along colums",),
        ("readings in inchs",),
        ("column 0.4 by 0.4 at C1",),
        ("colum 0.4 by 0.4 metres at C1",),
        ("sane",),
    ],
)
def test_no_value_goes_by_a_walk_that_was_to_be_another(
    say: Say, talk: Conversation, lines: tuple[str, ...]
) -> None:
    talk.ahead.on = True
    assert not say("A1 -9", "D1 -10", *lines).recorded
    before = dict(talk.job.readings)
    turn = say("-12")
    assert not turn.ok
    assert turn.reply.headline.startswith("Which point is that for?")
    assert talk.job.readings == before
