"""Floors that are handed over: an even one, one with a notch and a column, one with bad names."""

from __future__ import annotations

import pytest

from assistant.events.jobs import AddressSet, ClientNamed
from assistant.events.notes import NoteTaken
from assistant.floor.walk import points_missing
from assistant.job import Job, next_number, record
from assistant.reply.times import UNTIMED
from tests.job.conftest import Site

HOSTILE = (
    '=HYPERLINK("http://x")',
    "<script>alert(1)</script>",
    "\u202e81- 3B\u2066",
    "a\x00b\x1b[2J",
    "+49 & <b>\u2028]]>",
    "%%u\\U+202E\\P{x}#[x]$y$",
)
"""Client, address and notes that somebody could type: a formula, markup, signs that turn the
direction, control signs, codes of drawings and of typesetting."""


def read_all(floor: Site) -> Job:
    """Every point read, each a little other than the one before."""
    for number, point in enumerate(points_missing(floor.job)):
        floor.told(f"{point} -{10 + 7 * number % 11} mm")
    return floor.job


def l_shaped() -> Site:
    """A room with an inside corner and a column."""
    return Site(
        "wall east 6 metres", "wall north 3 metres", "wall west 2 metres", "wall north 2 metres",
        "wall west 4 metres", "close room", "grid 1 metre", "column 0.3 by 0.3 metres at B2",
        "product example standard",
    )  # fmt: skip


@pytest.fixture(scope="session")
def floor() -> Job:
    """A plain room, planned."""
    site = Site("room 12 by 8 metres", "grid 2 metres", "product example standard")
    read_all(site)
    site.told("door 1 at A1", "crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6")
    return site.job


@pytest.fixture(scope="session")
def notched() -> Job:
    """The room with an inside corner."""
    return read_all(l_shaped())


@pytest.fixture(scope="session")
def hostile() -> Job:
    """The same, with names and notes that want to be more than text."""
    job = read_all(l_shaped())
    client, address, *notes = HOSTILE
    # Typed, some of them would be refused; a file can hold them all.
    told = [ClientNamed(client), AddressSet(address), *(NoteTaken(each) for each in notes)]
    for each, said in zip(told, HOSTILE, strict=True):
        job = record(job, next_number(job), said, (each,), UNTIMED)
    return job
