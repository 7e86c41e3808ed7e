"""Talk while a line is read: values past a question, put right, and after a restart."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.job import being_read
from assistant.record.journal import Journal
from assistant.reply.replies import Turn

LINE = "line 1 from A1 to D1 every 300 millimetres"


def on_line(talk: Conversation) -> list[float]:
    return [float(height.mm) for height in being_read(talk.job).proof.lines[1].values]


def test_values_typed_past_a_question_slide_nowhere(
    talk: Conversation, say: Callable[..., Turn]
) -> None:
    say("pour finished", LINE, "0", "-1")
    assert "jumps" in say("-20").reply.headline
    for typed_ahead in ("-1", "0", "-1, -2", "level", "+1"):
        turn = say(typed_ahead)
        assert not turn.ok, typed_ahead
        assert "still asked about" in turn.reply.headline
    assert on_line(talk) == [0, -1]
    assert not being_read(talk.job).readings
    say("line 1 values -2 -1")  # said anew, it takes the place of what was asked about
    assert on_line(talk) == [0, -1, -2, -1]


def test_a_missing_side_is_answered_and_no_value_taken_for_the_answer(
    talk: Conversation, say: Callable[..., Turn]
) -> None:
    say("pour finished", LINE, "0")
    assert say("2").reply.headline == "Line 1 point 2, 2 mm: below or above?"
    assert not say("-2").ok
    say("below")
    assert on_line(talk) == [0, -2]
    assert not say("0, 1, -1").ok  # of several with one side missing none is taken
    assert on_line(talk) == [0, -2]


def test_the_last_value_is_put_right_as_a_reading_is(
    talk: Conversation, say: Callable[..., Turn]
) -> None:
    say("pour finished", LINE, "0, -1, -1")
    turn = say("no, minus 3")
    assert turn.reply.headline == "Line 1 point 3 3 mm below."
    assert on_line(talk) == [0, -1, -3]


def test_confirm_takes_what_was_asked_about_and_cancel_leaves_it(
    talk: Conversation, say: Callable[..., Turn]
) -> None:
    say("pour finished", LINE, "0", "-15", "cancel that")
    assert on_line(talk) == [0]
    say("-15", "confirm")
    assert on_line(talk) == [0, -15]


def test_a_line_goes_on_after_a_restart_and_in_a_copy_of_its_file(
    world: World, tmp_path: Path
) -> None:
    path = tmp_path / "loft.leadsman"
    with Journal.open(path) as journal:
        talk = Conversation(journal, world)
        for line in ("room 8 by 6 metres", "grid 2 metres", "A1 -18", "pour finished", LINE,
                     "0 -1", "-20"):  # fmt: skip
            talk.hear(line)
    copy = tmp_path / "copy.leadsman"
    copy.write_bytes(path.read_bytes())
    for where in (path, copy):
        with Journal.open(where) as journal:
            again = Conversation(journal, world)
            # The question left open still waits, and nothing of it is recorded.
            assert again.pending is not None
            assert on_line(again) == [0, -1]
            again.hear("confirm")
            assert again.hear("-20").ok
            assert on_line(again) == [0, -1, -20, -20]
            assert again.hear("undo 2").ok
            assert on_line(again) == [0, -1]


def test_more_values_than_a_line_of_words_takes_are_refused_with_what_to_do(
    talk: Conversation, say: Callable[..., Turn]
) -> None:
    say("pour finished", LINE)
    for long in (" ".join(["-1"] * 34), ", ".join(["0"] * 21)):
        turn = say(long)
        assert not turn.ok
        assert "20" in turn.reply.headline, turn.reply.headline
    assert on_line(talk) == []
    say(", ".join(["-1"] * 20))
    assert len(on_line(talk)) == 20


def test_a_value_that_nobody_could_read_ends_the_line_there(
    talk: Conversation, say: Callable[..., Turn]
) -> None:
    say("pour finished", LINE, "0, -1")
    for said in ("-1, skip, 0", "skip -1", "-1 missing", "values 0, blank, -1", "0 nan"):
        turn = say(said)
        assert not turn.ok, said
        assert "end line before what is in the way" in turn.reply.headline, said
    assert on_line(talk) == [0, -1]
    # Typed ahead, what comes after it is of no place until that is said.
    talk.ahead.on = True
    say("-1, skip, 0")
    for value in ("-1", "0, -2"):
        turn = say(value)
        assert not turn.ok
        assert turn.reply.headline.startswith("Where on line 1 is that? “-1, skip, 0” before it")
    assert on_line(talk) == [0, -1]
    say("line 1 values -2", "-1")
    assert on_line(talk) == [0, -1, -2, -1]


def test_a_reading_said_of_the_slab_is_none_of_the_finished_floor(
    talk: Conversation, say: Callable[..., Turn]
) -> None:
    """Offered without “on the slab”, a yes would have put it into the other survey."""
    lines = ("A1 -18 on the slab", "correct A1 of slab to -7", "slab A1 -18", "strike A1 on slab")
    assert "poured over" not in say(lines[0]).reply.headline  # while there is only the slab
    say("no", "A1 -18", "pour finished", "A1 level")
    for line in (*lines, "correct the slab at A1 to -7"):
        turn = say(line)
        assert turn.reply.headline.startswith("The slab is poured over"), line
        assert (turn.recorded, turn.reply.ask) == ((), None), line
    assert being_read(talk.job).readings["A1"].mm == 0
    assert talk.job.readings["A1"].mm == -18
    for line in ("what was A1 on the slab", "readings of slab", "how deep at A1"):
        assert "poured over" not in say(line).reply.headline, line
