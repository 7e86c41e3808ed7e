"""The prompt, with a pipe for a keyboard."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from prompt_toolkit.completion import CompleteEvent
from prompt_toolkit.document import Document
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput

from assistant.conversation.conversation import Conversation
from assistant.errors import JournalError
from assistant.record.places import Folders
from assistant.reply.replies import Turn
from assistant.terminal.around_the_line import Toolbar, completer_of, question_before
from assistant.terminal.opening import Opening
from assistant.terminal.output import PlainOutput
from assistant.terminal.prompt import edited_lines, plain_lines
from assistant.terminal.screen import Screen
from assistant.terminal.talking import talk

Chat = Callable[[str], str]
CTRL_C, CTRL_D, UP, ENTER = "\x03", "\x04", "\x1b[A", "\r"


@pytest.fixture
def keyboard() -> Iterator[PipeInput]:
    with create_pipe_input() as pipe:
        yield pipe


@pytest.fixture
def opening(talk: Conversation) -> Opening:
    return Opening(lambda: talk, lambda: None)


@pytest.fixture
def folders(tmp_path: Path) -> Folders:
    return Folders(tmp_path / "data")


@pytest.fixture
def chat(keyboard: PipeInput, opening: Opening, folders: Folders) -> Chat:
    """Type some keys; the screen, and the lines in the job."""

    def typed(keys: str) -> str:
        keyboard.send_text(keys)
        file = io.StringIO()
        lines = edited_lines(opening, folders, keyboard, DummyOutput())
        talk(lines, opening, Screen(PlainOutput(file, 60)))
        return file.getvalue()

    return typed


def test_a_typed_dialogue(chat: Chat) -> None:
    assert chat(
        f"B3 18{ENTER}below{ENTER}correct B3 to minus 16{ENTER}take that back{ENTER}{CTRL_D}"
    ) == (
        "B3 18 mm below. Depth 18 mm.\n"
        "  Next: C3.\n"
        "NOTE     11 points are not read yet: A1, B1, C1, D1 and\n"
        "         more. Read them before you order; till then the\n"
        "         numbers bridge the gaps.\n"
        "         (every point of the grid has a reading)\n"
        "\n"
        "B3 16 mm below. Depth 16 mm.\n"
        "  Replaces 18 mm below; both stay in the record.\n"
        "\n"
        "Undone: correct B3 to minus 16.\n"
        "  B3 is 18 mm below again.\n"
        "  Redo brings it back.\n"
        "\n"
    )


def test_ctrl_c_drops_the_line_and_ctrl_d_ends(chat: Chat, opening: Opening) -> None:
    chat(f"B3 -18{ENTER}C3 -4{CTRL_C}D3 -5{ENTER}{CTRL_D}")
    assert set(opening.conversation.job.readings) == {"B3", "D3"}


def test_ctrl_c_as_the_line_was_sent_loses_nothing(
    chat: Chat, opening: Opening, monkeypatch: pytest.MonkeyPatch
) -> None:
    from prompt_toolkit.buffer import Buffer

    handle = Buffer.validate_and_handle

    def interrupted(buffer: Buffer) -> None:
        handle(buffer)
        if buffer.document.text == "" and not opening.conversation.job.readings:
            raise KeyboardInterrupt

    monkeypatch.setattr(Buffer, "validate_and_handle", interrupted)
    chat(f"B3 -18{ENTER}{CTRL_D}")
    assert set(opening.conversation.job.readings) == {"B3"}


@pytest.mark.parametrize("stop", ["before", "after", "shown"])
def test_ctrl_c_in_a_paste_loses_no_line_untold(
    opening: Opening, monkeypatch: pytest.MonkeyPatch, stop: str
) -> None:
    """Stopped at C4 before it is recorded, after it was, or while its answer is shown."""
    hear, file = opening.conversation.hear, io.StringIO()
    screen = Screen(PlainOutput(file, 60))
    show = screen.show

    def interrupted(text: str) -> object:
        if text == "C3 -12" and stop == "before":
            raise KeyboardInterrupt
        turn = hear(text)
        if text == "C3 -12" and stop == "after":
            raise KeyboardInterrupt
        return turn

    def cut_short(turn: Turn, *, ask: bool = True) -> None:
        if turn.text == "C3 -12" and stop == "shown":
            raise KeyboardInterrupt
        show(turn, ask=ask)

    monkeypatch.setattr(opening.conversation, "hear", interrupted)
    monkeypatch.setattr(screen, "show", cut_short)
    talk(["B3 -18\nC3 -12\nD3 -9\n\nA2 -4", "B2 -7"], opening, screen)
    told = " ".join(file.getvalue().split())
    assert ("Stopped. Nothing was recorded of “C3 -12”." in told) == (stop == "before")
    assert ("Stopped. “C3 -12” is on record." in told) == (stop != "before")
    assert "Not heard, nothing recorded: the 2 lines after it, “D3 -9” to “A2 -4”." in told
    read = {"B3", "B2"} | (set() if stop == "before" else {"C3"})
    assert set(opening.conversation.job.readings) == read


def test_a_question_in_a_paste_is_told_and_the_last_stands_at_the_prompt(
    chat: Chat, opening: Opening
) -> None:
    told = chat(f"\x1b[200~B3 18\nC3 12\n\x1b[201~{ENTER}{CTRL_D}")
    assert told.count("below or above?") == 1
    assert told.startswith("B3, 18 mm: below or above?\n\n")
    assert question_before(opening, 60) == "C3, 12 mm: below or above? "


@pytest.mark.parametrize("word", ["quit", "Exit", " bye "])
def test_who_does_not_know_ctrl_d(chat: Chat, opening: Opening, word: str) -> None:
    chat(f"{word}{ENTER}B3 -18{ENTER}{CTRL_D}")
    assert opening.conversation.job.readings == {}


def test_each_line_of_what_is_pasted_is_an_utterance(chat: Chat, opening: Opening) -> None:
    chat(f"\x1b[200~B3 -18\n# the post\r\nC3 -4\n\x1b[201~{ENTER}{CTRL_D}")
    assert {p: int(r.mm) for p, r in opening.conversation.job.readings.items()} == {
        "B3": -18,
        "C3": -4,
    }


def test_lines_typed_before_come_back(chat: Chat, folders: Folders) -> None:
    chat(f"B3 -18{ENTER}{CTRL_D}")
    assert "+B3 -18" in folders.history.read_text()


def test_history_of_an_earlier_day(keyboard: PipeInput, opening: Opening, folders: Folders) -> None:
    folders.data.mkdir()
    folders.history.write_text("\n# 2026-11-24\n+C3 -4\n")
    keyboard.send_text(f"{UP}{ENTER}{CTRL_D}")
    assert list(edited_lines(opening, folders, keyboard, DummyOutput())) == ["C3 -4"]


def test_a_folder_that_cannot_be_written_only_loses_history(
    keyboard: PipeInput, opening: Opening, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way")
    keyboard.send_text(f"B3 -18{ENTER}{CTRL_D}")
    lines = edited_lines(opening, Folders(tmp_path / "file" / "data"), keyboard, DummyOutput())
    assert list(lines) == ["B3 -18"]


def test_stopped_in_the_middle_of_an_answer_the_talk_goes_on(
    opening: Opening, monkeypatch: pytest.MonkeyPatch
) -> None:
    hear = opening.conversation.hear

    def interrupted(text: str) -> object:
        if text == "tally":
            raise KeyboardInterrupt
        return hear(text)

    monkeypatch.setattr(opening.conversation, "hear", interrupted)
    file = io.StringIO()
    talk(["tally", "B3 -18"], opening, Screen(PlainOutput(file, 60)))
    assert "Stopped." in file.getvalue()
    assert set(opening.conversation.job.readings) == {"B3"}


def test_a_damaged_job_ends_the_prompt(keyboard: PipeInput, folders: Folders) -> None:
    def damaged() -> Conversation:
        raise JournalError("the job file is damaged")

    keyboard.send_text(f"B3 -18{ENTER}")
    opening = Opening(damaged, lambda: None)
    with pytest.raises(JournalError):
        talk(
            edited_lines(opening, folders, keyboard, DummyOutput()),
            opening,
            Screen(PlainOutput(io.StringIO())),
        )


# --- round the line ---------------------------------------------------------------


def test_the_question_stands_before_the_line(opening: Opening) -> None:
    assert question_before(opening, 60) == ""
    opening.conversation.hear("B3 18")
    assert question_before(opening, 60) == "B3, 18 mm: below or above? "
    assert question_before(opening, 40) == "B3, 18 mm: below or above?\n"


def test_a_question_wider_than_the_line_is_all_there(opening: Opening) -> None:
    opening.conversation.hear("B3 -1800")
    lines = question_before(opening, 40).splitlines()
    assert lines[0] == "B3 1800 mm below? A floor to be poured"
    assert max(map(len, lines)) <= 40
    assert " ".join(lines).endswith("Confirm, or read it again and say the whole line.")


def test_the_toolbar_has_the_tally_and_what_may_come_next(opening: Opening) -> None:
    toolbar = Toolbar(opening)
    assert toolbar.text("", 60) == " opening the job …"
    for line in ("product example standard", "A1 -18", "B1 -9"):
        opening.conversation.hear(line)
    assert toolbar.text("", 60).startswith(" 2/12 points  mean 13.5 mm  9 to 18 mm")
    tally, following = toolbar.text("B3 minus 18 ", 60).splitlines()
    assert "2/12 points" in tally
    assert following.startswith(" next: ")
    assert "a unit: mm" in following
    assert max(len(line) for line in toolbar.text("what if ", 60).splitlines()) <= 60


def test_completion_comes_from_the_grammar(opening: Opening) -> None:
    completer = completer_of(opening)
    typing, asked = CompleteEvent(text_inserted=True), CompleteEvent(completion_requested=True)

    def words(before: str, event: CompleteEvent = typing) -> list[str]:
        return [c.text for c in completer.get_completions(Document(before), event)]

    assert words("scr") == []
    assert opening.conversation.pending is None  # opened now
    assert words("strik") == ["strike"]
    assert words("undo th") == ["that"]
    assert words("") == []
    assert "tally" in words("", asked)
    assert words("B3 -18 " * 100) == []


def test_an_opening_waits_for_what_is_fetched(talk: Conversation) -> None:
    order: list[str] = []

    def converse() -> Conversation:
        order.append("opened")
        return talk

    opening = Opening(converse, lambda: order.append("fetched"))
    opening.start()
    opening.start()
    assert opening.conversation is talk
    assert opening.conversation is talk
    assert order == ["fetched", "opened"]


def test_a_plain_terminal(opening: Opening, monkeypatch: pytest.MonkeyPatch) -> None:
    shown: list[str] = []
    typed: Iterator[str | BaseException] = iter(["B3 18", KeyboardInterrupt(), "below", EOFError()])

    def typing(before: str) -> str:
        shown.append(before)
        line = next(typed)
        if isinstance(line, BaseException):
            raise line
        return line

    monkeypatch.setattr("builtins.input", typing)
    talk(plain_lines(opening), opening, Screen(PlainOutput(io.StringIO())))
    assert shown == ["> ", *["B3, 18 mm: below or above? > "] * 2, "> "]
    assert set(opening.conversation.job.readings) == {"B3"}


def asked_for_lines(monkeypatch: pytest.MonkeyPatch, *lines: str) -> list[str]:
    """Types lines where they are asked for, then ends; what is shown before each comes here."""
    shown: list[str] = []
    typed = iter(lines)

    def asked(before: str) -> str:
        shown.append(before)
        line = next(typed, None)
        if line is None:
            raise EOFError
        return line

    monkeypatch.setattr("builtins.input", asked)
    return shown


@pytest.mark.parametrize("columns", [40, 60, 80])
def test_a_question_on_a_plain_terminal_is_no_wider_than_it(
    opening: Opening, monkeypatch: pytest.MonkeyPatch, columns: int
) -> None:
    """Wider, the terminal would break it within words."""
    monkeypatch.setenv("COLUMNS", str(columns))
    shown = asked_for_lines(monkeypatch, "A1 -8", "B1 -9", "C1 -95")
    talk(plain_lines(opening), opening, Screen(PlainOutput(io.StringIO())))
    assert shown[-1].startswith("C1 95 mm below?")
    assert max(map(len, shown[-1].splitlines())) <= columns


@pytest.mark.skipif(sys.platform == "win32", reason="has no such terminals")
def test_what_is_pasted_into_a_plain_terminal_is_sent_at_once(
    opening: Opening, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of lines that come singly, a reading refused in their midst would let the others slide."""
    keyboard, terminal = os.openpty()
    monkeypatch.setattr("sys.stdin", os.fdopen(terminal, encoding="utf-8"))
    os.write(keyboard, b"A1 -8\n-9\n-16l\n-17\n")
    lines = plain_lines(opening)
    assert next(lines) == "A1 -8\n-9\n-16l\n-17"
    os.write(keyboard, b"C1 -9\n")
    assert next(lines) == "C1 -9"
    os.write(keyboard, b"D1 -9\n\x04")
    assert next(lines) == "D1 -9"
    assert next(lines, None) is None
    sys.stdin.close()
    os.close(keyboard)


def test_an_offer_that_was_passed_over_stands_by_its_name(
    opening: Opening, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of "?" alone nobody knows what a yes would do."""
    shown = asked_for_lines(monkeypatch, "my laser got knocked over", "readings")
    screen = Screen(PlainOutput(io.StringIO()))
    talk(plain_lines(opening, lambda: screen.asked), opening, screen)
    assert shown[1:] == ["Did you mean: reference moved? > ", "reference moved? > "]
