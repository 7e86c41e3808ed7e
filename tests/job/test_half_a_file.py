"""Part of a job file without its journal: refused in words, and never taken for a shorter job."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from assistant.errors import JournalError
from assistant.record.journal import Journal

PAGE = 4096
"""SQLite's page size unless asked for another."""
LINES = 60


def pages(path: Path) -> list[bytes]:
    whole = path.read_bytes()
    return [whole[start : start + PAGE] for start in range(0, len(whole), PAGE)]


def said_in(path: Path) -> list[str] | None:
    """None where it is refused."""
    try:
        with Journal.open(path) as journal:
            return [entry.said for entry in journal.entries()]
    except JournalError as error:
        assert "is damaged" in str(error)
        assert "left as it was" in str(error)
        return None


def said(number: int) -> str:
    return f"line {number} " + "as it was said " * (number % 40)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        for number in range(1, LINES + 1):
            journal.append(said(number), [])
    return path


def test_cut_off_after_any_whole_page_it_is_refused(path: Path, tmp_path: Path) -> None:
    whole = pages(path)
    assert len(whole) > 5
    cut = tmp_path / "cut.leadsman"
    for kept in range(1, len(whole)):
        cut.write_bytes(b"".join(whole[:kept]))
        with pytest.raises(JournalError) as caught:
            Journal.open(cut)
        told = str(caught.value)
        assert f"its end is missing, {kept} of {len(whole)} pages are there" in told
        assert "copy it once more, together with cut.leadsman-journal" in told
    cut.write_bytes(b"".join(whole))
    assert said_in(cut) == [said(number) for number in range(1, LINES + 1)]


def cut_short(before: list[bytes], after: list[bytes]) -> Iterator[bytes]:
    """The file as it stands between the pages of one commit: SQLite writes them in order."""
    changed = [
        place for place, page in enumerate(after) if place >= len(before) or page != before[place]
    ]
    for done in range(1, len(changed)):
        mixed = list(before)
        for place in changed[:done]:
            mixed[place : place + 1] = [after[place]]
        yield b"".join(mixed)


def test_copied_between_two_pages_of_a_commit_no_answered_line_is_missing(
    path: Path, tmp_path: Path
) -> None:
    answered = [said(number) for number in range(1, LINES + 1)]
    copy = tmp_path / "copy.leadsman"
    refused = 0
    for number in range(LINES + 1, LINES + 31):
        before = pages(path)
        with Journal.open(path) as journal:
            journal.append(said(number), [])
        for half in cut_short(before, pages(path)):
            copy.write_bytes(half)
            found = said_in(copy)
            refused += found is None
            assert found is None or found[: len(answered)] == answered
        answered.append(said(number))
    assert refused
    shutil.copyfile(path, copy)
    assert said_in(copy) == answered
