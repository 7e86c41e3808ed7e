"""The picture of a session: as the screen shows it, whole or not at all, over nobody's file."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest

from assistant.__main__ import INTERRUPTED, main
from assistant.command_line import showing
from assistant.reply.replies import Turn

ROOT = Path(__file__).parents[2]
SESSION = ROOT / "docs" / "session.txt"


def _rows(picture: Path) -> list[str]:
    """What is written in a picture, line by line as it is seen."""
    rows: dict[float, list[tuple[float, str]]] = {}
    for piece in ElementTree.parse(picture).iter("{http://www.w3.org/2000/svg}text"):
        place = float(piece.attrib["y"]), float(piece.attrib["x"])
        rows.setdefault(place[0], []).append((place[1], "".join(piece.itertext())))
    return [
        "".join(text for _, text in sorted(rows[row])).replace("\u00a0", " ").rstrip()
        for row in sorted(rows)
    ]


def test_the_picture_in_the_readme_is_what_the_screen_shows(tmp_path: Path) -> None:
    """After a meant change: ``leadsman run docs/session.txt --svg docs/session.svg``."""
    drawn = tmp_path / "session.svg"
    assert main(["run", str(SESSION), "--svg", str(drawn)]) == 0
    kept = ROOT / "docs" / "session.svg"
    assert _rows(kept) == _rows(drawn)
    assert kept.read_text("utf-8") == drawn.read_text("utf-8")
    assert "docs/session.svg" in (ROOT / "README.md").read_text("utf-8")


@pytest.mark.parametrize(
    "set_to", [{"NO_COLOR": "1"}, {"TERM": "dumb", "COLUMNS": "44"}], ids=["no colour", "narrow"]
)
def test_it_is_the_same_from_every_terminal(
    set_to: dict[str, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, value in set_to.items():
        monkeypatch.setenv(name, value)
    drawn = tmp_path / "session.svg"
    assert main(["run", str(SESSION), "--svg", str(drawn)]) == 0
    assert drawn.read_bytes() == (ROOT / "docs" / "session.svg").read_bytes()


def test_it_shows_the_lines_of_the_screen_and_the_json_stays_alone(
    lines: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    drawn = tmp_path / "session.svg"
    assert main(["run", str(lines), "--svg", str(drawn)]) == 0
    shown = capsys.readouterr().out
    assert main(["run", str(lines), "--json", "--svg", str(drawn)]) == 0
    assert all(line.startswith("{") for line in capsys.readouterr().out.splitlines())
    words = [line.strip() for line in _rows(drawn) if line.strip()]
    assert words[:2] == ["> room 8 by 6 metres", "Room 8 m by 6 m, 48 m²."]
    assert words[0] in shown
    assert words[1] in shown


def test_it_fetches_nothing_and_names_no_machine() -> None:
    text = (ROOT / "docs" / "session.svg").read_text("utf-8")
    assert set(re.findall(r"[a-z]+://[^\"]*", text)) == {"http://www.w3.org/2000/svg"}
    assert not re.search(r"url\((?!#)|@import|<image|<script|/home|/root|/tmp", text)
    assert str(Path.home()) not in text


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("lines.txt", "ends in .svg"),
        ("folder.svg", "is a folder"),
        ("job.svg", "is no picture"),
        ("nowhere/session.svg", "cannot be written"),
    ],
)
def test_a_slip_in_its_name_plays_nothing_and_writes_over_nothing(
    name: str, why: str, lines: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "folder.svg").mkdir()
    (tmp_path / "job.svg").write_text("somebody's job")
    before = {path: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}
    kept = tmp_path / "floor.leadsman"
    command = ["run", str(lines), "--job", str(kept), "--svg", str(tmp_path / name)]
    assert main(command) == 2
    said = capsys.readouterr()
    assert why in said.err.replace("\n", " ")
    assert said.out == ""
    assert {path: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()} == before


def test_a_run_that_breaks_off_leaves_the_picture_of_before(
    lines: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn = tmp_path / "session.svg"
    assert main(["run", str(lines), "--svg", str(drawn)]) == 0
    before = drawn.read_bytes()

    def broken_off(_line: int, _turn: Turn) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr(showing, "json_line", broken_off)
    assert main(["run", str(lines), "--json", "--svg", str(drawn)]) == INTERRUPTED
    assert drawn.read_bytes() == before
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(".")]
