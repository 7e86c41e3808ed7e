"""The command line: its commands and options, and the functions that carry them out."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from assistant.command_line.archiving import add_archiving
from assistant.command_line.board import add_board, board_beside
from assistant.command_line.card_commands import add_products
from assistant.command_line.handing_over import add_handing_over
from assistant.command_line.import_points import add_import
from assistant.command_line.jobs import add_jobs
from assistant.command_line.lists import (
    list_licences,
    list_phrases,
)
from assistant.command_line.parts import (
    ALL_TAKEN,
    BY_ITS_DAY,
    SOME_NOT_TAKEN,
    cards_at_hand,
    check_named,
    is_plain,
    job_path,
    job_to_open,
    lines_typed,
    new_path,
    tell,
)
from assistant.command_line.voice_commands import (
    add_ear_options,
    add_mouth_options,
    add_voice_commands,
    listen,
    open_voiced_chat,
    said_aloud_if,
)
from assistant.errors import LeadsmanError
from assistant.record.places import user_folders
from assistant.terminal.arguments import Arguments
from assistant.terminal.endings import ends_in_order
from assistant.version import __version__
from assistant.wiring import converse, open_journal

if TYPE_CHECKING:
    from assistant.conversation.conversation import Conversation

ABOUT = """\
Level a floor by talking to it: say or type what you read, get depths, pins,
bags and warnings. Without a command the chat opens, on the job used last."""

EXAMPLES = """\
examples:
  leadsman                          go on with the job used last
  leadsman --new boat-shed          begin a job
  leadsman --job site/floor.leadsman   a job file of your own
  leadsman demo                     see a whole job, start to end
  leadsman run lines.txt            play typed lines, keep nothing
  leadsman run lines.txt --job floor.leadsman    play and keep them

at the prompt:
  room 12 by 8 metres · grid 2 metres · product example standard
  B3 -18 · B3 18 below · bravo three minus eighteen millimetres
  tally · map · cut list · what if raise finish 3 mm · help

Every line that was answered is on disk; nothing has to be saved."""

RUN_ABOUT = """\
Play typed lines, one utterance a line, from a file or (-) from a pipe. A # at
the start of a line or after a blank begins a comment, but in a note. Without
--job the lines are played on an empty job that is not kept.

A line may begin with its time, @09:30 or @2026-05-04 09:30 (this machine's own
zone): clocks then run by it, and the same lines always get the same replies."""

RUN_EXAMPLES = """\
examples:
  leadsman run lines.txt
  leadsman run lines.txt --json > answers.jsonl
  leadsman run lines.txt --svg session.svg       a picture of what it showed
  cat lines.txt | leadsman run - --job floor.leadsman

with --json, one object a line on standard output and nothing else there:
  line, text, ok, command, canonical, taken_as, recorded, ask, lapsed, say,
  warnings, cautions, data

exit code: 0 every line was taken, 1 some were not, or a question was left open
  or passed over (the others still count), 2 it could not run"""


# --- what can be typed ------------------------------------------------------------


def make_parser() -> argparse.ArgumentParser:
    """The whole command line, with its help."""
    parser = Arguments(
        prog="leadsman",
        # A usage line of all options would hide what was wrong with the line that was typed.
        usage="leadsman [options] [COMMAND ...]",
        description=ABOUT,
        epilog=EXAMPLES,
        parents=[_common_options("cards_before")],
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("-V", "--version", action="version", version=f"leadsman {__version__}")
    parser.add_argument(
        "--new",
        nargs="?",
        const=BY_ITS_DAY,
        metavar="NAME",
        help="begin a new job in the data folder; without a name it is called by its day",
    )
    _add_speak(parser)
    parser.set_defaults(do=chat)
    commands = parser.add_subparsers(prog="leadsman", title="commands", metavar="COMMAND")

    def command(
        name: str, do: Callable[[argparse.Namespace], int], help: str, about: str, examples: str
    ) -> argparse.ArgumentParser:
        added = commands.add_parser(
            name,
            help=help,
            description=about,
            epilog=examples,
            parents=[_common_options("cards_after")],
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )
        added.set_defaults(do=do)
        return added

    run_it = command("run", run_lines, "play typed lines from a file", RUN_ABOUT, RUN_EXAMPLES)
    run_it.add_argument("file", metavar="FILE", help="the lines; - for standard input")
    _add_json(run_it)
    _add_svg(run_it)
    demo = command(
        "demo",
        run_demo,
        "play a whole job with its replies",
        "Play the job that comes with the program: the reading room of a village\n"
        "library in a former boat shed, from the bare slab to the order. Invented\n"
        "room, invented products. Nothing is kept unless --job says where.",
        "examples:\n  leadsman demo\n  leadsman demo --json\n  leadsman demo --voice",
    )
    _add_json(demo)
    _add_svg(demo)
    demo.add_argument(
        "--voice",
        nargs="?",
        const="",
        dest="recordings",
        metavar="FOLDER",
        help="have the lines said and heard; in recordings of a folder (python -m demo.make_voice)",
    )
    add_ear_options(demo)
    guided = command(
        "guide",
        guide,
        "be led through the job, step by step",
        "Open the chat and be led through the job, from where it stands.\n"
        "Next step goes on, why and more explain, where am I says it again.",
        "examples:\n  leadsman guide\n  leadsman guide --job site/floor.leadsman",
    )
    _add_speak(guided)
    add_voice_commands(command)
    add_jobs(command)
    add_products(command)
    add_handing_over(command)
    add_archiving(command)
    add_board(command)
    add_import(command)
    phrases = command(
        "phrases",
        list_phrases,
        "print all that can be said",
        "Print every phrase that is understood, with examples.",
        "examples:\n  leadsman phrases | less\n  leadsman phrases --markdown > phrases.md",
    )
    phrases.add_argument("--markdown", action="store_true", help="as a Markdown page")
    licences = command(
        "licences",
        list_licences,
        "list the licences of what is installed",
        "List the packages that the program runs on, by licence, as each package\n"
        "declares it. One that declares none is listed as unknown.",
        "examples:\n  leadsman licences\n  leadsman licences --all --json",
    )
    licences.add_argument("--all", action="store_true", help="everything in this environment")
    _add_json(licences, "one JSON object a package")
    return parser


def _common_options(cards: str) -> Arguments:
    """
    Options that may stand before or after the command.

    What is given after it must not wipe out what is given before: so no defaults here,
    and the folders of cards, which add up, are collected in two places.
    """
    common = Arguments(add_help=False, argument_default=argparse.SUPPRESS)
    common.add_argument("--job", type=job_path, metavar="PATH", help="the job file; made if new")
    common.add_argument(
        "--cards",
        type=Path,
        action="append",
        dest=cards,
        metavar="DIR",
        help="a folder of product cards (may be given again)",
    )
    common.add_argument(
        "--plain", action="store_true", help="plain text: no colour, no cursor movement"
    )
    return common


def _add_speak(parser: argparse.ArgumentParser) -> None:
    """For a chat that is typed and answers aloud; may stand before the command or after."""
    parser.add_argument(
        "--speak",
        action="store_true",
        default=argparse.SUPPRESS,
        help="say the answers aloud in the chat",
    )
    add_mouth_options(parser)


def _add_json(parser: argparse.ArgumentParser, help: str = "one JSON object a line") -> None:
    parser.add_argument("--json", action="store_true", help=help)


def _add_svg(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--svg", type=Path, metavar="FILE", help="draw what the screen shows in a picture, too"
    )


def run(arguments: Sequence[str]) -> int:
    """Do what the command line asks for; returns the exit code."""
    options = make_parser().parse_args(arguments)
    for name in ("job", "plain", "json", "speak", "svg"):
        setattr(options, name, getattr(options, name, None))
    before, after = (getattr(options, name, []) for name in ("cards_before", "cards_after"))
    options.cards = [*before, *after]
    check_named(options)
    if options.new is not None and (options.job is not None or options.do not in OPENS_A_CHAT):
        raise LeadsmanError("--new NAME opens the chat on a new job; elsewhere say --job PATH.")
    with ends_in_order():
        code: int = options.do(options)
    return code


# --- the chat ------------------------------------------------------------------------


def guide(options: argparse.Namespace) -> int:
    """The chat, with the guide on from its first line."""
    return chat(options, "guide")


def chat(options: argparse.Namespace, first: str = "") -> int:
    """The chat; from a pipe, the lines are played instead. `first` is said before them."""
    if sys.stdin is None or not sys.stdin.isatty():
        # Without a job named, what comes down a pipe goes to no job of the installer's.
        path = new_path(options) if options.new is not None else options.job
        return _play(
            options, lines_typed(may_be_none=bool(first)), path, cards=options.cards, first=first
        )
    if options.speak:
        return open_voiced_chat(options, first)
    from assistant.terminal.prompt import open_chat

    folders = user_folders()
    cards = cards_at_hand(options.cards, folders)
    path = job_to_open(options, folders)
    with open_journal(path) as journal:
        said = (first,) if first else ()
        plain = is_plain(options)
        open_chat(
            journal, cards, folders, path,
            plain=plain, first=said, beside=board_beside(journal, takes_lines=not plain),
        )  # fmt: skip
    return ALL_TAKEN


# --- played lines -----------------------------------------------------------------------


def run_lines(options: argparse.Namespace) -> int:
    """Lines from a file or a pipe."""
    if options.file == "-":
        return _play(options, lines_typed(), options.job, cards=options.cards)
    with _opened(Path(options.file)) as stream:
        return _play(options, stream, options.job, cards=options.cards)


def run_demo(options: argparse.Namespace) -> int:
    """The job that comes with the program."""
    from assistant.command_line.demo_job import demo_cards, demo_lines

    with _opened(demo_lines()) as stream:
        # Only its own cards, or a card in the data folder could change what it shows.
        cards = [demo_cards(), *options.cards]
        return _play(options, stream, options.job, cards=cards, is_demo=True)


OPENS_A_CHAT = (chat, guide, listen)


def _opened(path: Path) -> BinaryIO:
    try:
        return path.open("rb")
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or fault
        raise LeadsmanError(f"{path} cannot be read: {reason}.") from fault


def _play(
    options: argparse.Namespace,
    stream: BinaryIO,
    path: Path | None,
    *,
    cards: Iterable[Path],
    is_demo: bool = False,
    first: str = "",
) -> int:
    from assistant.command_line.played_clock import PlayedClock
    from assistant.command_line.playing import play
    from assistant.command_line.showing import shown_by
    from assistant.conversation.lines import lines_of
    from assistant.record.journal import utc_now

    folders = user_folders()
    at_hand = cards_at_hand(cards, None if is_demo else folders)
    with shown_by(options) as (show, remark), open_journal(path) as journal:
        clock = PlayedClock(datetime.now().astimezone().date(), utc_now)
        conversation = converse(
            journal, at_hand, folders, clock, own_cards=not is_demo, remembers=not is_demo
        )
        conversation.ahead.on = True
        last, now = conversation.last_time, utc_now()
        # Where the record is dated ahead, a time may go back to the present.
        clock.not_before = last if last is None or last <= now else None
        clock.confirmed_to = None if is_demo else now
        if path is None:
            tell("played on a job of its own that is not kept; --job PATH keeps it.")
        lines = lines_of(stream)
        if is_demo:
            with said_aloud_if(options, conversation, journal, at_hand, show) as hears:
                all_taken = play(lines, hears, show, remark, clock=clock)
        else:
            all_taken = play(lines, conversation, show, clock=clock, first=first, left=tell)
        _tell_of_open_question(conversation)
        asked = conversation.pending is not None and not conversation.asked_before
        all_taken = all_taken and not asked
    # The demo shows on purpose what happens to a line that is not understood.
    return ALL_TAKEN if all_taken or is_demo else SOME_NOT_TAKEN


def _tell_of_open_question(conversation: Conversation) -> None:
    if conversation.pending is not None:
        tell(f"a question was left open, nothing recorded for it: {conversation.pending.text}")
