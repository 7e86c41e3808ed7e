"""What a floor is held to, at the ends: how long an edge is, and gaps that limit nothing."""

from __future__ import annotations

import pytest

from assistant.decide.flatness import check_edge, drop_scan
from assistant.errors import Refusal
from assistant.events.flatness import OwnSpecSet, ScanImported, SpecChosen
from assistant.job import next_number, record
from grammar import understand
from grammar.commands import Measure
from grammar.commands.flatness import DropScan
from tests.job.conftest import WORLD, Site

ROOM = ("room 6 by 4 metres", "grid 0.5 metres")


def measure(said: str) -> Measure:
    (command, *_) = understand(f"straightedge {said}")
    length = command.length  # type: ignore[attr-defined]
    assert isinstance(length, Measure)
    return length


def test_straightedges_from_200_mm_to_10_m() -> None:
    for said in ("200 mm", "0.2 m", "10 m", "10000 mm", "8 in", "32 ft"):
        check_edge(measure(said))
    for said in ("199.9 mm", "10.001 m", "7 in", "33 ft"):
        with pytest.raises(Refusal, match="200 mm to 10 m long"):
            check_edge(measure(said))


def test_a_gap_is_less_than_a_quarter_of_its_edge() -> None:
    for gap, edge in (("499 mm", "2 m"), ("3 mm", "2 m"), ("1/8 in", "10 ft")):
        floor = Site(*ROOM, f"spec {gap} under {edge}")
        assert isinstance(floor.job.history[-1].events[0], OwnSpecSet)
    for gap, edge in (("500 mm", "2 m"), ("501 mm", "2 m"), ("2 m", "3 mm")):
        assert "limits nothing" in Site(*ROOM).refused(f"spec {gap} under {edge}")
    assert "200 mm to 10 m" in Site(*ROOM).refused("spec 3 mm under 11 m")


def test_only_what_the_floor_is_held_to_is_dropped() -> None:
    own, chosen = "spec 3 mm under 2 m", "spec SR1"
    for lines, dropped in (
        ((own,), (OwnSpecSet(None, None),)), ((chosen,), (SpecChosen(None),)),
        ((own, chosen), (SpecChosen(None), OwnSpecSet(None, None))),
        ((own, "drop specs", chosen), (SpecChosen(None),)),
        ((chosen, "drop specs", own), (OwnSpecSet(None, None),)),
    ):  # fmt: skip
        assert Site(*ROOM, *lines, "drop specs").job.history[-1].events == dropped, lines
    for gone in ((), (own, "drop specs"), (chosen, "drop specs")):
        assert "held to nothing yet" in Site(*ROOM, *gone).refused("drop specs")


def test_a_scan_that_is_not_there_cannot_be_dropped() -> None:
    floor = Site(*ROOM)
    for event, there in ((ScanImported("scan.csv"), True), (ScanImported(None), False)):
        job = record(floor.job, next_number(floor.job), "import", (event,), floor.now)
        if there:
            assert drop_scan(job, DropScan(), WORLD).events == (ScanImported(None),)
        else:
            with pytest.raises(Refusal, match="There is no scan"):
                drop_scan(job, DropScan(), WORLD)
    assert "There is no scan" in Site(*ROOM).refused("drop scan")
