"""What the rows of ``grammar/phrases/talk.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "undo [that]": (
        "undo last/lastone/that ~lastone",
        "oops",
        "didn't_mean get_rid/out/that/in",
        "undo lastone",
    ),
    "undo [last] <steps:whole>": (
        "undo last ~reading ~lastone ~gave",
        "undo entries",
    ),
    "redo [that]": (
        "redo ~lastone ~fine ~right ~undone ~took",
        "took_out fine/back",
    ),
    "redo [last] <steps:whole>": (
        "redo ~lastone ~entries",
        "restore/back entries",
    ),
    "no <reading:signed_reading>": ("no/actually/meant/wanted ~say ~correct",),
    "not <was:loose> <reading:signed_reading>": ("not/fact/instead ~correct ~said",),
    "say again": (
        "repeatsay you/say/said/that ~once_more",
        "didn't_catch/wasn't_listening/missed_that",
        "say_that again",
        "what_was_that",
    ),
    "ears open": ("listen open/keep/start/again ~you",),
    "ears closed": (
        "listen stop/close/closed/quit/pause ~you",
        "ears closed",
        "don't/not listen/hear me/us",
    ),
    "shorter": (
        "shorter you ~too",
        "shorter answers",
        "cut waffle",
    ),
    "longer": (
        "longer you ~more",
        "longer answers/answer",
    ),
    "slower": (
        "slower you/please/english ~not",
        "not_so_quick",
        "too_fast",
    ),
    "faster": (
        "faster you ~hurry",
        "quicker talk/voice",
    ),
    "softer": (
        "softer you ~gentler",
        "voice/volume softer",
        "turn_down/turn_it_down",
        "too_loud",
    ),
    "louder": (
        "louder you ~can't_hear",
        "can't_hear/cant_hear",
        "volume/voice louder",
        "turn_up/turn_it_up",
    ),
    "quiet": (
        "quiet ~you ~no_more",
        "stop_talking/no_more_talking/stop_speaking",
    ),
    "speak": (
        "speakup again/resume/may ~you",
        "voice_on",
        "start_talking",
    ),
    "help": (
        "say you may/which/what ~know",
        "help say/commands/ask",
        "commands ~which ~know",
        "what_to_say/don't_know_what",
        "able_to ask/say",
    ),
}
