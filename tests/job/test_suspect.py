"""A reading that its neighbours do not bear out is asked about before it counts."""

from __future__ import annotations

from decimal import Decimal

import pytest

from assistant.decide import Question, decide
from assistant.decide.questions import ReallySo
from assistant.events.readings import ReadingAccepted, ReadingTaken
from assistant.floor.mishearings import alternatives
from assistant.floor.suspicion import weigh_readings
from grammar.commands import Reading
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
EVEN = tuple(
    f"{column}{row} -{15 + (ord(column) + row) % 2}" for row in (1, 2) for column in "ABCDEF"
)


def asked(floor: Site, line: str) -> Question | None:
    from tests.job.conftest import command_of

    return decide(floor.job, command_of(line), floor.world).ask


@pytest.mark.parametrize(
    ("line", "likely"),
    [
        ("B3 -50", "B3 -15 mm"),  # fifteen heard as fifty
        ("B3 -150", "B3 -15 mm"),  # a digit too many
        ("B3 +15", "B3 -15 mm"),  # the other side
        ("B3 -5", "B3 -15 mm"),  # a digit lost
        ("B3 level", None),
        ("correct B2 to -60", "correct B2 -16 mm"),
        ("B3 -5/8 ft", None),
        ("B3 minus 48, 50, 51", "B3 -15 mm"),
    ],
)
def test_a_reading_unlike_its_neighbours_is_asked_about(
    site: type[Site], line: str, likely: str | None
) -> None:
    question = asked(site(*FLOOR, *EVEN), line)
    assert question is not None
    assert isinstance(question, ReallySo)
    data = question.data["suspect"]
    assert data["expected_mm"] == pytest.approx(-15.5, abs=1)
    assert 1 < data["sd_mm"] < 3
    if likely is not None:
        assert likely in data["likely"]


def test_it_is_asked_in_plain_words(site: type[Site]) -> None:
    question = asked(site(*FLOOR, *EVEN), "B3 -50")
    assert question is not None
    assert question.text.startswith("B3 50 mm below? The floor around says 1")
    assert "“B3 -15 mm”" in question.text
    assert question.text.endswith("Confirm, or read it again and say B3 with the value.")
    assert question.spoken.startswith("Bravo three, five zero below? Around it, one ")


@pytest.mark.parametrize("line", ["B3 -15", "B3 -12", "B3 -19", "minus 17", "F3 -15"])
def test_a_reading_like_its_neighbours_is_not(site: type[Site], line: str) -> None:
    assert asked(site(*FLOOR, *EVEN), line) is None


def test_the_first_few_points_are_asked_about_and_the_reply_says_they_are_few(
    site: type[Site],
) -> None:
    one, five, six = (site(*FLOOR, *EVEN[2 : 2 + count]) for count in (1, 5, 6))
    assert asked(one, "C2 -28") is None  # one reading says little about another
    assert asked(one, "C2 -90") is not None
    assert asked(five, "C2 -90") is not None
    assert "What was read so far says" in five.asked("C2 -90").text
    assert "The floor around says" in six.asked("C2 -90").text


def test_among_the_first_readings_what_is_near_them_is_not_weighed(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -15", "B1 -30", "C1 -22")
    for mm, weighed in ((-40, False), (-5, False), (-20, False), (-150, True), (90, True)):
        assert (asked(floor, f"D1 {mm:+}") is not None) is weighed, mm


def test_kept_it_is_marked_and_not_asked_about_again(site: type[Site]) -> None:
    floor = site(*FLOOR, *EVEN)
    reply = floor.told("B3 -50")  # confirmed
    assert [type(event) for event in floor.job.history[-1].events] == [
        ReadingTaken,
        ReadingAccepted,
    ]
    assert "Kept as read; it will not be asked about again." in reply.details
    assert floor.job.survey.accepted == {"B3": -50}
    assert asked(floor, "B3 -50") is None
    floor.told("B3 -50")
    assert floor.job.survey.accepted == {"B3": -50}
    assert "B3" not in {
        suspect["point"] for suspect in floor.told("survey check").data["survey"]["suspects"]
    }
    floor.told("B3 -49")  # another reading of the same, not another surprise
    assert floor.job.survey.accepted == {"B3": -49}
    floor.told("B3 -15")
    assert floor.job.survey.accepted == {}


def test_struck_it_is_forgotten(site: type[Site]) -> None:
    floor = site(*FLOOR, *EVEN, "B3 -50", "strike B3")
    assert floor.job.survey.accepted == {}
    assert asked(floor, "B3 -50") is not None


def test_a_door_does_not_nag(site: type[Site]) -> None:
    floor = site(*FLOOR, *EVEN, "door 1 at B3")
    assert asked(floor, "B3 -50") is None
    assert asked(floor, "C3 -50") is not None


@pytest.mark.parametrize("step", ["step between 2 and 3", "step between B2 and B3"])
def test_beside_a_real_step_it_does_not_nag(site: type[Site], step: str) -> None:
    floor = site(*FLOOR, *EVEN)
    assert asked(floor, "B3 -150") is not None
    floor.told(step)
    assert asked(floor, "B3 -150") is None


def test_beyond_a_step_the_floor_is_known_by_itself(site: type[Site]) -> None:
    """Row 3 lies 20 mm lower; once it is read, row 4 is no surprise there."""
    floor = site(*FLOOR, *EVEN, "step between 2 and 3", *(f"{c}3 -35" for c in "ABCDEF"))
    assert asked(floor, "C4 -36") is None
    assert asked(floor, "C4 -15") is not None


def test_what_if_never_asks(site: type[Site]) -> None:
    floor = site(*FLOOR, *EVEN)
    assert asked(floor, "what if B3 minus 50") is None


def test_an_untied_set_up_has_nothing_to_be_compared_with(site: type[Site]) -> None:
    floor = site(*FLOOR, *EVEN, "new set up")
    assert asked(floor, "B3 -50") is None
    floor.told("tie on B2 -48")
    assert asked(floor, "B3 -48") is None
    question = asked(floor, "B3 -15")
    assert question is not None
    # shown as it would be read from here
    assert question.data["suspect"]["expected_mm"] == pytest.approx(-47.5, abs=1.5)


def test_the_value_of_the_point_beside_it(site: type[Site]) -> None:
    """Row 3 slopes: what belongs to F3 is a surprise at A4, but not at the point beside."""
    slope = [f"{c}{r} -{10 + 8 * k}" for k, c in enumerate("ABCDEF") for r in (1, 2)]
    floor = site(*FLOOR, *slope)
    question = asked(floor, "B3 -26")
    assert question is not None
    assert "C3 -26 mm" in question.data["suspect"]["likely"]


def test_a_point_without_a_place_has_no_neighbours(site: type[Site]) -> None:
    floor = site("A1 -15", "B1 -15", "C1 -15", "D1 -15", "E1 -15", "F1 -15", "G1 -15")
    assert asked(floor, "H1 -150") is None


def test_inches_too(site: type[Site]) -> None:
    floor = site("readings in inches", "room 36 ft by 24 ft", "grid 6 ft",
                 *(f"{c}{r} -5/8" for r in (1, 2) for c in "ABCDE"))  # fmt: skip
    question = asked(floor, "B3 -6")
    assert question is not None
    assert "in below, give or take" in question.text
    assert asked(floor, "B3 -9/16") is None


def test_what_the_ear_offers_is_weighed_by_the_floor(site: type[Site]) -> None:
    """Fifty sounds likelier, but the floor around is 15 mm low."""
    floor = site(*FLOOR, *EVEN)
    heard = [(Reading(Decimal(-50), "mm"), 0.6), (Reading(Decimal(-15), "mm"), 0.4)]
    found = weigh_readings(floor.job, "B3", heard)
    assert found is not None
    assert found[1] > 0.99
    assert weigh_readings(site(*FLOOR).job, "B3", heard) is None


@pytest.mark.parametrize(
    ("heard", "among"),
    [(50, 15), (15, 50), (90, 19), (8, 18), (1, 18), (18, 8), (15, 19), (118, 18), (8, 80)],
)
def test_what_is_often_taken_for_another(heard: int, among: int) -> None:
    numbers = [other.number for other in alternatives(Reading(Decimal(-heard), "mm"))]
    assert -among in numbers
    assert heard in numbers  # the other side
    assert -heard not in numbers
    assert len(numbers) == len(set(numbers)) < 20
