"""Files asked for in the chat: beside the job's own, and over nothing."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.record.journal import Journal
from assistant.record.places import Folders
from assistant.wiring import converse, gather_cards

LINES = ("room 6 by 4 metres", "grid 2 metres", "product example standard", "A1 -12 mm",
         "B1 -14 mm", "A2 -9 mm")  # fmt: skip


@pytest.fixture
def talk(tmp_path: Path) -> Iterator[Conversation]:
    with Journal.open(tmp_path / "boat-shed.leadsman") as journal:
        yield converse(journal, gather_cards(None, ())[0], Folders(tmp_path), remembers=False)


def names(folder: Path) -> set[str]:
    return {path.name for path in (folder / "boat-shed-handover").iterdir()}


def test_files_are_put_beside_the_job_and_over_nothing(talk: Conversation, tmp_path: Path) -> None:
    for line in LINES:
        assert talk.hear(line).ok
    said = len(talk.job.history)
    assert talk.hear("report").reply.headline == "Written: report.html and report.pdf."
    assert "just the same" in talk.hear("write me a report").reply.headline
    assert talk.hear("picture").reply.headline == "Written: planned.svg."
    assert talk.hear("export").ok
    before = (tmp_path / "boat-shed-handover" / "report.html").read_bytes()
    assert {"points.csv", "floor.dxf", "surface.xml", "job.json"} <= names(tmp_path)
    assert len(talk.job.history) == said, "what was written is no fact of the job"
    talk.hear("B2 -13 mm")
    assert "report-2.html" in talk.hear("hand over the record").reply.headline
    assert (tmp_path / "boat-shed-handover" / "report.html").read_bytes() == before


def test_a_question_waits_meanwhile(talk: Conversation) -> None:
    for line in LINES:
        talk.hear(line)
    assert talk.hear("C1 18").reply.ask
    talk.hear("picture")
    assert talk.pending is not None
    assert talk.hear("below").recorded


def test_what_cannot_be_written_is_told(
    talk: Conversation, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    turn = talk.hear("export")
    assert not turn.ok
    assert "Nothing is on record yet" in turn.reply.headline
    talk.hear(LINES[0])
    turn = talk.hear("export")
    assert turn.ok
    assert "job.json" in turn.reply.headline
    assert any("at least one reading" in line for line in turn.reply.details)
    monkeypatch.setitem(sys.modules, "typst", None)
    turn = talk.hear("report")
    assert turn.reply.headline == "Written: report.html."
    assert any("pip install 'leadsman[report]'" in line for line in turn.reply.details)
    with Journal.open(None) as journal:
        unkept = converse(journal, {}, Folders(tmp_path), remembers=False)
        unkept.hear(LINES[0])
        assert "memory only" in unkept.hear("report").reply.headline
