"""Job files of older programs, and what those answered about them.

``python -m tests.job.kept_files tests/job/kept/NAME.leadsman`` asks the program of today and
writes ``NAME.json`` beside the job: run it with the program that wrote the file, once. What is
kept are the numbers and names; words may be bettered.
"""

from __future__ import annotations

import json
import shutil
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal

KEPT = Path(__file__).with_name("kept")
ASKED_AT = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
QUESTIONS = (
    "readings", "readings of the slab", "tally", "order", "cut list", "map", "map of the slab",
    "doors", "doors of the slab", "what is missing", "what is missing on the slab",
    "survey check", "survey check of the slab", "warnings", "high spots", "low spots", "site",
    "clocks", "weight", "how deep at B2", "next point", "where am I", "ready to pour", "lifts",
    "best finish", "hidden high spots", "undo 40", "tally", "readings", "redo 40", "tally",
)  # fmt: skip
"""The last ones go back to where the floor was being read, and forth again."""

WORDS = {"message", "clears_by"}
"""Sentences for people; not held to."""


def answers_about(path: Path) -> dict[str, Any]:
    """What the program says about a job; asked of a copy, so that the file stays."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(shutil.copy(path, folder))
        with Journal.open(copy, lambda: ASKED_AT) as journal:
            entries = journal.entries()
            talk = Conversation(journal, World(cards_in(shipped_folder())), clock=lambda: ASKED_AT)
            return {
                "said": [entry.said for entry in entries],
                "events": [event.NAME for entry in entries for event in entry.events],
                "answers": [
                    {"said": line, "data": _without_words(talk.hear(line).reply.data)}
                    for line in QUESTIONS
                ],
            }  # fmt: skip


def _without_words(data: Any) -> Any:
    if isinstance(data, dict):
        return {name: _without_words(each) for name, each in data.items() if name not in WORDS}
    if isinstance(data, list | tuple):
        return [_without_words(each) for each in data]
    return data


def main(names: list[str]) -> None:
    for name in names:
        path = Path(name)
        text = json.dumps(answers_about(path), ensure_ascii=False, indent=1, default=str)
        path.with_suffix(".json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
