"""Recordings of the demo job's lines, in a voice of this machine.

python -m demo.make_voice FOLDER [--voice espeak:en-us] [--digits]
leadsman demo --voice FOLDER
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from assistant.command_line.demo_job import demo_cards, demo_lines
from assistant.command_line.demo_voice import LineVoices
from assistant.conversation.lines import lines_of, utterance_in
from assistant.errors import LeadsmanError
from assistant.listening.voice_settings import VoiceSettings, spoken_language
from assistant.voice.choose import voice_for
from assistant.wiring import gather_cards


def main(arguments: Sequence[str] | None = None) -> int:
    """Make them; the exit code."""
    parser = argparse.ArgumentParser(prog="python -m demo.make_voice", description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument(
        "--voice", default="hibari", help="hibari or espeak; with a name: espeak:en-us"
    )
    parser.add_argument("--digits", action="store_true", help="numbers digit by digit")
    options = parser.parse_args(arguments)
    settings = VoiceSettings(voice=options.voice, manner="digits" if options.digits else "words")
    try:
        print(f"{make_voice(options.folder, settings)} recordings in {options.folder}")
    except LeadsmanError as fault:
        print(fault, file=sys.stderr)
        return 2
    return 0


def make_voice(folder: Path, settings: VoiceSettings) -> int:
    """Make the recordings; how many there are. Raises :class:`LeadsmanError`."""
    folder.mkdir(parents=True, exist_ok=True)
    cards, _ = gather_cards(None, [demo_cards()])
    voice = voice_for(settings.kind, settings.speed, settings.voice_name)
    voices = LineVoices(voice, spoken_language(settings, cards), folder)
    with demo_lines().open("rb") as stream:
        for line in lines_of(stream):
            if text := utterance_in(line):
                voices(text)
    voices.write_index()
    return len(voices.made)


if __name__ == "__main__":
    sys.exit(main())
