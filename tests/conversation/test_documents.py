"""What the papers say is what the program does."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from assistant.terminal.phrase_list import reference_markdown

ROOT = Path(__file__).parents[2]


def test_the_readme_lists_the_language_as_it_is() -> None:
    """After a change of phrases: ``leadsman phrases --markdown`` between the marks."""
    page = (ROOT / "README.md").read_text(encoding="utf-8")
    listed = page.split("<!-- phrases -->\n")[1].split("<!-- end of phrases -->")[0]
    assert listed.strip() == reference_markdown().strip()


def test_the_readme_has_its_commands_typed_first() -> None:
    page = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = re.findall(r"```sh\n(.*?)\n```", page, re.DOTALL)
    assert [command.split(" && ")[-1] for command in commands] == [
        ".venv/bin/leadsman demo",
        ".venv/bin/pip install --quiet '.[voice]'; .venv/bin/leadsman voice check",
        ".venv/bin/python -m pytest -q -n auto",
    ]
    assert "voice" not in commands[0]


@pytest.mark.parametrize("name", ["boat_shed"])
def test_the_demo_gets_the_replies_it_is_expected_to(name: str, tmp_path: Path) -> None:
    """After a meant change: the command in DEVELOPERS.md writes them anew, to be read through."""
    played = subprocess.run(
        [sys.executable, "-m", "assistant", "demo", "--plain"],
        capture_output=True,
        env={"LEADSMAN_HOME": str(tmp_path), "PATH": "", "PYTHONPATH": str(ROOT), "COLUMNS": "80"},
        check=True,
    )
    expected = (ROOT / "demo" / f"{name}.replies.txt").read_text(encoding="utf-8")
    assert played.stdout.decode() == expected
