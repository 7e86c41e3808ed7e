"""The steps of the guide, read from ``steps.toml`` and checked to the letter."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from assistant.errors import LeadsmanError
from assistant.limits.cautions import CAUTIONS, lifting_caution
from assistant.reply.replies import Caution
from grammar.frozen import frozen

STEPS_FILE = Path(__file__).with_name("steps.toml")

LONGEST_WORDS = 22
"""Most characters of a spoken sentence: the start of longer ones is forgotten."""

_TEXTS = ("id", "title", "say", "why", "check")
_KEYS = frozenset({*_TEXTS, "more", "cautions", "no_caution_because"})
_ID = re.compile(r"[a-z]+(?:-[a-z]+)*")
_ONE_SENTENCE = re.compile(r"[A-Z][^.?!]*(?:\.\d[^.?!]*)*[.?!]")
_UNSPEAKABLE = re.compile(r"[-+]\d|[_@#|*<>]")


class StepsError(LeadsmanError):
    """A file of steps that cannot be used; names the step, the key, and what would be right."""


@frozen
class GuideStep:
    """One step of the job."""

    id: str
    title: str
    say: str
    """What to do, in one sentence."""
    why: str
    more: tuple[str, ...]
    """How to do it, line by line."""
    caution_ids: tuple[str, ...]
    no_caution_because: str
    """Why there are no cautions; empty where there are."""
    check: str
    """Name of the function that checks whether it is done."""
    number: int
    """1 for the first."""
    of: int

    def cautions(self, bag_kg: float | None = None) -> tuple[Caution, ...]:
        """Its safety words, with the bag's mass filled in."""
        return tuple(
            lifting_caution(bag_kg) if id == "lifting" else CAUTIONS[id] for id in self.caution_ids
        )


@cache
def steps() -> tuple[GuideStep, ...]:
    """All steps, in the order of the work."""
    return read_steps(STEPS_FILE.read_text(encoding="utf-8"), STEPS_FILE.name)


@cache
def step_of(id: str) -> GuideStep | None:
    """The step of that id; None where only another version of the program has it."""
    return next((step for step in steps() if step.id == id), None)


def read_steps(text: str, source: str) -> tuple[GuideStep, ...]:
    """
    Steps from the text of their file.

    Raises
    ------
    StepsError
        At the first fault.
    """
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise StepsError(f"{source}: is not a TOML file: {fault}.") from fault
    tables = content.pop("step", None)
    if content or not isinstance(tables, list) or not tables:
        raise StepsError(f"{source}: must be [[step]] tables and nothing else.")
    found = tuple(_step(source, table, at + 1, len(tables)) for at, table in enumerate(tables))
    ids = [step.id for step in found]
    for id in ids:
        if ids.count(id) > 1:
            raise StepsError(f"{source}: two steps are called {id!r}.")
    return found


def _step(source: str, table: Any, number: int, of: int) -> GuideStep:
    where = f"{source}: step {number}"
    if not isinstance(table, dict):
        raise StepsError(f"{where} must be a [[step]] table.")
    for key in table:
        if key not in _KEYS:
            raise StepsError(f"{where}: {key} is not a key of a step.")
    texts = {key: _text(where, table, key) for key in _TEXTS}
    where = f"{where} ({texts['id']})"
    _check_texts(where, texts)
    cautions, none_because = _cautions(where, table)
    return GuideStep(
        **texts,
        more=_lines(where, table.get("more"), "more"),
        caution_ids=cautions,
        no_caution_because=none_because,
        number=number,
        of=of,
    )


def _text(where: str, table: Mapping[str, Any], key: str) -> str:
    value = table.get(key)
    if not isinstance(value, str) or not value.strip():
        raise StepsError(f"{where}: {key} is missing; it must be words in quotes.")
    return value.strip() if key in ("id", "check") else _sayable(where, key, value)


def _sayable(where: str, key: str, text: str) -> str:
    if not text.isprintable() or _UNSPEAKABLE.search(text):
        raise StepsError(f"{where}: {key} has what cannot be said aloud; write it in words.")
    return text.strip()


def _check_texts(where: str, texts: Mapping[str, str]) -> None:
    from assistant.guide.checks import CHECKS

    if not _ID.fullmatch(texts["id"]):
        raise StepsError(f"{where}: id must be small letters, with a hyphen between words.")
    if not _ONE_SENTENCE.fullmatch(texts["say"]):
        raise StepsError(f"{where}: say must be one sentence, with its stop.")
    if len(texts["say"].split()) > LONGEST_WORDS:
        raise StepsError(f"{where}: say has more than {LONGEST_WORDS} words.")
    if texts["check"] not in CHECKS:
        raise StepsError(
            f"{where}: there is no check {texts['check']!r}; there are {', '.join(CHECKS)}."
        )


def _cautions(where: str, table: Mapping[str, Any]) -> tuple[tuple[str, ...], str]:
    if ("cautions" in table) == ("no_caution_because" in table):
        raise StepsError(f"{where}: must have cautions, or no_caution_because, and not both.")
    if "no_caution_because" in table:
        return (), _text(where, table, "no_caution_because")
    ids = _lines(where, table["cautions"], "cautions")
    for id in ids:
        if id not in CAUTIONS:
            raise StepsError(
                f"{where}: there is no caution {id!r}; there are {', '.join(CAUTIONS)}."
            )
    return ids, ""


def _lines(where: str, value: Any, key: str) -> tuple[str, ...]:
    if not isinstance(value, list) or not value:
        raise StepsError(f"{where}: {key} must be a list of words in quotes, and not empty.")
    for line in value:
        if not isinstance(line, str) or not line.strip():
            raise StepsError(f"{where}: {key} must be a list of words in quotes, none empty.")
    return tuple(_sayable(where, key, line) for line in value)
