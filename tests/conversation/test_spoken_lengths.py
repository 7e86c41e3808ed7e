"""Nobody stands through a long sentence, staff in hand: how long each kind of reply is."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import assistant
from assistant.answers import answer
from assistant.conversation.conversation import Conversation
from assistant.conversation.meanings import weigh_meaning
from assistant.decide import Question, World
from assistant.errors import Refusal, SurveyError
from assistant.job import apply
from assistant.record.journal import Journal
from assistant.reply.speaking_time import PIECE_S, QUESTION_S, REFUSAL_S, speaking_seconds
from grammar import PHRASES, understand

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
READ = tuple(f"{column}{row} -{10 + row} mm" for row in (1, 2) for column in "ABC")
MORE = tuple(f"{column}{row} -{10 + row} mm" for row in (1, 2, 3) for column in "ABCDEF")
JOBS = {
    "new": (),
    "in inches": ("readings in inches",),
    "laid out": FLOOR,
    "half read": (*FLOOR, *READ),
    "walls": ("wall east 4.2 metres",),
    "new set-up": (*FLOOR, *READ, "new set up"),
    "poured": (*FLOOR, *READ, "pour finished"),
    "guided": ("guide",),
}
"""Each refuses other things, for other reasons."""
LINES = [example for phrase in PHRASES for example in phrase.examples]
LINES += ["Z9 -18", "slab humidity 400 percent", "pH 20", "grid 1 mm", "B3 18", "B3 -1.8 metres"]


def talk_of(world: World, lines: tuple[str, ...]) -> Conversation:
    talk = Conversation(Journal.open(None), world)
    for line in lines:
        assert talk.hear(line).ok, line
    return talk


def outcomes(world: World, lines: tuple[str, ...]) -> Iterator[tuple[str, Refusal | Question]]:
    """What the job after some lines refuses of all that can be said, and what it asks."""
    job = talk_of(world, lines).job
    for line in LINES:
        for command in understand(line):
            try:
                asked = weigh_meaning(job, world, command).decision.ask
            except Refusal as refusal:
                yield line, refusal
            else:
                if asked is not None:
                    yield line, asked


@pytest.mark.parametrize("job", JOBS)
def test_refusals_and_questions_are_short(world: World, job: str) -> None:
    refused = asked = 0
    for line, found in outcomes(world, JOBS[job]):
        most = REFUSAL_S if isinstance(found, Refusal) else QUESTION_S
        assert speaking_seconds(found.spoken) <= most, (line, found.spoken)
        refused += isinstance(found, Refusal)
        asked += isinstance(found, Question)
    assert refused > 5
    assert asked > 1


@pytest.mark.parametrize("line", ["qwx", "room 12 by 8", "B3 -18 zig zag", "18 degrees at B3"])
def test_what_is_not_understood_is_said_shortly(world: World, line: str) -> None:
    reply = talk_of(world, ()).hear(line).reply
    assert speaking_seconds(reply.say) <= REFUSAL_S
    assert reply.say != reply.headline


def refusals() -> Iterator[tuple[str, ast.Call]]:
    for path in sorted(Path(assistant.__file__).parent.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "Refusal":
                yield f"{path.name}:{node.lineno}", node


def test_every_refusal_has_few_words_to_say() -> None:
    """Also those that no job above brings about."""
    found = 0
    for where, call in refusals():
        found += 1
        spoken = next((each.value for each in call.keywords if each.arg == "spoken"), None)
        words = spoken if spoken is not None else call.args[0]
        said = [part.value for part in ast.walk(words) if isinstance(part, ast.Constant)]
        assert spoken is not None or len(call.args) == len(said) == 1, where
        # One way of several, where it depends.
        ways = [words.body, words.orelse] if isinstance(words, ast.IfExp) else [words]
        for way in ways:
            parts = [part.value for part in ast.walk(way) if isinstance(part, ast.Constant)]
            told = " ".join(part for part in parts if isinstance(part, str))
            assert speaking_seconds(told) <= REFUSAL_S, (where, told)
    assert found > 60


@pytest.mark.parametrize("line", ["B2 -184 mm", "B2 -4 1/2 in", "C2 -50", "A2 plus 123.5"])
def test_a_question_about_a_reading_takes_no_more_than_five(world: World, line: str) -> None:
    talk = talk_of(world, (*FLOOR, *MORE))
    assert talk.hear(line).recorded == ()
    assert talk.pending is not None
    assert speaking_seconds(talk.pending.spoken) <= QUESTION_S, talk.pending.spoken
    assert talk.pending.spoken.split(",")[0] in ("Bravo two", "Charlie two", "Alfa two")
    assert "onfirm" in talk.pending.spoken


@pytest.mark.parametrize("job", ["new", "half read", "in inches", "poured", "guided"])
def test_no_answer_takes_more_than_fifteen_seconds(world: World, job: str) -> None:
    """Of all that can be said, whether it is asked or changes the job."""
    before, told = talk_of(world, JOBS[job]).job, 0
    for line in LINES:
        for command in understand(line)[:1]:
            try:
                meaning = weigh_meaning(before, world, command, confirmed=True)
            except (Refusal, SurveyError):
                continue
            events = meaning.decision.events
            if meaning.reply is None and not events:
                continue  # something of it is asked first
            after = apply(before, *events, time=world.now) if events else before
            reply = meaning.reply or answer(before, after, meaning.command, events, world)
            if not reply.at_length:
                told += 1
                assert speaking_seconds(reply.say) <= PIECE_S, (line, reply.say)
    assert told > 40
