"""Nothing is called sure of a finished floor that rests on readings in doubt."""

from __future__ import annotations

from typing import Any

from assistant.floor.survey_check import Finding, verdict_of
from assistant.job import being_read
from tests.job.conftest import Site

ROOM = ("room 6 by 4 metres", "grid 0.5 metres", "product example standard")
FINE = ("instrument resolution 0.01 mm", "instrument repeatability 0.05 mm")
POURED = (*ROOM, *FINE, "A1 -18", "B1 -17", "check zero level", "pour finished", "promised both")
ROW_1 = (*(f"{column}1 level" for column in "ABCDEFGHIJ"), "K1 +9")
DOUBT = "In doubt: A1, B1, C1, D1, E1, F1 and 5 more. What rests on them may be wrong"


def findings(floor: Site) -> tuple[Finding, ...]:
    return verdict_of(being_read(floor.job)).findings


def verdicts(floor: Site, spec: str) -> dict[str, Any]:
    return {row["id"].partition(": ")[2]: row for row in floor.told(spec).data["spec"]}


def test_a_verdict_on_readings_in_doubt_cannot_be_told() -> None:
    floor = Site(*POURED, "check zero level", *ROW_1)
    row = verdicts(floor, "spec departure from datum")["off the finish"]
    assert row["met"] is True
    assert verdicts(floor, "spec DIN 18202 row 3")["level by neighbours"]["met"] is False
    floor.told("reference moved")
    for spec, test in (
        ("spec departure from datum", "off the finish"),
        ("spec DIN 18202 row 3", "level by neighbours"),
    ):
        row = verdicts(floor, spec)[test]
        assert row["met"] is None, spec
        assert row["tells"].startswith("A1, B1, C1, D1, E1, F1 and 5 more read again: in doubt")
    # What an edge laid by hand shows needs no zero.
    floor.told("gap 20 mm under 2 metres at C2")
    assert verdicts(floor, "spec SR1")["gap under 2 m"]["met"] is False


def test_a_line_in_doubt_tells_nothing_and_other_lines_do() -> None:
    values = "line 1 values " + " ".join(["0"] * 12)
    begun = "line 1 from 0.7 by 0.7 metres to 5.3 by 0.7 metres every 300 mm"
    floor = Site(*POURED, "check zero level", begun, values, "0 0 0 0", "end line")
    assert verdicts(floor, "spec SR2")["gap under 2 m"]["met"] is True
    assert not findings(floor)
    floor.told("reference moved")
    assert any("Values of line 1 were read while" in each.message for each in findings(floor))
    row = verdicts(floor, "spec SR2")["gap under 2 m"]
    assert row["met"] is None
    assert row["tells"] == "line 1 read again: in doubt, survey check tells why"


def test_numbers_that_rest_on_readings_in_doubt_say_so() -> None:
    floor = Site(*POURED, "check zero level", *ROW_1)
    asked = ("straightedge 2 metres", "poured against planned", "punch list")
    for line in asked:
        assert not any("In doubt" in each for each in floor.told(line).details), line
    (entry,) = floor.told("punch list").data["punch"]
    assert (entry["point"], entry["clear"]) == ("K1", True)
    floor.told("reference moved")
    for line in asked:
        assert any(each.startswith(DOUBT) for each in floor.told(line).details), line
    (entry,) = floor.told("punch list").data["punch"]
    assert (entry["point"], entry["clear"]) == ("K1", False)
