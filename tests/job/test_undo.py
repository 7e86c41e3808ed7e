"""Undo and redo: one step at a time, several, past either end, and as older records have it."""

from __future__ import annotations

import sys
from decimal import Decimal

import pytest

from assistant.events import EVENTS, Event
from assistant.events.readings import ReadingTaken
from assistant.events.talk import UtteranceBroughtBack, UtteranceTakenBack
from assistant.job import EMPTY, Utterance, fold, in_force, to_redo, to_undo
from assistant.record.event_rows import Row, event_of
from grammar.commands import Measure
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")


def test_undo_takes_back_the_last_thing_in_its_own_words(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18")
    reply = floor.told("take that back")
    assert reply.headline == "Undone: B3 -18."
    assert reply.say == "Undone: bravo three, one eight millimetres below."
    assert reply.details == ("B3 has no reading now.", "Redo brings it back.")
    assert floor.job.readings == {}


def test_said_again_it_goes_back_further(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "C3 -4")
    told = [floor.told("undo").headline for _ in range(4)]
    assert told == ["Undone: C3 -4.", "Undone: B3 -18.", "Undone: grid 2 metres.",
                    "Undone: room 12 by 8 metres."]  # fmt: skip
    assert floor.job == EMPTY


def test_redo_goes_forward_again(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "C3 -4")
    whole = floor.job
    floor.told("undo", "undo", "undo")
    told = [floor.told("redo") for _ in range(3)]
    assert [reply.headline for reply in told] == [
        "Brought back: grid 2 metres.", "Brought back: B3 -18.", "Brought back: C3 -4."
    ]  # fmt: skip
    assert told[1].details == ("B3 is 18 mm below again.",)
    assert told[1].data["undone"] == {"said": "B3 -18", "brought_back": True, "all": ["B3 -18"]}
    assert floor.job == whole


def test_a_redo_can_be_undone_again(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "undo", "redo")
    assert floor.told("undo").headline == "Undone: B3 -18."
    assert floor.told("redo").headline == "Brought back: B3 -18."
    assert floor.job.readings["B3"].mm == -18


def test_something_new_ends_what_could_be_redone(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "C3 -4", "undo", "undo", "D3 -2")
    assert floor.refused("redo") == (
        "There is nothing to redo: nothing was undone since the last thing said."
    )
    assert set(floor.job.readings) == {"D3"}
    # what is undone stays so; undo goes on to what still counts
    assert floor.told("undo").headline == "Undone: D3 -2."
    assert floor.told("undo").headline == "Undone: grid 2 metres."
    assert floor.told("redo 2").headline == "Brought back 2: grid 2 metres; D3 -2."


def test_an_ask_ends_nothing(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "undo", "tally", "map")
    assert floor.told("redo").headline == "Brought back: B3 -18."


def test_several_at_once(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "C3 -4", "D3 -2")
    reply = floor.told("undo the last three")
    assert reply.headline == "Undone 3: D3 -2; C3 -4; B3 -18."
    assert reply.say == "Undone three, back to before bravo three, one eight millimetres below."
    assert reply.details[-1] == "Redo brings them back."
    assert floor.job.readings == {}
    # forward one at a time all the same
    assert floor.told("redo").headline == "Brought back: B3 -18."
    reply = floor.told("redo 2")
    assert reply.headline == "Brought back 2: C3 -4; D3 -2."
    assert reply.say == "Brought back two, up to delta three, two millimetres below."
    assert set(floor.job.readings) == {"B3", "C3", "D3"}


def test_of_many_at_once_a_few_are_told(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "C3 -4", "D3 -2", "E3 -2")
    assert floor.told("undo 6").headline == ("Undone 6: E3 -2; D3 -2; C3 -4; B3 -18; 2 more.")


def test_more_than_there_is_undoes_nothing_and_says_how_many_there_are(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18")
    assert floor.refused("undo 5") == "There are only 3 things to undo, not 5: undo 3."
    floor.told("undo")
    assert floor.refused("redo 2") == "There is only 1 thing to redo, not 2: redo 1."


def test_past_the_beginning(site: type[Site]) -> None:
    assert "nothing to undo; nothing has been recorded" in site().refused("undo")
    assert "nothing to redo; nothing has been recorded" in site().refused("redo")
    floor = site(*FLOOR, "undo 2")
    assert floor.refused("take that back") == (
        "There is nothing left to undo. To bring it back: redo 2."
    )


def test_an_undone_second_reading_leaves_the_first(site: type[Site]) -> None:
    reply = site(*FLOOR, "B3 -18", "B3 -16").told("take that back")
    assert reply.details[0] == "B3 is 18 mm below again."


def test_an_answered_question_is_undone_in_one_go(site: type[Site]) -> None:
    floor = site(*FLOOR)
    floor.sided("B3 18", "below")
    assert floor.told("take that back").headline == "Undone: B3 18 / below."


def test_an_ask_is_not_undone(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "tally")
    assert floor.told("take that back").headline == "Undone: B3 -18."


def test_an_undone_grid_takes_its_points_with_it_but_no_reading(site: type[Site]) -> None:
    floor = site("room 12 by 8 metres", "B3 -18", "grid 2 metres", "take that back")
    assert floor.tally.missing == 0
    assert "B3" in floor.job.readings


def test_nothing_leaves_the_record(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "undo", "redo", "undo 2")
    assert [[event.NAME for event in each.events] for each in floor.job.history[2:]] == [
        ["reading-taken"], ["utterance-scratched"], ["utterance-brought-back"],
        ["utterance-scratched"] * 2,
    ]  # fmt: skip


@pytest.mark.parametrize("kind", EVENTS, ids=lambda kind: kind.NAME)
def test_every_event_can_be_told_when_it_is_undone(kind: type[Event]) -> None:
    where = sys.modules[kind.__module__].__file__
    assert "in_words" in vars(kind), (
        f"{kind.__name__} says nothing of itself: in_words() in {where}"
    )


# --- which utterances count --------------------------------------------------------------------


def _history(*steps: int | tuple[str, int] | None) -> list[Utterance]:
    """Utterances numbered from one: a reading for None, else an undo or a redo of a number."""
    return [Utterance(n, "", (_event(n, step),)) for n, step in enumerate(steps, start=1)]


def _event(number: int, step: int | tuple[str, int] | None) -> Event:
    if step is None:
        return ReadingTaken(f"A{number}", Measure(Decimal(-number), "mm"))
    if isinstance(step, tuple):
        return UtteranceBroughtBack(step[1])
    return UtteranceTakenBack(step)


def _counting(*steps: int | tuple[str, int] | None) -> list[int]:
    return [u.number for u in in_force(_history(*steps)) if u.events[0].NAME == "reading-taken"]


def _back(number: int) -> tuple[str, int]:
    return ("back", number)


def test_which_utterances_count() -> None:
    assert _counting(None, None) == [1, 2]
    assert _counting(None, None, 2) == [1]
    assert _counting(None, None, 2, 1) == []
    assert _counting(None, None, 2, 1, _back(1)) == [1]
    assert _counting(None, None, 2, 1, _back(1), _back(2)) == [1, 2]
    assert _counting(None, None, 2, _back(2), 2) == [1]


def test_which_counted_when_an_undo_could_be_undone() -> None:
    """Records of before: said again, an undo took back the undo."""
    assert _counting(None, None, 2, 3) == [1, 2]
    assert _counting(None, None, 2, 3, 4) == [1]
    assert _counting(None, 1, None, 3) == []
    assert _counting(None, 1, None, 3, 2) == [1]


@pytest.mark.parametrize(
    ("steps", "undo", "redo"),
    [
        ((None, None), [2, 1], []),
        ((None, None, 2), [1], [2]),
        ((None, None, 2, 1), [], [1, 2]),
        ((None, None, 2, 1, _back(1)), [1], [2]),
        ((None, None, 2, None), [4, 1], []),
        ((None, None, 2, None, 4), [1], [4]),
        # of an older record, toggled to and fro
        ((None, None, 2, 3), [2, 1], []),
        ((None, None, 2, 3, 4), [1], [2]),
        ((None, None, 2, 3, 2), [1], [2]),
        ((), [], []),
    ],
)
def test_what_an_undo_and_a_redo_reach(
    steps: tuple[int | tuple[str, int] | None, ...], undo: list[int], redo: list[int]
) -> None:
    history = _history(*steps)
    assert [each.number for each in to_undo(history)] == undo
    assert [each.number for each in to_redo(history)] == redo


def test_a_record_of_before_gives_the_same_job_and_goes_on_from_there(site: type[Site]) -> None:
    """Rows as they were written when a second undo brought back: B3 counts, C3 does not."""
    taken = '{"point": "%s", "reading": {"number": "-%d", "unit": "mm"}}'
    taken_back = '{"utterance": %d}'
    rows = [("reading-taken", taken % ("B3", 18)), ("reading-taken", taken % ("C3", 4)),
            ("utterance-scratched", taken_back % 2), ("utterance-scratched", taken_back % 3),
            ("utterance-scratched", taken_back % 4)]  # fmt: skip
    floor = site()
    floor.job = fold(
        (number, f"said {number}", [event_of(Row(name, 1, facts))])
        for number, (name, facts) in enumerate(rows, start=1)
    )
    assert set(floor.job.readings) == {"B3"}
    assert floor.told("redo").headline == "Brought back: said 2."
    assert set(floor.job.readings) == {"B3", "C3"}
    assert floor.told("undo 2").headline == "Undone 2: said 2; said 1."


def test_the_fold_of_a_whole_record_is_the_job_told_line_by_line(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18", "undo 2", "redo", "redo", "door 1 left -4 right -9", "undo")
    entries = [(u.number, u.said, list(u.events)) for u in floor.job.history]
    assert fold(entries) == floor.job
    assert fold(entries).history == floor.job.history
    assert fold([]) == EMPTY
