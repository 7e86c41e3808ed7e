"""No reply says a thing twice, or in more words than are needed."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from assistant.command_line.played_clock import PlayedClock
from assistant.command_line.playing import play
from assistant.conversation.conversation import Conversation
from assistant.conversation.lines import lines_of
from assistant.decide import World
from assistant.guide.steps import steps
from assistant.limits.cautions import CAUTIONS, cautions_at
from assistant.listening.spoken_reply import spoken_reply
from assistant.record.journal import Journal
from assistant.record.memory import Memory
from assistant.reply.manner import Manner
from assistant.reply.replies import Turn
from assistant.reply.speaking_time import PIECE_S, QUESTION_S, REFUSAL_S, speaking_seconds
from assistant.terminal.around_the_line import question_before
from assistant.terminal.opening import Opening
from assistant.terminal.output import PlainOutput
from assistant.terminal.prompt import how_to_type
from assistant.terminal.screen import Screen, reply_lines
from grammar import PHRASES

DEMO = Path(__file__).parents[2] / "demo"
MORNING = datetime(2026, 5, 4, 8, 0, tzinfo=UTC)
FLOOR = ("room 12 by 8 metres", "grid 2 metres")


class Day:
    """A conversation, at a time that passes only when the test moves it."""

    def __init__(self, world: World, memory: Memory | None = None) -> None:
        self.now = MORNING
        self.talk = Conversation(
            Journal.open(None), world, clock=lambda: self.now, memory=memory or Memory()
        )

    def say(self, *lines: str) -> Turn:
        """The turn of the last."""
        for line in lines:
            turn = self.talk.hear(line)
        return turn


@pytest.fixture
def day(world: World) -> Day:
    return Day(world)


# --- played days --------------------------------------------------------------------------


def spoken_turns(world: World, name: str) -> Iterator[tuple[Turn, str]]:
    """Every turn of a played day, with what a voice says of it."""
    clock = PlayedClock(MORNING.date(), lambda: MORNING)
    talk = Conversation(Journal.open(None), world, clock=clock)
    found: list[tuple[Turn, str]] = []

    class Heard:
        def hear(self, text: str) -> Turn:
            before = talk.job
            turn = talk.hear(text)
            found.append((turn, spoken_reply(turn, before, talk.job, talk.pending)))
            return turn

    with (DEMO / name).open("rb") as stream:
        play(lines_of(stream), Heard(), lambda _line, _turn: None, clock=clock)
    yield from found


@pytest.mark.parametrize("name", ["boat_shed.txt", "apprentice_morning.txt"])
def test_a_played_day_is_said_shortly(world: World, name: str) -> None:
    kinds: dict[str, int] = {}
    for turn, spoken in spoken_turns(world, name):
        if not turn.ok:
            kind, most = "refusal", REFUSAL_S + (QUESTION_S if turn.reply.ask else 0)
        elif turn.reply.ask is not None and not turn.recorded:
            kind, most = "question", QUESTION_S + (PIECE_S if turn.reply.ask not in spoken else 0)
        else:
            kind, most = "answer", PIECE_S + (QUESTION_S if turn.reply.ask else 0)
        kinds[kind] = kinds.get(kind, 0) + 1
        assert speaking_seconds(spoken) <= most, (turn.text, spoken)
    assert kinds["answer"] > 20
    assert kinds["refusal"] > 0


# --- a STOP --------------------------------------------------------------------------------


STOPS = [
    ((), "A1 plus 4"),
    (("A1 -9", "B1 -10"), "C1 plus 4"),
    (("A1 -9", "B1 -10", "C1 -12"), "C1 plus 4"),
    (("A1 -9", "B1 -10", "C1 -12", "new set up", "tie on B1 minus 10"), "C1 plus 4"),
    (("A1 -9", "B1 -10"), "C1 -95"),
    (("A1 -9", "B1 -10", "C1 -12"), "C1 -95"),
    (("A1 -9", "B1 -10"), "C1 -1"),
    (("instrument range 50 millimetres", "A1 -9", "B1 -10"), "C1 -95"),
    (("readings in inches", "A1 -3/8", "B1 -1/2", "C1 -5/8"), "C1 -3 11/16"),
    (("readings in inches", "A1 -3/8", "B1 -1/2", "C1 -5/8"), "C1 plus 3/16"),
]


@pytest.mark.parametrize(("before", "line"), STOPS)
def test_a_reading_that_stops_the_work_is_eight_lines_at_sixty_columns(
    day: Day, before: tuple[str, ...], line: str
) -> None:
    day.say(*FLOOR, "product example standard", *before)
    turn = day.say(line)
    if turn.reply.ask is not None:
        turn = day.say("confirm")
    assert turn.recorded
    assert turn.reply.stops
    shown = [str(each) for each in reply_lines(turn.reply, 60)]
    assert len(shown) <= 8, "\n".join(shown)
    assert any(each.startswith("STOP") for each in shown)
    assert turn.reply.say.count("Stop: ") == 1


def test_a_stop_is_said_in_full_however_short_replies_are(day: Day) -> None:
    day.say(*FLOOR, "product example standard", "A1 -9", "shorter")
    assert day.say("B1 plus 4").reply.say == (
        "Bravo one, four millimetres above. Stop: high spot. Grind it, or raise the finish."
    )


# --- cautions -----------------------------------------------------------------------------


def full(turn: Turn) -> set[str]:
    return {caution.id for caution in turn.reply.cautions}


def on_screen(turn: Turn) -> str:
    return " ".join(" ".join(str(line).split()) for line in reply_lines(turn.reply, 60))


def recalled(turn: Turn) -> set[str]:
    return {caution.id for caution in turn.reply.reminders}


def test_no_caution_is_given_in_full_twice_a_day(day: Day) -> None:
    mixing = {caution.id for caution in cautions_at("mix")}
    assert full(day.say("product example standard")) == mixing
    again = day.say("warnings")
    assert not full(again)
    assert recalled(again) == mixing
    shown = on_screen(again)
    assert "Wet cement burns" in shown
    assert "OSHA guidance" not in shown
    day.now += timedelta(days=1)
    assert full(day.say("warnings")) == mixing


def test_asked_for_they_are_all_given(day: Day) -> None:
    day.say("product example standard", "warnings")
    turn = day.say("cautions")
    assert full(turn) == set(CAUTIONS)
    assert not recalled(turn)
    said = [turn.reply.say]
    while turn.reply.rest:
        turn = day.say("more")
        said.append(turn.reply.say)
    assert all(speaking_seconds(piece) <= PIECE_S for piece in said), said
    assert all(line in " ".join(said) for each in cautions_at("mix") for line in each.sentences[1:])


def test_something_else_said_ends_what_is_left_of_it(day: Day) -> None:
    day.say("cautions", "tally")
    assert "The guide is not on" in day.say("more").reply.headline


def test_what_was_given_is_known_at_the_next_opening_of_the_job(
    world: World, tmp_path: Path
) -> None:
    kept = tmp_path / "data" / "remembered.json"
    Day(world, Memory(kept, "one")).say("product example standard")
    assert recalled(Day(world, Memory(kept, "one")).say("product example standard"))
    assert full(Day(world, Memory(kept, "another")).say("product example standard"))


def test_where_a_high_spot_is_read_they_are_recalled_and_stay_to_be_given(day: Day) -> None:
    turn = day.say(*FLOOR, "A1 plus 4")
    shown = on_screen(turn)
    assert "Old adhesive may hold asbestos" in shown
    assert "licensed people" not in shown
    assert "old-adhesive" in full(day.say("warnings"))


# --- how it is said -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "manner"),
    [
        (("shorter",), Manner(length="short")),
        (("longer", "longer", "shorter"), Manner()),
        (("faster", "faster"), Manner(speed=1.322)),
        (("slower",), Manner(speed=0.87)),
        (("louder",), Manner(loudness=1.4)),
        (("softer",), Manner(loudness=0.714)),
        (("quiet",), Manner(quiet=True)),
        (("be quiet", "speak"), Manner()),
        (("louder",) * 30, Manner(loudness=4.0)),
        (("slower",) * 30, Manner(speed=0.5)),
    ],
)
def test_how_replies_are_said_is_kept(
    world: World, tmp_path: Path, words: tuple[str, ...], manner: Manner
) -> None:
    kept = tmp_path / "remembered.json"
    turn = Day(world, Memory(kept)).say(*words)
    assert turn.ok
    assert turn.recorded == ()
    again = Day(world, Memory(kept)).talk
    assert again.manner == manner
    assert not again.job.history


@pytest.mark.parametrize(
    "content",
    ["", "[]", "{", '{"manner": 3}', '{"manner": {"speed": 99, "length": "endless"}}', "\udcff"],
)
def test_a_memory_that_makes_no_sense_is_forgotten(tmp_path: Path, content: str) -> None:
    kept = tmp_path / "remembered.json"
    kept.write_bytes(content.encode("utf-8", "surrogateescape"))
    assert Memory(kept).manner == Manner()


def test_where_it_cannot_be_kept_it_is_so_for_this_time(world: World, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    day = Day(world, Memory(tmp_path / "file" / "remembered.json"))
    assert "could not be kept" in day.say("shorter").reply.details[0]
    assert day.talk.manner.length == "short"


def test_shorter_and_longer(day: Day) -> None:
    day.say(*FLOOR, "product example standard", "A1 -9", "B1 -10", "C1 -12")
    usual = day.say("tally").reply.say
    short = day.say("shorter", "tally").reply.say
    long = day.say("longer", "longer", "tally").reply.say
    assert len(short) < len(usual) < len(long)
    assert usual.startswith(short)
    assert long.startswith(usual)


def test_a_long_answer_says_its_cautions_in_full_once(day: Day) -> None:
    def all_said() -> str:
        said = [day.say("more").reply.say]
        while said[-1].endswith("Say more for the rest."):
            said.append(day.say("more").reply.say)
        assert all(speaking_seconds(piece) <= PIECE_S for piece in said)
        return " ".join(said)

    day.say("guide")
    asbestos = CAUTIONS["old-adhesive"].sentences[0]
    assert asbestos in all_said()
    again = all_said()
    assert asbestos not in again
    assert "Old adhesive may hold asbestos: test before grinding." in again


def test_every_step_of_the_guide_is_told_in_pieces(day: Day) -> None:
    day.say("guide")
    for _ in steps():
        turn = day.say("more")
        assert speaking_seconds(turn.reply.say) <= PIECE_S, turn.reply.say
        while turn.reply.rest:
            turn = day.say("more")
            assert speaking_seconds(turn.reply.say) <= PIECE_S, turn.reply.say
        day.say("skip step told to")


# --- questions --------------------------------------------------------------------------------


def test_a_question_is_shown_once(world: World) -> None:
    talk = Conversation(Journal.open(None), world)
    file = io.StringIO()
    screen = Screen(PlainOutput(file, 70))
    for line in (*FLOOR, "A1 -9", "A2 18", "qwx", "zzz"):
        screen.show(talk.hear(line))
    assert file.getvalue().count("below or above?") == 1
    assert talk.pending is not None
    assert question_before(Opened(talk), 60, screen.asked) == "A2? "
    screen.show(talk.hear("say again"))
    assert file.getvalue().count("below or above?") == 2, "asked for, it is shown again"


def test_a_question_stands_at_the_prompt_once(world: World) -> None:
    talk = Conversation(Journal.open(None), world)
    file = io.StringIO()
    screen = Screen(PlainOutput(file, 60))
    prompts = []
    for line in (*FLOOR, "A2 18", "qwx", "readings", "say again", "qwx", "below"):
        screen.show(talk.hear(line), ask=False)
        prompts.append(question_before(Opened(talk), 60, screen.asked))
    whole = "A2, 18 mm: below or above? "
    assert prompts[-6:] == [whole, "A2? ", "A2? ", whole, "A2? ", ""]
    assert "below or above?" not in file.getvalue()


class Opened(Opening):
    def __init__(self, talk: Conversation) -> None:
        super().__init__(lambda: talk, lambda: None)
        self.conversation  # noqa: B018 - opened now


# --- at the prompt, and in played lines --------------------------------------------------------


def played(world: World, *lines: str) -> tuple[list[Turn], list[str], bool]:
    turns: list[Turn] = []
    left: list[str] = []
    talk = Conversation(Journal.open(None), world)
    ok = play(lines, talk, lambda _line, turn: turns.append(turn), left=left.append)
    return turns, left, ok


@pytest.mark.parametrize("word", ["quit", "exit", "Exit"])
def test_played_lines_end_where_somebody_leaves(world: World, word: str) -> None:
    turns, left, ok = played(world, *FLOOR, word, "A1 -9")
    assert [turn.text for turn in turns] == list(FLOOR)
    assert left == ["left at line 3; nothing after it is heard."]
    assert ok


def test_help_in_one_key(world: World) -> None:
    turns, _, ok = played(world, "?", "help", "? doors", "help doors", "help qwx")
    assert not ok
    assert [turn.ok for turn in turns] == [True] * 4 + [False]
    assert turns[0].reply == turns[1].reply
    assert turns[2].reply == turns[3].reply
    assert {table.title for table in turns[3].reply.tables} >= {"Doors"}
    assert len(turns[3].reply.tables) < len(turns[0].reply.tables)
    assert "Topics: " in turns[4].reply.headline


def test_every_topic_can_be_asked_for(day: Day) -> None:
    for topic in {phrase.topic for phrase in PHRASES}:
        for name in (topic, topic.removeprefix("the ")):
            assert day.say(f"help {name}").ok, name


# --- opening a job -----------------------------------------------------------------------------


@contextmanager
def opened(world: World, tmp_path: Path, *lines: str) -> Iterator[Conversation]:
    """A job after some lines, closed and opened again."""
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        talk = Conversation(journal, world)
        for line in lines:
            talk.hear(line)
    with Journal.open(path) as journal:
        yield Conversation(journal, world)


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (FLOOR, "0 of 24 read, next A1."),
        ((*FLOOR, "A1 -9", "B1 -10"), "2 of 24 read, next C1."),
        ((*FLOOR, "A1 -9", "finish 6 mm above zero"), "1 of 24 read, next B1, finish 6 mm above."),
        ((*FLOOR, "A1 -9", "new set up"), "1 of 24 read, next B1, set-up 2."),
        ((*FLOOR, "A1 -9", "B1 18"), "1 of 24 read, next B1, a question waits."),
        (("guide",), "Step 1 of the guide."),
    ],
)
def test_opening_a_job_says_where_it_stands(
    world: World, tmp_path: Path, lines: tuple[str, ...], told: str
) -> None:
    with opened(world, tmp_path, *lines) as talk:
        reply = talk.rung()
    assert reply is not None
    assert reply.headline == told
    assert speaking_seconds(reply.say) <= PIECE_S


def test_it_is_said_once_and_not_after_something_was_said(world: World, tmp_path: Path) -> None:
    with opened(world, tmp_path, *FLOOR) as talk:
        assert talk.rings
        assert talk.rung() is not None
        assert talk.rung() is None
    talk = Conversation(Journal.open(None), world)
    assert talk.rung() is None, "nothing is on record of a new job"
    talk.hear("room 12 by 8 metres")
    assert talk.rung() is None


def test_whoever_speaks_first_is_not_told_where_the_job_stands(
    world: World, tmp_path: Path
) -> None:
    with opened(world, tmp_path, *FLOOR) as talk:
        talk.hear("A1 -9")
        assert not talk.rings
        assert talk.rung() is None


@pytest.mark.parametrize("plain", [True, False])
def test_the_opening_names_a_screen_reader_s_way_in(plain: bool) -> None:
    told = " ".join(how_to_type(plain=plain))
    assert ("leadsman --plain" in told) is not plain
    assert "“?”" in told
