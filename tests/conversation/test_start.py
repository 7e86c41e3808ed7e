"""What a start fetches: nothing heavy that its lines do not need."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

ASKED_FOR = """
import io, sys
from assistant.__main__ import main
sys.stdin = io.TextIOWrapper(io.BytesIO(sys.argv[1].encode()))
main(["run", "-", *sys.argv[3:]])
fetched = {name.split(".")[0] for name in sys.modules}
print(*sorted(fetched & set(sys.argv[2].split())), file=sys.stderr)
"""


ROOT = Path(__file__).parents[2]
HEAVY = {"scipy", "pint", "shapely", "prompt_toolkit", "rich"}


def fetched_for(lines: str, *options: str) -> set[str]:
    run = subprocess.run(
        [sys.executable, "-c", ASKED_FOR, lines, " ".join({*HEAVY, "numpy"}), *options],
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=60,
    )
    assert run.stdout.count("\n") >= lines.count("\n"), run.stderr
    return set(run.stderr.splitlines()[-1].split())


@pytest.mark.parametrize(
    "lines",
    [
        "tally\n",
        "room 4 by 3 metres\ntally\nwarnings\nwhat if room 5 by 4 metres\nundo\n",
        "wall 3 metres east\n",
        "B3 18 below\nB3 19 below\nmap\ntally\n",
    ],
)
def test_an_answer_waits_for_nothing_heavy(lines: str) -> None:
    assert fetched_for(lines) == set()  # rich neither, as no terminal shows it


MATTERS_FETCHED = """
import io, sys
from assistant.__main__ import main
sys.stdin = io.TextIOWrapper(io.BytesIO(sys.argv[1].encode()))
main(["run", "-"])
rows = [name.split(".") for name in sys.modules]
there = {name[2] for name in rows if name[:2] == ["assistant", sys.argv[2]] and len(name) == 3}
print(*sorted(there), file=sys.stderr)
"""


@pytest.mark.parametrize("floor", ["decide", "answers"])
def test_of_deciders_and_answers_a_line_loads_those_of_its_matter(floor: str) -> None:
    """Nothing of the pour, the guide or the site for a reading on a floor without a guide."""
    line = [sys.executable, "-c", MATTERS_FETCHED, "B3 18 below\n", floor]
    run = subprocess.run(line, capture_output=True, text=True, cwd=ROOT, timeout=60, check=True)
    there = set(run.stderr.splitlines()[-1].split())
    assert "readings" in there
    assert there.isdisjoint({"pour", "guide", "site", "material", "proof", "zones"}), there


def test_an_answer_in_json_waits_for_nothing_heavy() -> None:
    assert fetched_for("tally\n", "--json") == set()


def test_a_grid_is_laid_with_arrays_alone() -> None:
    """So that the test above could fail."""
    assert fetched_for("room 12 by 8 feet\ngrid 2 feet\nB3 1/2 inch below\n") == {"numpy"}


def test_the_second_reading_waits_for_nothing_that_weighs_it_where_it_is_near_the_first() -> None:
    near = "room 12 by 8 metres\ngrid 2 metres\nA1 -12\nB1 -14\nC1 -2\n"
    assert fetched_for(near) == {"numpy"}
    assert "scipy" in fetched_for(f"{near}D1 -90\n")


def test_what_a_line_needs_is_fetched() -> None:
    assert "pint" in fetched_for("B3 18 degrees\n")


FRAMES_FETCHED = """
import io, sys
from assistant.__main__ import main
sys.stdin = io.TextIOWrapper(io.BytesIO(sys.argv[1].encode()))
main(["run", "-"])
print(*sorted({"grammar.gist", "grammar.frame_table"} & sys.modules.keys()), file=sys.stderr)
"""


@pytest.mark.parametrize(
    ("line", "fetched"),
    [
        ("B3 18 below", []),
        ("tally", []),
        ("the thing is all over the place", ["grammar.frame_table", "grammar.gist"]),
    ],
)
def test_frames_are_fetched_for_a_line_that_no_row_takes(line: str, fetched: list[str]) -> None:
    run = subprocess.run(
        [sys.executable, "-c", FRAMES_FETCHED, f"{line}\n"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=60,
    )
    assert run.stderr.splitlines()[-1].split() == fetched
