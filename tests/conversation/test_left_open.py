"""A question that waited when the terminal closed is asked again at the next opening."""

from __future__ import annotations

import io
import json
import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from assistant.__main__ import main
from assistant.conversation.conversation import Conversation
from assistant.conversation.either_or import Choice
from assistant.decide import World
from assistant.record.journal import Journal
from grammar import understand
from tests.signals import heed_endings

FLOOR = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
FIRST = (*FLOOR, "A1 -15", "B1 -16", "C1 -15", "D1 -16", "D2 -15", "C2 -16", "B2 -15")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "floor.leadsman"


@contextmanager
def talk(path: Path, world: World, *lines: str) -> Iterator[Conversation]:
    with Journal.open(path) as journal:
        conversation = Conversation(journal, world)
        for line in lines:
            conversation.hear(line)
        yield conversation


def closed_with(path: Path, world: World, *lines: str) -> str:
    """The question that waited."""
    with talk(path, world, *lines) as conversation:
        assert conversation.pending is not None
        return conversation.pending.text


def said_in(path: Path) -> list[str]:
    with Journal.open(path) as journal:
        return [entry.said for entry in journal.entries()]


# --- taken up ---------------------------------------------------------------------------------


def test_a_doubted_reading_is_asked_about_again_and_recorded_as_it_was_said(
    path: Path, world: World
) -> None:
    asked = closed_with(path, world, *FIRST, "A2 -50")
    with talk(path, world) as conversation:
        assert conversation.rings
        told = conversation.rung()
        assert told is not None
        assert told.headline == "7 of 12 read, next A2, a question waits."
        assert told.details == ("A question was open: A2 -50 mm? Nothing was recorded for A2.",)
        assert told.data["was_open"] == {"question": asked, "said": "A2 -50", "waits": True}
        assert conversation.rung() is None, "it is told once"
        assert not conversation.rings
        turn = conversation.hear("confirm")
        assert turn.recorded == ("reading-taken", "reading-accepted")
        assert conversation.job.readings["A2"].mm == -50
    assert said_in(path)[-1] == "A2 -50\nconfirm"
    with talk(path, world) as conversation:
        assert conversation.pending is None
        assert tells_of_no_question(conversation)


def tells_of_no_question(conversation: Conversation) -> bool:
    told = conversation.rung()
    assert told is not None
    return "question" not in told.headline and not told.details


@pytest.mark.parametrize(
    ("line", "answer", "events"),
    [
        ("A2 15", "below", ("reading-taken",)),
        ("A2 -50", "A2 -15", ("reading-taken",)),
        ("room 9 by 6 metres", "confirm", ("room-measured",)),
    ],
)
def test_questions_of_every_kind(
    path: Path, world: World, line: str, answer: str, events: tuple[str, ...]
) -> None:
    asked = closed_with(path, world, *FIRST, line)
    with talk(path, world) as conversation:
        assert conversation.pending is not None
        assert conversation.pending.text == asked
        assert conversation.hear(answer).recorded[: len(events)] == events
    assert said_in(path)[-1] == f"{line}\n{answer}"


def test_a_question_after_a_question(path: Path, world: World) -> None:
    asked = closed_with(path, world, *FIRST, "A2 50", "below")
    with talk(path, world, "confirm") as conversation:
        assert conversation.job.readings["A2"].mm == -50
    assert asked.startswith("A2 50 mm below?")
    assert said_in(path)[-1] == "A2 50\nbelow\nconfirm"


def test_two_things_that_may_have_been_heard(path: Path, world: World) -> None:
    words = ("alpha two minus fifteen", "alpha two minus fifty")
    with talk(path, world, *FIRST) as conversation:
        choices = [Choice(understand(each)[0], each) for each in words]
        asked = conversation.hear_either(choices, words[0]).reply.ask
    with talk(path, world) as conversation:
        assert conversation.pending is not None
        assert conversation.pending.text == asked
        assert set(conversation.expected) == {"fifteen", "fifty", "one five", "five zero"}
        assert conversation.hear("one five").recorded == ("reading-taken",)
        assert conversation.job.readings["A2"].mm == -15


def test_said_at_once_what_is_said_first_is_answered_first(path: Path, world: World) -> None:
    closed_with(path, world, *FIRST, "A2 -50")
    with talk(path, world) as conversation:
        turn = conversation.hear("D3 -15")
        assert turn.recorded == ("reading-taken",)
        assert turn.reply.details[-1] == (
            "When the job was opened: A question was open: A2 -50 mm? Nothing was recorded for A2."
        )
        assert turn.reply.data["was_open"]["waits"]
        assert conversation.rung() is None


def test_a_bare_value_is_not_taken_for_its_answer(path: Path, world: World) -> None:
    closed_with(path, world, *FIRST, "A2 -50")
    with talk(path, world) as conversation:
        turn = conversation.hear("-15")
        assert not turn.ok
        assert "A2 is still open" in turn.reply.headline


def test_it_is_told_again_as_long_as_nobody_answers(path: Path, world: World) -> None:
    asked = closed_with(path, world, *FIRST, "A2 -50")
    for _ in range(3):
        assert closed_with(path, world, "tally") == asked


# --- settled ------------------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["confirm", "A2 -15", "cancel that", "D3 -15"])
def test_answered_cancelled_or_lapsed_it_is_not_told(path: Path, world: World, line: str) -> None:
    with talk(path, world, *FIRST, "A2 -50", line) as conversation:
        assert conversation.pending is None
    with talk(path, world) as conversation:
        assert conversation.pending is None
        assert tells_of_no_question(conversation)


def test_left_alone_after_nobody_spoke_it_is_not_told(path: Path, world: World) -> None:
    with talk(path, world, *FIRST, "A2 -50") as conversation:
        assert conversation.let_lapse() is not None
    with talk(path, world) as conversation:
        assert conversation.pending is None
        assert tells_of_no_question(conversation)


def test_one_that_would_be_another_now_is_told_but_does_not_wait(path: Path, world: World) -> None:
    closed_with(path, world, *FIRST, "A2 -50")
    with closing(sqlite3.connect(path)) as file:
        file.execute("UPDATE left_open SET question = 'A2 50 mm below? As it was put once.'")
        file.commit()
    with talk(path, world) as conversation:
        assert conversation.pending is None
        told = conversation.rung()
        assert told is not None
        assert told.details == (
            "A question was open: A2 50 mm below? As it was put once. "
            "Nothing was recorded for A2 -50 mm. Say it again.",
        )
        assert not told.data["was_open"]["waits"]
        assert not conversation.hear("confirm").ok


def test_what_makes_no_sense_there_is_left_out(path: Path, world: World) -> None:
    closed_with(path, world, *FIRST, "A2 -50")
    with closing(sqlite3.connect(path)) as file:
        file.execute("UPDATE left_open SET commands = 'nonsense'")
        file.commit()
    with talk(path, world) as conversation:
        assert tells_of_no_question(conversation)
        assert conversation.hear("A2 -15").recorded


def test_a_question_changes_nothing_of_the_record(path: Path, world: World) -> None:
    with talk(path, world, *FIRST):
        pass
    before = said_in(path)
    closed_with(path, world, "A2 -50")
    assert said_in(path) == before


# --- the program --------------------------------------------------------------------------------


Run = Callable[[Path, str], tuple[int, list[dict[str, object]], str]]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Play lines to the end; the code, what was answered and what was printed beside it."""

    def played(path: Path, lines: str) -> tuple[int, list[dict[str, object]], str]:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(lines.encode())))
        code = main(["run", "-", "--json", "--job", str(path)])
        out, err = capsys.readouterr()
        return code, [json.loads(line) for line in out.splitlines()], err

    return played


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs the signal")
@pytest.mark.parametrize("ending", ["SIGKILL", "SIGHUP", "SIGTERM"])
def test_ended_from_outside_the_next_opening_tells(path: Path, ending: str, run: Run) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "assistant", "run", "-", "--json", "--job", str(path)],
        cwd=Path(__file__).parents[2],
        env={**os.environ, "LEADSMAN_HOME": str(path.parent / "home")},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        preexec_fn=heed_endings,
    ) as program:
        assert program.stdin is not None
        assert program.stdout is not None
        asked = None
        for line in (*FIRST, "A2 -50"):
            program.stdin.write(f"{line}\n")
            program.stdin.flush()
            asked = json.loads(program.stdout.readline())["ask"]
        program.send_signal(getattr(signal, ending))
        program.wait(20)
    assert asked
    code, turns, told = run(path, "tally\n")
    assert (code, turns[0]["ask"]) == (0, asked), "the line was taken; the question is an old one"
    assert turns[0]["data"]["was_open"]["question"] == asked  # type: ignore[index]
    assert "left open" in told
    code, turns, _ = run(path, "confirm\ntally\n")
    assert code == 0
    assert turns[0]["recorded"] == ["reading-taken", "reading-accepted"]
    assert "was_open" not in turns[1]["data"]  # type: ignore[operator]
    assert said_in(path)[-1] == "A2 -50\nconfirm"
