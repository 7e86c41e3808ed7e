"""The last value that is taken of each measurement, and the first that is not."""

from __future__ import annotations

import pytest

from assistant.errors import Refusal
from grammar.misses import Misunderstood
from tests.job.conftest import Site

TAKEN = (
    "pH 0", "pH 14", "humidity 100 percent", "humidity 0.5 percent", "slab humidity 100 percent",
    "moisture emission 0", "moisture emission 50", "bag costs 1000000 euros", "bag costs 0.01",
    "air minus 30 degrees", "air 50 degrees", "slab 122 degrees fahrenheit",
)  # fmt: skip
REFUSED = (
    ("pH 14.1", "from 0 to 14"), ("humidity 0 percent", "more than 0"),
    ("humidity 100.5 percent", "at most 100"), ("moisture emission 50.5", "from 0 to 50"),
    ("bag costs 0", ""), ("bag costs 1000001 euros", ""), ("air 51 degrees", "from -30 to 50"),
    ("air minus 31 degrees", "from -30 to 50"), ("slab 123 degrees fahrenheit", "from -22 to 122"),
)  # fmt: skip


def test_the_last_that_is_taken() -> None:
    for line in TAKEN:
        try:
            Site(line)
        except (Refusal, Misunderstood) as refused:
            pytest.fail(f"{line}: {refused}")


def test_the_first_that_is_not() -> None:
    for line, told in REFUSED:
        assert told in Site().refused(line), line
