"""What stands on the screen, at the widths it is read at."""

from __future__ import annotations

import io
import os

import pytest
from rich.console import Console

from assistant.reply.replies import Caution, FloorMap, LimitWarning, MapSpot, Reply, Table, Turn
from assistant.reply.visible import visible
from assistant.terminal.output import PlainOutput, output_to
from assistant.terminal.rich_output import RichOutput
from assistant.terminal.screen import Screen, reply_lines

HIGH = LimitWarning(
    "high-spot:B3",
    "stop",
    "B3 stands 3 mm above the finish. Grind it down or raise the finish.",
    3,
    0,
    "mm",
    "the finish as set",
)
WIDE = LimitWarning("pin-spacing", "note", "Pins are 2.4 m apart; the card wants 1.2 m.")
FULL = Reply(
    "B3, 18 mm below. Depth 18 mm.",
    details=("A second reading at B3; the first, 16 mm below, stays in the record.",),
    tables=(Table("Cut list", ("point", "cut"), (("A1", "18 mm"), ("B1", "7.5 mm"))),),
    map=FloorMap((), (MapSpot("A1", 0, 0, 18.0), MapSpot("B1", 1, 0, 7.5)), "mm"),
    warnings=(WIDE, HIGH),
    cautions=(Caution("dust", ("Grinding makes silica dust: wet, and a mask.",), "a standard"),),
    ask="C3, 4 mm: below or above?",
)
AT_60 = """\
B3, 18 mm below. Depth 18 mm.
  A second reading at B3; the first, 16 mm below, stays in
  the record.
STOP     B3 stands 3 mm above the finish. Grind it down or
         raise the finish.
         (the finish as set)
NOTE     Pins are 2.4 m apart; the card wants 1.2 m.

Cut list
point     cut
-----  ------
A1      18 mm
B1     7.5 mm

Depth in mm, floor seen from above
1 |  18  7.5
  +----------
      A    B

A1 is at the bottom left: letters go along the first side,
numbers up the second. Points 1 m apart.

CARE     Grinding makes silica dust: wet, and a mask.
         (a standard)
? C3, 4 mm: below or above?

"""


def shown(reply: Reply, width: int) -> str:
    file = io.StringIO()
    Screen(PlainOutput(file, width)).show(Turn("", True, None, None, (), reply))
    return file.getvalue()


def test_answer_first_then_warnings_then_tables_map_and_cautions() -> None:
    assert shown(FULL, 60) == AT_60


def test_at_80_columns_less_is_wrapped() -> None:
    assert "the first, 16 mm below, stays in the record.\n" in shown(FULL, 80)


@pytest.mark.parametrize("width", [60, 80])
def test_no_line_runs_off_the_page(width: int) -> None:
    long = Reply(
        "word " * 60,
        details=("x" * 300,),
        tables=(
            Table(
                "Doors",
                ("door", "point", "what to do"),
                (
                    (
                        "1",
                        "B1",
                        "Bevel the edge one in two, or ask about a ramp; code decides. " * 2,
                    ),
                ),
            ),
        ),
        warnings=(LimitWarning("a", "caution", "y " * 200, source="z " * 90),),
    )
    assert max(len(str(line)) for line in reply_lines(long, width)) <= width


def test_a_long_narrow_table_is_folded_into_blocks() -> None:
    rows = tuple((f"A{n}", f"{n} mm") for n in range(1, 41))
    lines = [
        str(line) for line in reply_lines(Reply("", tables=(Table("", ("p", "d"), rows),)), 60)
    ]
    assert len(lines) < 20
    assert all(f"A{n} " in "\n".join(lines) for n in range(1, 41))


def test_a_question_that_is_the_answer_is_shown_once() -> None:
    question = "B3, 18 mm: below or above?"
    assert shown(Reply(question, ask=question), 60).count(question) == 1


def test_a_path_the_program_tells_of_stays_whole() -> None:
    file = io.StringIO()
    path = "/home/someone/a-long-way/down/jobs/job-2026-11-25.leadsman"
    Screen(PlainOutput(file, 40)).say(f"Every answered line is on disk, in {path}")
    assert path in file.getvalue().splitlines()


def test_plain_has_no_escape_codes_even_where_colour_is_forced(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    file = io.StringIO()
    Screen(output_to(file, plain=True)).show_reply(FULL)
    assert "\x1b" not in file.getvalue()
    assert "STOP" in file.getvalue()


def test_plain_is_what_a_terminal_shows_but_for_its_colours(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for name in ("FORCE_COLOR", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)
    plain, by_rich = io.StringIO(), io.StringIO()
    console = Console(file=by_rich, width=60, color_system=None, emoji=False)
    for output in (PlainOutput(plain, 60), RichOutput(console=console)):
        screen = Screen(output)
        screen.echo("B3 [bold]18[/] :warning: below" * 9)
        screen.show_reply(FULL)
        screen.say("in /a/long/way/down/to/jobs/job-2026-11-25/and/on/boat-shed.leadsman " * 2)
    assert plain.getvalue() == by_rich.getvalue()


@pytest.mark.parametrize("columns", ["", "57", "wide"])
def test_plain_lines_are_as_wide_as_the_terminal_says(
    monkeypatch: pytest.MonkeyPatch, columns: str
) -> None:
    """As rich has it, which lays out what a terminal shows; none is at hand here."""
    monkeypatch.setenv("COLUMNS", columns)
    assert PlainOutput().width == Console(force_terminal=False).width
    monkeypatch.setattr("os.get_terminal_size", lambda _: os.terminal_size((44, 20)))
    assert PlainOutput().width == (57 if columns == "57" else 44)


def test_no_color_loses_the_colour_and_not_the_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    file = io.StringIO()
    console = Console(file=file, width=60, force_terminal=True)
    Screen(RichOutput(console=console)).show_reply(FULL)
    assert "38;" not in file.getvalue()
    assert "STOP" in file.getvalue()


def test_what_was_typed_cannot_move_the_cursor() -> None:
    assert visible("B3\x1b[2J\x00\u202e18") == "B3\\x1b[2J\\x00\\u202e18"
    assert visible("3\u00a0mm\u200b") == "3 mm\\u200b"
    assert "\x1b" not in shown(Reply("not “\x1b[31mred”", details=("\x07",)), 60)


def test_megabytes_of_a_name_are_cut_and_counted() -> None:
    """A made-up file may hold such a name; a list of jobs with it took four minutes."""
    name = "=1+1\n" * 2_000_000
    table = Table("", ("Job", "Stands"), (("boat-shed", f"read, for {name}"),))
    for reply in (Reply(name), Reply("One job.", tables=(table,))):
        text = shown(reply, 60)
        assert "characters more)" in " ".join(text.split())
        assert len(text) < 100_000


def test_brackets_are_no_markup() -> None:
    assert "[bold]B3[/bold]" in shown(Reply("[bold]B3[/bold] :pin:"), 60)
    assert ":pin:" in shown(Reply("[bold]B3[/bold] :pin:"), 60)
