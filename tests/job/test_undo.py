"""Undo: of one utterance, of an undo, of nothing."""

from __future__ import annotations

from decimal import Decimal

from assistant.events import ReadingTaken, UtteranceScratched
from assistant.job import EMPTY, Utterance, fold, in_force
from grammar.commands import Measure

FLOOR = ("room 12 by 8 metres", "grid 2 metres")


def test_scratch_that_takes_back_the_last_thing_in_its_own_words(site):
    floor = site(*FLOOR, "B3 -18")
    reply = floor.told("scratch that")
    assert reply.headline == "Scratched: B3 -18."
    assert reply.say == "Scratched: bravo three, one eight millimetres below."
    assert reply.details == ("B3 has no reading now.",)
    assert floor.job.readings == {}


def test_an_undo_can_be_undone(site):
    floor = site(*FLOOR, "B3 -18", "scratch that")
    reply = floor.told("scratch that")
    assert reply.headline == "Brought back: B3 -18."
    assert reply.data["undone"]["brought_back"] is True
    assert "B3" in floor.job.readings
    assert floor.told("scratch that").headline == "Scratched: B3 -18."


def test_an_undone_second_reading_leaves_the_first(site):
    reply = site(*FLOOR, "B3 -18", "B3 -16").told("scratch that")
    assert reply.details == ("B3 is 18 mm below again.",)


def test_an_answered_question_is_undone_in_one_go(site):
    floor = site(*FLOOR)
    floor.sided("B3 18", "below")
    assert floor.told("scratch that").headline == "Scratched: B3 18 / below."


def test_nothing_to_undo_is_refused(site):
    assert "nothing to scratch" in site().refused("scratch that")


def test_an_ask_is_not_undone(site):
    floor = site(*FLOOR, "B3 -18", "tally")
    assert floor.told("scratch that").headline == "Scratched: B3 -18."


def test_an_undone_grid_takes_its_points_with_it_but_no_reading(site):
    floor = site("room 12 by 8 metres", "B3 -18", "grid 2 metres", "scratch that")
    assert floor.tally.missing == 0
    assert "B3" in floor.job.readings


# --- which utterances count, looked at from the last backwards ---------------------------------


def _history(*scratches: int | None) -> list[Utterance]:
    """Utterances numbered from one: a reading for None, else an undo of that number."""
    return [
        Utterance(n, "", (_reading(n) if of is None else UtteranceScratched(of),))
        for n, of in enumerate(scratches, start=1)
    ]


def _reading(depth: int) -> ReadingTaken:
    return ReadingTaken(f"A{depth}", Measure(Decimal(-depth), "mm"))


def _counting(*scratches: int | None) -> list[int]:
    return [u.number for u in in_force(_history(*scratches)) if u.events[0].NAME == "reading-taken"]


def test_which_utterances_count():
    assert _counting(None, None) == [1, 2]
    assert _counting(None, None, 2) == [1]
    assert _counting(None, None, 2, 3) == [1, 2]
    assert _counting(None, None, 2, 3, 4) == [1]
    assert _counting(None, 1, None, 3) == []
    assert _counting(None, 1, None, 3, 2) == [1]


def test_the_fold_of_a_whole_record_is_the_job_told_line_by_line(site):
    floor = site(*FLOOR, "B3 -18", "scratch that", "scratch that", "door 1 left -4 right -9")
    entries = [(u.number, u.said, list(u.events)) for u in floor.job.history]
    assert fold(entries) == floor.job
    assert fold(entries).history == floor.job.history
    assert fold([]) == EMPTY
