"""What the papers say is what the program does."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from assistant.terminal.phrase_list import reference_markdown
from grammar import understand

ROOT = Path(__file__).parents[2]


_SESSION = (ROOT / "README.md").read_text("utf-8").split("```text\n")[1].split("```")[0]
_SAID = [line.split("  ")[0] for line in _SESSION.splitlines()]
PAGES = [
    path.relative_to(ROOT) for path in (*ROOT.glob("*.md"), *sorted((ROOT / "docs").glob("*.md")))
]


def test_the_page_of_phrases_is_the_language_as_it_is() -> None:
    """After a change of phrases: ``leadsman phrases --markdown > docs/phrases.md``."""
    page = (ROOT / "docs" / "phrases.md").read_text(encoding="utf-8")
    assert page == reference_markdown()


def test_the_readme_has_its_commands_typed_first() -> None:
    page = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = re.findall(r"```sh\n(.*?)\n```", page, re.DOTALL)
    assert [command.split(" && ")[-1] for command in commands] == [
        ".venv/bin/leadsman demo",
        "pipx install .",
        ".venv/bin/pip install --quiet '.[voice]'; .venv/bin/leadsman voice check",
        ".venv/bin/python -m pytest -q -n auto -m 'not slow'",
    ]
    assert "voice" not in commands[0]


def test_what_the_readme_leaves_out_of_the_tests_is_run_right_after_it() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    readme, slow = 'bash -euo pipefail -c "$tests"', ".venv/bin/python -m pytest -q -n auto -m slow"
    lines = [line for line in script.splitlines() if line and not line.startswith(("#", "echo"))]
    first = lines.index(f"LEADSMAN_SKIPS=listed {readme}")
    assert lines[first + 1] == f"LEADSMAN_SKIPS=listed {slow}"
    assert slow in (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("page", PAGES, ids=str)
def test_a_page_leads_somewhere(page: Path) -> None:
    """Each link to a file of the project, with the heading it names."""
    text = (ROOT / page).read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)\s]+)\)", text):
        path, _, heading = target.partition("#")
        there = (ROOT / page).parent / path if path else ROOT / page
        assert there.is_file(), f"{page} leads to {target}"
        assert not heading or heading in _headings(there), f"{page} leads to {target}"


def _headings(page: Path) -> set[str]:
    """As pages on the web name them: small letters, hyphens for blanks, signs left out."""
    heads = re.findall(r"^#+ (.*)$", page.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", head.lower()).replace(" ", "-") for head in heads}


@pytest.mark.parametrize("phrase", _SAID)
def test_what_the_readme_has_somebody_say_is_understood(phrase: str) -> None:
    assert understand(phrase)


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
