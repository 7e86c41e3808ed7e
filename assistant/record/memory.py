"""What the machine remembers between openings besides its jobs: how replies are said, and which
cautions were given today. Nothing depends on it, so a file that cannot be read or written is
only forgotten."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from contextlib import suppress
from datetime import date
from pathlib import Path
from typing import Any

from assistant.reply.manner import LENGTHS, LOUDNESSES, SPEEDS, Manner


class Memory:
    """
    The memory of one conversation.

    Parameters
    ----------
    file : Path, optional
        Where it is kept; without one it ends with the conversation.
    job : str
        Names the job that cautions are given about.
    """

    def __init__(self, file: Path | None = None, job: str = "") -> None:
        self._file = file
        self._job = job
        known = self._read()
        self.manner = _manner(known.get("manner"))
        cautioned = known.get("cautioned")
        given = cautioned.get(job) if isinstance(cautioned, dict) else None
        self._given = given if isinstance(given, dict) else {}

    def was_given(self, caution: str, day: date) -> bool:
        """Whether a caution was given in full on a day."""
        return bool(self._given.get(caution) == day.isoformat())

    def gave(self, cautions: Iterable[str], day: date) -> None:
        """Cautions were given in full."""
        cautions = [one for one in cautions if not self.was_given(one, day)]
        if not cautions:
            return
        self._given |= dict.fromkeys(cautions, day.isoformat())
        self._write()

    def set_manner(self, manner: Manner) -> bool:
        """Say replies so from now on; returns whether that is remembered at the next opening."""
        self.manner = manner
        return self._write()

    def _read(self) -> dict[str, Any]:
        with suppress(OSError, ValueError):
            known = json.loads(self._file.read_text(encoding="utf-8")) if self._file else {}
            if isinstance(known, dict):
                return known
        return {}

    def _write(self) -> bool:
        if self._file is None:
            return False
        known = self._read()  # another program may have written other jobs since
        manner = self.manner
        known["manner"] = {
            "length": manner.length,
            "speed": manner.speed,
            "loudness": manner.loudness,
            "quiet": manner.quiet,
        }
        if self._job and self._given:
            others = known.get("cautioned")
            known["cautioned"] = {
                **(others if isinstance(others, dict) else {}),
                self._job: self._given,
            }
        draft = self._file.with_name(f"{self._file.name}.{os.getpid()}.draft")
        try:
            self._file.parent.mkdir(parents=True, exist_ok=True)
            draft.write_text(json.dumps(known, indent=1), encoding="utf-8")
            draft.replace(self._file)
        except OSError:
            with suppress(OSError):
                draft.unlink()
            return False
        return True


def _manner(known: Any) -> Manner:
    """As it was kept; as usual where that makes no sense."""
    if not isinstance(known, dict):
        return Manner()
    length, quiet = known.get("length"), known.get("quiet")
    return Manner(
        length if length in LENGTHS else "usual",
        _number(known.get("speed"), SPEEDS),
        _number(known.get("loudness"), LOUDNESSES),
        quiet is True,
    )


def _number(known: Any, ends: tuple[float, float]) -> float:
    is_number = isinstance(known, int | float) and not isinstance(known, bool)
    return float(known) if is_number and ends[0] <= known <= ends[1] else 1.0
