"""What lies further from the zero than a floor does, or where no point is, is asked about."""

from __future__ import annotations

import pytest

from assistant.decide import Question
from assistant.decide.questions import ReallySo
from assistant.decide.suspect import _asked_aloud
from assistant.events.readings import ReadingAccepted, ReadingTaken
from assistant.floor.plausible_range import FARTHEST_MM
from assistant.reply.speaking_time import QUESTION_S, speaking_seconds
from tests.job.conftest import Site

ROOM = ("room 6 by 4 metres", "grid 1 metre")  # A1 to F4


def asked(floor: Site, line: str) -> bool:
    """Whether a line comes to a question, and not to events."""
    return isinstance(floor.unconfirmed(line), Question)


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("A1 -1800", "A1 1800 mm below?"),
        ("A1 plus 401", "A1 401 mm above?"),
        ("minus 1800", "A1 1800 mm below?"),
        ("A1 -18 in", "A1 18 in below?"),  # inches for millimetres: 457 mm
        ("A1 minus 1790, 1800, 1810", "A1 1800 mm below?"),
        ("door 1 left minus 4 right minus 1800", "Door 1 right 1800 mm below?"),
        ("door 1 left -4 right -4 outside plus 2 m", "Door 1 outside 2 m above?"),
        ("door 2 outside plus 1800", "Door 2 outside 1800 mm above?"),
        ("finish 1800 mm above zero", "Finish 1800 mm above?"),
        ("fix C1 at plus 1800", "Finish at C1 1800 mm above?"),
    ],
)
def test_on_an_empty_floor(site: type[Site], line: str, what: str) -> None:
    question = site(*ROOM).asked(line)
    # 400 mm: common practice, no source
    assert question.text.startswith(what)
    assert (
        " floor to be poured lies within 400 mm of the zero (common practice, no source)."
        in question.text
    )
    assert "onfirm, or" in question.text


def test_a_tie_too(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -18", "new set up")
    assert floor.asked("tie on A1 -1800").text.startswith("Tie on A1 1800 mm below?")
    assert floor.told("tie on A1 -22").data is not None


@pytest.mark.parametrize(
    "line", ["A1 -400", "A1 plus 400", "A1 -300", "what if A1 -1800", "benchmark 1 at plus 1000"]
)
def test_within_the_limit_it_is_not(site: type[Site], line: str) -> None:
    """Bounds include both ends; a mark on the wall may be anywhere."""
    floor = site(*ROOM)
    assert not asked(floor, line)


def test_a_correction_too(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -18")
    assert floor.asked("correct A1 to -1800").text.startswith("A1 1800 mm below?")


def test_it_is_said_short(site: type[Site]) -> None:
    assert site(*ROOM).asked("A1 -1800").spoken == (
        "Alfa one, one eight zero zero millimetres below? Far from the zero. Confirm?"
    )


def test_programs_are_told(site: type[Site]) -> None:
    assert site(*ROOM).asked("A1 -1800").data["suspect"] == {
        "point": "A1",
        "value_mm": -1800.0,
        "farthest_mm": float(FARTHEST_MM),
        "likely": [],
    }


def test_an_instrument_that_reads_further_is_believed_as_far(site: type[Site]) -> None:
    ranged = (*ROOM, "instrument range 2 metres")
    assert not asked(site(*ranged), "A1 -1800")
    floor = site(*ranged)
    assert "2001 mm below? A floor to be poured lies within 2000 mm of the zero " in (
        floor.asked("B4 -2001").text
    )
    assert "(the range as set)" in floor.asked("B4 plus 2001").text
    # one that reads less far is warned about, as ever
    assert not asked(site(*ROOM, "instrument range 50 mm"), "A1 -60")


def test_a_zero_that_stands_off_the_floor_is_asked_about_once(site: type[Site]) -> None:
    """A zero at the height of the eye: every reading is far from it, and all are alike."""
    floor = site(*ROOM, "A1 -1315")
    assert [type(event) for event in floor.job.history[-1].events] == [
        ReadingTaken,
        ReadingAccepted,
    ]
    for line in ("B1 -1320", "A1 -1312", "door 1 left -1300 right -1301",
                 "finish 1300 mm below zero"):  # fmt: skip
        assert not asked(floor, line), line
    assert floor.asked("C1 plus 1315").text.startswith("C1 1315 mm above?")


def test_a_finish_told_first_tells_where_the_floor_is(site: type[Site]) -> None:
    floor = site(*ROOM, "finish 1300 mm below zero")
    assert not asked(floor, "A1 -1315")


def test_each_zero_by_itself(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -1315", "new set up")
    assert floor.asked("B1 -1320").text.startswith("B1 1320 mm below?")


def test_kept_it_is_not_asked_about_again(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -1800")
    assert floor.job.survey.accepted == {"A1": -1800}
    assert not asked(floor, "A1 -1800")
    assert floor.told("strike A1").headline.startswith("A1 struck")
    assert isinstance(floor.asked("A1 -1800"), ReallySo)


def test_where_the_floor_around_is_known_that_is_told(site: type[Site]) -> None:
    floor = site(*ROOM, *(f"{column}1 -18" for column in "ABCDEF"))
    text = floor.asked("A2 -1800").text
    assert "The floor around says 18 mm below" in text
    assert "of the zero" not in text


def test_neither_a_door_nor_a_step_makes_it_believable(site: type[Site]) -> None:
    floor = site(*ROOM, "door 1 at A1", "step between 1 and 2")
    assert isinstance(floor.asked("A1 -1800"), ReallySo)


# --- points that are not there ---------------------------------------------------------------


@pytest.mark.parametrize("line", ["Z83 -18", "correct Z83 to -18", "door 1 at Z83", "Z83 -1800"])
def test_a_point_off_the_grid_is_refused_with_how_far_it_goes(site: type[Site], line: str) -> None:
    why = site(*ROOM, "A1 -18").refused(line)
    assert "Z83" in why
    assert line.startswith("correct") or "The grid runs A1 to F4." in why


L_SHAPE = ("wall east 6 m", "wall north 2 m", "wall west 3 m", "wall north 2 m", "wall west 3 m",
           "wall south 4 m", "close room", "grid 1 metre")  # fmt: skip


@pytest.mark.parametrize("line", ["F4 -18", "Z83 -18", "step between 8 and 9"])
def test_in_a_floor_with_a_corner_left_out_the_last_column_is_told(
    site: type[Site], line: str
) -> None:
    """The last point is C4, but there is an F1."""
    assert "columns run A to F and its rows 1 to 4, where there is floor." in (
        site(*L_SHAPE).refused(line)
    )


def test_a_first_grid_that_leaves_out_what_was_read_is_asked_about(site: type[Site]) -> None:
    floor = site("Z83 -18", "A1 -17", "room 6 by 4 metres")
    question = floor.asked("grid 1 metre")
    assert question.text == (
        "This grid leaves out 1 point that has been read: Z83. The grid runs A1 to F4. What was "
        "read there counts in no volume. Confirm, or cancel that."
    )
    assert question.spoken == "This grid leaves out one read point. Confirm, or cancel that."
    floor.told("grid 1 metre")
    assert floor.job.readings["Z83"].mm == -18
    # it stays left out, and was said to be
    assert "leaves out" not in floor.asked("grid 2 metres").text


def test_a_grid_with_a_place_for_all_is_not(site: type[Site]) -> None:
    floor = site("B2 -18", "A1 -17", "room 6 by 4 metres")
    assert not asked(floor, "grid 1 metre")
    placed = site("Z83 -18", "room 6 by 4 metres", "point Z83 at 1.2 by 1.3 metres")
    assert not asked(placed, "grid 1 metre")


SHORT, MIDDLE, LONG = "Short.", "Some words that take a while.", "Words " * 9 + "that take long."


@pytest.mark.parametrize("what", [(SHORT,), (MIDDLE, SHORT), (LONG, MIDDLE), (LONG, SHORT)])
@pytest.mark.parametrize("why", [(SHORT,), (MIDDLE, SHORT), (LONG, SHORT)])
@pytest.mark.parametrize("how", [(MIDDLE, SHORT), (LONG, SHORT), (LONG, MIDDLE)])
def test_a_question_is_said_as_long_as_it_may_be(
    what: tuple[str, ...], why: tuple[str, ...], how: tuple[str, ...]
) -> None:
    # The reason is shortened first, then what is asked about, then how to answer.
    (w, ws), (y, ys), (h, hs) = ((each[0], each[-1]) for each in (what, why, how))
    ways = [(w, y, h), (w, ys, h), (ws, ys, h), (w, ys, hs), (ws, ys, hs)]
    asked = _asked_aloud(what, why, how)
    fitting = [way for way in ways if speaking_seconds(" ".join(way)) <= QUESTION_S]
    assert asked == " ".join(fitting[0] if fitting else (ws, hs))
