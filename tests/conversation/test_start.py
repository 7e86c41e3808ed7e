"""What a start fetches: nothing heavy that its lines do not need."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ASKED_FOR = """
import io, sys
from assistant.__main__ import main
sys.stdin = io.TextIOWrapper(io.BytesIO(sys.argv[1].encode()))
main(["run", "-", "--json"])
fetched = {name.split(".")[0] for name in sys.modules}
print(*sorted(fetched & {"scipy", "pint", "shapely", "prompt_toolkit", "rich"}), file=sys.stderr)
"""


def fetched_for(lines: str) -> set[str]:
    run = subprocess.run(
        [sys.executable, "-c", ASKED_FOR, lines],
        capture_output=True,
        text=True,
        cwd=Path(__file__).parents[2],
        timeout=60,
    )
    assert run.stdout.count("\n") == lines.count("\n"), run.stderr
    return set(run.stderr.splitlines()[-1].split())


@pytest.mark.parametrize(
    "lines",
    [
        "tally\n",
        "room 12 by 8 feet\ngrid 2 feet\nB3 1/2 inch below\n",
    ],
)
def test_an_answer_waits_for_nothing_heavy(lines: str) -> None:
    assert fetched_for(lines) == set()


def test_what_a_line_needs_is_fetched() -> None:
    """So that the test above could fail."""
    assert "pint" in fetched_for("B3 18 degrees\n")
