"""What the project says of itself in its metadata holds."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from assistant.version import __version__

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
METADATA, PYTEST = PROJECT["project"], PROJECT["tool"]["pytest"]["ini_options"]


def test_the_newest_change_is_of_this_version() -> None:
    page = (ROOT / "CHANGELOG.md").read_text("utf-8")
    versions = re.findall(r"^## (\S+)$", page, re.MULTILINE)
    assert versions[0] == __version__
    assert versions == sorted(versions, reverse=True, key=lambda one: [*map(int, one.split("."))])


def test_the_metadata_speaks_of_the_pythons_of_the_readme() -> None:
    classes = METADATA["classifiers"]
    told = [each.rsplit(" ", 1)[-1] for each in classes if re.search(r"Python :: 3\.\d+$", each)]
    row = re.search(r"Linux x86-64 and ARM \| Python 3\.(\d+) to 3\.(\d+)",
                    (ROOT / "README.md").read_text("utf-8"))  # fmt: skip
    assert row
    first, last = map(int, row.groups())
    assert told == [f"3.{minor}" for minor in range(first, last + 1)]
    assert METADATA["requires-python"] == f">=3.{first}"


def test_there_are_words_to_find_it_by_and_no_address() -> None:
    assert METADATA["keywords"]
    assert "urls" not in METADATA


def test_every_marker_is_used_and_said_what_for() -> None:
    assert PYTEST["xfail_strict"] is True
    assert "--strict-markers" in PYTEST["addopts"]
    text = "".join(path.read_text("utf-8") for path in (ROOT / "tests").rglob("*.py"))
    for marker in PYTEST["markers"]:
        name, _, told = marker.partition(": ")
        assert told
        assert re.search(rf"pytest\.mark\.{name}\b", text), f"nothing is marked {name}"
