"""``leadsman export`` and its kin, as they are typed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from assistant.__main__ import main

LINES = (
    "room 6 by 4 metres\ngrid 2 metres\nproduct example standard\nA1 -12 mm\nB1 -14 mm\nA2 -9 mm\n"
)


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A job in the data folder, and the folder that one stands in."""
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    (tmp_path / "home" / "jobs").mkdir(parents=True)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "lines.txt").write_text(LINES)
    job = tmp_path / "home" / "jobs" / "boat-shed.leadsman"
    assert main(["run", "lines.txt", "--job", str(job)]) == 0
    return tmp_path


def test_a_job_is_exported_by_its_name_or_as_the_last(
    kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["export", "Boat Shed"]) == 0
    assert "points.csv" in capsys.readouterr().out
    folder = kept / "boat-shed-handover"
    assert {path.suffix for path in folder.iterdir()} == {".csv"}
    assert main(["export", "--format", "json", "--out", str(kept / "out")]) == 0
    assert (kept / "out" / "job.json").is_file()
    assert main(["export"]) == 0
    assert "just the same" in capsys.readouterr().out
    (folder / "points.csv").write_text("mine")
    assert main(["export"]) == 2
    assert "--replace" in capsys.readouterr().err
    assert (folder / "points.csv").read_text() == "mine"


def test_what_cannot_be_exported_is_told(kept: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for arguments, told in [
        (["export", "nowhere"], "There is no job 'nowhere'. There are boat-shed."),
        (["export", "boat-shed", "--job", "x.leadsman"], "Name the job once"),
        (["export", "--job", "x.leadsman"], "There is no file x.leadsman"),
        (["export", "x" * 300], "There is no job 'xxx"),
        (["export", "--job", "x" * 300], "There is no file xxx"),
        (["report", "a/" + "x" * 300], "There is no file a/xxx"),
        (["jobs", "export", "boat-shed", "x" * 300 + ".leadsman"], "No copy was made: File name"),
        (["report", "--out", "x" * 300], "cannot be written: File name too long"),
    ]:
        assert main(arguments) == 2
        assert told in " ".join(capsys.readouterr().err.split())
    assert not (kept / "x.leadsman").exists(), "asking for a job must not begin one"


def test_a_picture_is_drawn_into_the_folder_or_the_file(kept: Path) -> None:
    assert main(["picture"]) == 0
    folder = kept / "boat-shed-handover"
    assert (folder / "planned.svg").read_text().startswith("<svg")
    assert main(["picture", "--along", "a1", "B2", "--out", "cut.svg"]) == 0
    assert "Cut from A1 to B2" in (kept / "cut.svg").read_text()
    assert main(["picture", "--png", "--out", "cut.svg"]) == 2
    assert main(["picture", "--png", "--out", "floor.png"]) == 0
    assert (kept / "floor.png").read_bytes().startswith(b"\x89PNG")


def test_a_report_is_written_as_page_and_paper(kept: Path) -> None:
    assert main(["report", "--pdf"]) == 0
    assert main(["report", "--short"]) == 0
    folder = kept / "boat-shed-handover"
    assert {path.name for path in folder.iterdir()} == {"report.html", "report.pdf", "brief.html"}
    assert (folder / "report.pdf").read_bytes().startswith(b"%PDF-")


def test_a_missing_package_is_named_with_the_way_to_it(
    kept: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    assert main(["export", "--format", "dxf"]) == 2
    told = capsys.readouterr().err
    assert "pip install 'leadsman[export]'" in told
    assert "ezdxf" in told
    assert not (kept / "boat-shed-handover").exists()
    monkeypatch.setitem(sys.modules, "contourpy", None)
    monkeypatch.setitem(sys.modules, "typst", None)
    assert main(["picture", "--png"]) == 2
    assert main(["picture"]) == 2
    assert "pip install 'leadsman[picture]'" in capsys.readouterr().err
    monkeypatch.setitem(sys.modules, "jinja2", None)
    assert main(["report"]) == 2
    assert "pip install 'leadsman[report]'" in capsys.readouterr().err


def test_a_job_that_is_open_in_another_window_is_reported_as_it_stands(
    kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = kept / "home" / "jobs" / "boat-shed.leadsman"
    before = file.read_bytes()
    other = (
        "import sys; from pathlib import Path; from assistant.record.journal import Journal\n"
        "with Journal.open(Path(sys.argv[1])): print('open', flush=True); sys.stdin.read()"
    )
    with subprocess.Popen([sys.executable, "-c", other, str(file)], stdin=subprocess.PIPE,
                          stdout=subprocess.PIPE, text=True) as window:  # fmt: skip
        assert window.stdout is not None
        assert window.stdout.readline() == "open\n"
        assert main(["export", "--out", "out"]) == 0
        assert main(["jobs", "export", "boat-shed"]) == 2
        window.communicate()
    told = capsys.readouterr().err
    assert "boat-shed is open in another window: as it stands there now" in told
    assert "End that one first" in told, "a copy of the file wants it closed"
    assert "A2,slab" in (kept / "out" / "points.csv").read_text()
    assert file.read_bytes() == before
