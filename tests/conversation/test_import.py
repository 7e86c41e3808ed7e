"""Points imported into a job: whole or not at all, told from the room, and looked along."""

from __future__ import annotations

import argparse
import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.command_line import import_points
from assistant.command_line.parser import run
from assistant.errors import JournalError, LeadsmanError
from assistant.record.attachments import attachment_of
from assistant.record.journal import Journal
from tests.job.conftest import command_of

ROOM = "room 6 by 4 metres\n"


@pytest.fixture
def job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    path = tmp_path / "floor.leadsman"
    _run(tmp_path, path, ROOM, capsys)
    return path


def _run(
    folder: Path, job: Path, lines: str, capsys: pytest.CaptureFixture[str]
) -> list[dict[str, Any]]:
    played = folder / "lines.txt"
    played.write_text(lines, "utf-8")
    run(["run", str(played), "--job", str(job), "--json"])
    return [json.loads(line) for line in capsys.readouterr().out.splitlines()]


def _points(
    folder: Path, count: int = 6_000, *, scale: float = 1.0, swap: bool = False,
    corner: tuple[float, float] = (0.0, 0.0), header: str = "easting,northing,height",
) -> Path:  # fmt: skip
    """A wave of 3 mm every 4 m along the room, with a box of 40 by 40 cm on it."""
    random = np.random.default_rng(3)
    places = random.uniform(0.01, 0.99, (count, 2)) * (6, 4)
    heights = 100 + (3 * np.sin(2 * np.pi * places[:, 0] / 4) + random.normal(0, 0.3, count)) / 1000
    heights[(np.abs(places - (2.0, 1.0)) < 0.2).all(axis=1)] += 0.14
    table = np.column_stack((places[:, ::-1] if swap else places, heights)) * scale
    table[:, :2] += corner
    path = folder / "scan.csv"
    np.savetxt(path, table, "%.5f", ",", header=header, comments="")
    return path


def _import(file: Path, job: Path, *more: str) -> None:
    run(["import", str(file), "--job", str(job), *more])


def _refused(file: Path, job: Path, *more: str) -> str:
    """Why nothing is taken; the job is as it was, to the byte."""
    before = job.read_bytes()
    with pytest.raises(LeadsmanError) as why:
        _import(file, job, *more)
    assert job.read_bytes() == before
    return str(why.value)


def test_a_scan_is_taken_told_and_looked_along(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = _points(tmp_path)
    _import(file, job, "--units", "m", "--good-to", "0.2")
    assert "Scan scan.csv: 6000 points on the floor." in capsys.readouterr().out
    lines = "scan\nstraightedge 2 metres\nspec SR2\nspec row 3\nflatness\nundo\n"
    scan, edge, spec, _, flat, _ = (each["data"] for each in _run(tmp_path, job, lines, capsys))
    assert scan["scan"]["points"] == 6000
    cells = scan["scan"]["cells"]
    assert cells["standing"] + cells["mixed"] >= 4
    assert scan["scan"]["high_mm"] - scan["scan"]["low_mm"] < 10
    # 3 mm, a wave of 4 m and an edge of 2 m: 3.0 mm (exact arithmetic), read with errors.
    assert edge["straightedge"]["gap_mm"] == pytest.approx(3.4, abs=0.6)
    assert edge["straightedge"]["direction"] == "scan along the rows"
    assert [row["met"] for row in spec["spec"]] == [True]
    assert (flat["supported"], flat["ff"]) == (False, None)


def test_the_file_is_kept_by_its_digest_and_nothing_of_it_as_events(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = _points(tmp_path)
    _import(file, job, "--units", "m")
    capsys.readouterr()
    with Journal.open(job) as journal:
        last = journal.entries()[-1]
        (event,) = last.events
        digest = event.digest  # type: ignore[attr-defined]
        assert last.said == "import scan.csv"
        assert journal.attachment(digest) == file.read_bytes()
        assert journal.attachment("0" * 64) is None
        journal.copy_to(tmp_path / "copy.leadsman")
    with Journal.open(tmp_path / "copy.leadsman") as copy:
        assert copy.attachment(digest) == file.read_bytes()
    # Imported again it is there once.
    _import(file, job, "--units", "m")
    assert job.stat().st_size < 1.6 * (tmp_path / "copy.leadsman").stat().st_size


def test_a_damaged_file_kept_with_the_job_is_told(tmp_path: Path) -> None:
    kept = attachment_of("a.csv", b"1,2,3")
    with Journal.open(tmp_path / "a.leadsman") as journal:
        wrong = attachment_of("a.csv", b"1,2,4").packed
        journal.append("x", (), attached=(type(kept)(kept.name, kept.digest, wrong),))
        with pytest.raises(JournalError, match="damaged"):
            journal.attachment(kept.digest)


def test_a_scan_is_undone_and_dropped(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _import(_points(tmp_path), job, "--units", "m")
    capsys.readouterr()
    undone, gone, again, there = _run(tmp_path, job, "undo\nscan\nredo\nscan\n", capsys)
    assert undone["say"] == "Undone: the scan."
    assert (gone["ok"], again["ok"], there["ok"]) == (False, True, True)
    dropped, gone = _run(tmp_path, job, "drop scan\nscan\n", capsys)
    assert (dropped["ok"], gone["ok"]) == (True, False)


def test_a_scan_of_the_slab_is_none_of_the_finished_floor(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _import(_points(tmp_path), job, "--units", "m")
    capsys.readouterr()
    *_, after = _run(tmp_path, job, "pour finished\nscan\n", capsys)
    assert after["ok"] is False
    _import(_points(tmp_path), job, "--units", "m")
    capsys.readouterr()
    assert _run(tmp_path, job, "scan\n", capsys)[0]["data"]["survey"] == "finished floor"


def test_which_way_is_found_by_the_room(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bare = "1.0,1.0,100.0"
    _import(_points(tmp_path, swap=True, header=bare), job, "--units", "m")
    assert "changed over" in capsys.readouterr().out
    _import(_points(tmp_path, header=bare), job, "--units", "m")
    assert "changed over" not in capsys.readouterr().out
    # Names that say otherwise are asked about.
    assert "changed over they do" in _refused(_points(tmp_path, swap=True), job, "--units", "m")


def test_feet_said_as_metres_and_a_corner_elsewhere_are_told(tmp_path: Path, job: Path) -> None:
    feet = _points(tmp_path, scale=1 / 0.3048)
    told = _refused(feet, job, "--units", "m")
    assert "do not lie in the room" in told
    assert "In ft they would be as large as it: --units ft" in told
    away = _points(tmp_path, corner=(1000.0, 2000.0))
    assert "about --corner 1000." in _refused(away, job, "--units", "m")
    _import(away, job, "--units", "m", "--corner", "1000,2000")
    _import(_points(tmp_path, scale=1 / 0.3048), job, "--units", "ft")


def test_what_nobody_said_is_asked_for_once(
    tmp_path: Path, job: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    file = _points(tmp_path)
    assert "In which unit" in _refused(file, job)
    asked: list[str] = []

    def answered(question: str, answers: tuple[str, ...]) -> str:
        asked.append(question)
        return "m" if "m" in answers else "point,easting,northing,height,-"

    monkeypatch.setattr(import_points, "_ask", answered)
    _import(file, job)
    file.write_text("\n".join(f"{n},{n % 5},{n % 3},1.0,x" for n in range(40)), "utf-8")
    _import(file, job)
    assert len(asked) == 3
    assert "which column is what" in asked[2]
    assert "40 points" in capsys.readouterr().out


def test_a_square_room_asks_which_comes_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    job, file = tmp_path / "square.leadsman", tmp_path / "points.csv"
    _run(tmp_path, job, "room 6 by 6 metres\n", capsys)
    file.write_text("\n".join(f"{n % 5 + 0.5},{n % 3 + 0.5},1.0" for n in range(60)), "utf-8")
    assert "easting or northing come first" in _refused(file, job, "--units", "m")
    monkeypatch.setattr(import_points, "_ask", lambda *_: "northing")
    _import(file, job, "--units", "m")
    assert "changed over" in capsys.readouterr().out


def test_a_bad_row_and_a_room_that_was_not_told(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = _points(tmp_path, 50)
    file.write_text(file.read_text("utf-8") + "1,2\n", "utf-8")
    assert "row 52: 2 cells" in _refused(file, job, "--units", "m")
    empty = tmp_path / "empty.leadsman"
    _run(tmp_path, empty, "note x\n", capsys)
    assert "The room first" in _refused(_points(tmp_path, 50), empty, "--units", "m")
    for option, value in (("--zero", "x"), ("--corner", "7"), ("--good-to", "0")):
        assert option in _refused(_points(tmp_path, 50), job, "--units", "m", option, value)


def test_an_interrupted_import_leaves_the_job_as_it_was(
    tmp_path: Path, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, before = _points(tmp_path), job.read_bytes()

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    for where in ("insert_attachment", "mark_counted"):
        with monkeypatch.context() as patched:
            patched.setattr(f"assistant.record.journal.{where}", interrupted)
            with pytest.raises(KeyboardInterrupt):
                _import(file, job, "--units", "m")
        with Journal.open(job) as journal:
            assert journal.last_utterance() == 1
    assert job.read_bytes() == before


def test_the_zero_says_how_high_it_is(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _import(_points(tmp_path), job, "--units", "m", "--zero", "100.005")
    capsys.readouterr()
    (scan,) = _run(tmp_path, job, "scan\n", capsys)
    assert scan["data"]["scan"]["against"] == "zero"
    assert scan["data"]["scan"]["median_mm"] == pytest.approx(-5, abs=1.5)


def test_options_are_read_exactly() -> None:
    options = argparse.Namespace(corner="1000.5,2000")
    assert import_points._pair(options.corner) == (Decimal("1000.5"), Decimal(2000))
    assert command_of("scan").__class__.__name__ == "AskScan"
