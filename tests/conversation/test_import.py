"""Points imported into a job: whole or not at all, laid in the room, and looked along."""

from __future__ import annotations

import argparse
import json
import re
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.command_line import import_points
from assistant.command_line.parser import run
from assistant.errors import JournalError, LeadsmanError
from assistant.events.flatness import ScanImported
from assistant.job import Job, fold, record
from assistant.record.attachments import attachment_of
from assistant.record.event_rows import Row, event_of, row_of
from assistant.record.journal import Journal
from tests.job.conftest import command_of

ROOM = "room 6 by 4 metres\n"
NOW = datetime(2026, 5, 5, tzinfo=UTC)


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


def test_metres_said_as_feet_lie_in_a_corner_and_are_asked_about(
    tmp_path: Path, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    metres = _points(tmp_path)
    told = _refused(metres, job, "--units", "ft")
    assert "As numbers in ft the points span 1." in told
    assert "In m they would be as large as it: --units m" in told
    assert "as large as it: --units m" in _refused(metres, job, "--units", "cm")
    # Of a corner alone: said by where it lies, by an answer, or by a header.
    _import(metres, job, "--units", "ft", "--corner", "0,0")
    monkeypatch.setattr(import_points, "_ask", lambda _question, answers: answers[0])
    _import(metres, job, "--units", "ft")
    monkeypatch.setattr(import_points, "_ask", lambda _question, answers: answers[-1])
    assert _refused(metres, job, "--units", "ft") == "Nothing was taken."
    _import(_points(tmp_path, header="x_ft,y_ft,height_ft"), job)


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
    file.write_text("\n".join(f"{n},{n % 5},{n // 10},1.0,x" for n in range(40)), "utf-8")
    _import(file, job)
    assert len(asked) == 3
    # The unit last, as a header may say it.
    assert "which column is what" in asked[1]
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
    short = _refused(file, job, "--units", "m")
    assert "row 52: 2 cells, where 3 are expected: 1,2. Nothing was taken" in short
    empty = tmp_path / "empty.leadsman"
    _run(tmp_path, empty, "note x\n", capsys)
    assert "The room first" in _refused(_points(tmp_path, 50), empty, "--units", "m")
    for option, value in (("--zero", "x"), ("--corner", "7"), ("--good-to", "0")):
        assert option in _refused(_points(tmp_path, 50), job, "--units", "m", option, value)


def test_an_interrupted_import_leaves_the_job_as_it_was(
    tmp_path: Path,
    job: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    file, before = _points(tmp_path), job.read_bytes()

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    for where in ("insert_attachment", "mark_counted"):
        with monkeypatch.context() as patched:
            patched.setattr(f"assistant.record.journal.{where}", interrupted)
            with pytest.raises(KeyboardInterrupt):
                _import(file, job, "--units", "m")
        assert "Stopped; nothing was taken." in capsys.readouterr().err
        with Journal.open(job) as journal:
            assert journal.last_utterance() == 1
    assert job.read_bytes() == before
    monkeypatch.setattr("assistant.answers.answer", interrupted)
    with pytest.raises(KeyboardInterrupt):
        _import(file, job, "--units", "m")
    assert "Stopped after the file was taken" in capsys.readouterr().err
    with Journal.open(job) as journal:
        assert journal.last_utterance() == 2


def test_a_file_of_hardly_any_points_is_no_scan(tmp_path: Path, job: Path) -> None:
    file = tmp_path / "few.csv"
    file.write_text("x_m,y_m,height_m\n1,1,0\n2,2,0\n", "utf-8")
    assert "few.csv: 2 points of 2 on the floor to be poured" in _refused(file, job)
    file.write_text(file.read_text("utf-8") + "3,3,0\n", "utf-8")
    _import(file, job)


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
    assert import_points._pair("--corner", options.corner) == (Decimal("1000.5"), Decimal(2000))
    assert command_of("scan").__class__.__name__ == "AskScan"


def _turned(folder: Path, degrees: float, *, mirror: bool = False, header: str = "") -> Path:
    """The same points on a total station's own axes: the corner at 1000, 2000."""
    table = np.loadtxt(_points(folder, 3_000), delimiter=",", skiprows=1)
    turn = np.radians(degrees)
    axes = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    table[:, :2] = table[:, :2] @ axes + (1000, 2000)
    if mirror:
        table[:, :2] = table[:, 1::-1]
    path = folder / "total.csv"
    np.savetxt(path, table, "%.5f", ",", header=header, comments="")
    return path


@pytest.mark.parametrize(("degrees", "mirror"), [(30, False), (30, True), (-125, False)])
def test_axes_of_their_own_are_turned_by_two_places_that_are_told(
    tmp_path: Path, job: Path, degrees: float, mirror: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    """Rotation by exact arithmetic; northing before easting shows by where the points fall."""
    file = _turned(tmp_path, degrees, mirror=mirror)
    turn = np.radians(degrees)
    side = (1000 + 3 * np.cos(turn), 2000 + 3 * np.sin(turn))
    corner = (1000.0, 2000.0)
    if mirror:
        side, corner = side[::-1], corner[::-1]
    told = ["--corner", f"{corner[0]},{corner[1]}", "--along", f"{side[0]:.4f},{side[1]:.4f}"]
    _import(file, job, "--units", "m", *told)
    told_of_it = capsys.readouterr().out
    (scan,) = _run(tmp_path, job, "scan\n", capsys)
    assert scan["data"]["scan"]["swapped"] is mirror
    assert scan["data"]["scan"]["off_floor"] < 10
    # The box stands where it stood, so it is neither mirrored nor turned about.
    assert re.search("(2|1.9|2.1) m from the left wall, (1|0.9|1.1) m from the wall at row 1",
                     " ".join(told_of_it.split()))  # fmt: skip
    # The wrong corner, the same place twice, and a side without its corner.
    wrong = ["--corner", f"{corner[0] + 9},{corner[1]}", *told[2:]]
    assert "points lie in the room" in _refused(file, job, "--units", "m", *wrong)
    same = ["--corner", "1,2", "--along", "1,2"]
    assert "one place" in _refused(file, job, "--units", "m", *same)
    assert "say both" in _refused(file, job, "--units", "m", *told[2:])


def test_axes_of_their_own_are_tried_and_asked_about(
    tmp_path: Path, job: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    named = _turned(tmp_path, 30, header="E,N,Z")
    told = _refused(named, job, "--units", "m")
    # A rectangle looks the same from two corners; once names are given there are no mirrored ones.
    assert told.count("--along") == 2
    assert "1, about --corner 1000.0" in told
    assert "--along 1005." in told
    plain = _turned(tmp_path, 30)
    assert _refused(plain, job, "--units", "m").count("--along") == 4
    assert "a place on it too: --along" in _refused(plain, job, "--units", "m", "--corner", "1,2")
    monkeypatch.setattr(import_points, "_ask", lambda *_: "none")
    assert _refused(plain, job, "--units", "m") == "Nothing was taken."
    monkeypatch.setattr(import_points, "_ask", lambda *_: "1")
    _import(plain, job, "--units", "m")
    assert re.search(
        "axes were turned by (29.9|30|30.1)° ", " ".join(capsys.readouterr().out.split())
    )
    # Half as large as the room, it fits in no way.
    table = np.loadtxt(plain, delimiter=",")
    np.savetxt(plain, (table - (1000, 2000, 0)) * (0.5, 0.5, 1) + (70, 80, 0), "%.4f", ",")
    assert "axes of its own" in _refused(plain, job, "--units", "m")


def test_our_own_table_of_points_comes_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Metres and millimetres in one file, both floors, and a point that is not read yet."""
    job = tmp_path / "slab.leadsman"
    slab = "room 8 by 6 metres\ngrid 2 metres\nproduct example standard\nrow 1 -6 -6 -7 -7\n"
    _run(tmp_path, job, f"{slab}row 2 -9 -9 -8 -7\nconfirm\nA3 -7\nB3 -8\nC3 -9\n", capsys)
    run(["export", "--job", str(job), "--format", "csv", "--out", str(tmp_path / "out")])
    table = tmp_path / "out" / "points.csv"
    assert "-6" in table.read_text("utf-8-sig")
    _import(table, job, "--zero", "0")
    capsys.readouterr()
    tally, drawn = (each["data"] for each in _run(tmp_path, job, "tally\nmap\n", capsys))
    assert tally["tally"]["by_scan"]["seen_m2"] == pytest.approx(44)
    # 11 cells of 4 m² with a mean of 83/11 mm, on 48 m²: exact arithmetic.
    assert tally["tally"]["by_scan"]["fill_m3"] == pytest.approx(48 * 83 / 11 / 1000)
    assert drawn["map"].get("by") is None
    assert "in mm, so they are not all in m" in _refused(table, job, "--units", "m")
    run(["report", "--job", str(job), "--out", str(tmp_path / "page")])
    capsys.readouterr()
    page = (tmp_path / "page" / "report.html").read_text("utf-8")
    assert "What was scanned of the slab" in page
    assert "Below the finish in mm, squares from above" in page
    _run(tmp_path, job, "pour finished\n", capsys)
    assert "no point of the finished floor" in _refused(table, job)
    _run(tmp_path, job, "A1 level\nB1 +1\nC1 level\n", capsys)
    run(["export", "--job", str(job), "--format", "csv", "--out", str(tmp_path / "after")])
    capsys.readouterr()
    _import(tmp_path / "after" / "points.csv", job)
    assert "3 points on the floor" in capsys.readouterr().out


def test_each_floor_has_its_scan_and_the_map_shows_it(
    tmp_path: Path, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _import(_points(tmp_path), job, "--units", "m", "--zero", "100.01")
    capsys.readouterr()
    lines = "map\ntally\npour finished\nscan\n"
    drawn, tally, _, gone = _run(tmp_path, job, lines, capsys)
    assert drawn["data"]["map"]["by"] == "scan"
    depths = [spot["depth_mm"] for spot in drawn["data"]["map"]["spots"]]
    assert all(depth is None or 5 < depth < 15 for depth in depths)
    # 10 mm below the finish, and a wave that is nothing over its whole length of 4 m and half of
    # one over 6 m: the mean over x of 3 sin(2 pi x / 4) is 3 * 4 / (6 pi) mm.
    mean = 10 - 3 * 4 / (6 * np.pi)
    by_scan = tally["data"]["tally"]["by_scan"]
    assert by_scan["fill_m3"] == pytest.approx(24 * mean / 1000, rel=0.01)
    assert by_scan["m3_per_mm_of_zero"] == pytest.approx(0.024)
    assert gone["ok"] is False
    _import(_points(tmp_path), job, "--units", "m")
    capsys.readouterr()
    lines = "map\ndrop scan\ndrop scan\n"
    drawn, dropped, gone = _run(tmp_path, job, lines, capsys)
    assert drawn["data"]["map"]["by"] == "scan"
    assert (dropped["ok"], gone["ok"]) == (True, False)
    with Journal.open(job) as journal:
        assert fold(journal.utterances()).scans.keys() == {False}


def test_a_zero_that_no_floor_lies_near_is_refused(tmp_path: Path, job: Path) -> None:
    """The floor of the file lies at 100 m; more than 400 mm off is no floor to be poured."""
    file = _points(tmp_path, 600)
    told = _refused(file, job, "--units", "m", "--zero", "10")
    assert "90.00 m above the job's zero" in told
    assert "at about 100.0" in told
    assert "below the job's zero" in _refused(file, job, "--units", "m", "--zero", "100.5")
    _import(file, job, "--units", "m", "--zero", "100.3")


def test_a_scan_that_an_older_program_recorded_is_of_its_floor() -> None:
    """Version 1 had no corner and one scan of a job, which a drop dropped whatever it was of."""
    facts = {
        "file": "a.csv", "digest": "", "points": 3, "off_floor": 0, "swapped": False,
        "finished": True, "good_to": None, "zero": None,
        "side": {"number": "0.1", "unit": "m"}, "columns": 1, "rows": 1, "cells": "",
    }  # fmt: skip
    event = event_of(Row("scan-imported", 1, json.dumps(facts)))
    assert isinstance(event, ScanImported)
    assert (event.corner, event.single, event.either) == ((), False, False)
    dropped = event_of(
        Row("scan-imported", 1, json.dumps({**facts, "file": None, "finished": False}))
    )
    job = record(record(Job(), 1, "x", (event,), NOW), 2, "y", (dropped,), NOW)
    assert job.scans == {}
    again = row_of(event)
    assert again.version == 2
    assert event_of(again) == event
