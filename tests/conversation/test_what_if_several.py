"""What several changes would come to together, and what of everything that can be set."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant import decide
from assistant.conversation.conversation import Conversation
from assistant.decide import Decision, World
from assistant.job import Job
from assistant.record.journal import Journal
from assistant.record.table import RecordEntry
from assistant.reply.replies import Turn
from grammar import PHRASES, Misunderstood, short_form, understand
from grammar.commands import Change
from grammar.commands.material import SetWaste
from grammar.commands.talk import WhatIf
from grammar.commands.walk import TakePoints

Say = Callable[..., Turn]
FLOOR = (
    "room 6 by 4 metres", "grid 2 metres", "product example standard",
    "A1 -8", "B1 -6", "C1 -6", "A2 -4", "B2 -5", "C2 -4",
)  # fmt: skip


@pytest.mark.parametrize(
    ("line", "changes"),
    [
        ("what if lower 2 and waste 10 percent", ["lower finish 2", "waste 10 percent"]),
        ("what if lower finish 2 mm, waste 10 percent", ["lower finish 2 mm", "waste 10 percent"]),
        ("what if raise 3 with waste 10 percent", ["raise finish 3", "waste 10 percent"]),
        ("what if waste 3% and, then raise 3", ["waste 3 percent", "raise finish 3"]),
        (
            "could you tell me what if finish +4 and product X and at most 12 mm",
            ["finish +4", "product x", "most depth 12 mm"],
        ),
        (
            "what if product harbour fine, finish +4 mm, no aggregate and at least 5 mm, waste 3%",
            ["product harbour fine", "finish +4 mm", "pour neat", "least depth 5 mm",
             "waste 3 percent"],
        ),
        ("what if A1 -8 and B1 -9", ["A1 -8", "B1 -9"]),
        ("what if waste 3% and A1 -8, B1 -9", ["waste 3 percent", "A1 -8, B1 -9"]),
        ("what if A1 -8, B1 -9, waste 3%", ["A1 -8, B1 -9", "waste 3 percent"]),
        ("what if row 2 -8, -9, -10 and waste 3%", ["row 2 -8 -9 -10", "waste 3 percent"]),
        ("what if B3 minus one and five eighths inches", ["B3 -1 5/8 in"]),
        (
            "what if B3 minus one and five eighths inches and waste 7 percent",
            ["B3 -1 5/8 in", "waste 7 percent"],
        ),
        ("what if product sand and cement", ["product sand and cement"]),
    ],
)  # fmt: skip
def test_how_they_are_joined(line: str, changes: list[str]) -> None:
    (command,) = understand(line)
    assert isinstance(command, WhatIf)
    assert [short_form(change) for change in command.changes] == changes
    assert understand(short_form(command)) == (command,)


@pytest.mark.parametrize(
    "line",
    ["what if lower 2 and tally", "what if lower 2 and", "what if raise finish 3, 4 mm",
     "what if nonsense and waste 3 percent"],
)  # fmt: skip
def test_where_one_piece_makes_no_sense_the_line_makes_none(line: str) -> None:
    with pytest.raises(Misunderstood):
        understand(line)


def test_they_are_worked_out_together_and_nothing_is_recorded(say: Say) -> None:
    before = say(*FLOOR, "tally").reply.data["tally"]
    turn = say("what if raise finish 3 mm and waste 10 percent")
    assert turn.ok
    assert not turn.recorded
    told = turn.reply.data
    # 24 m² by 3 mm is 72 L more (exact arithmetic), with ten percent for waste
    assert told["after"]["volume_m3"] - before["volume_m3"] == pytest.approx(0.072)
    assert told["after"]["waste_percent"] == 10
    assert turn.reply.headline.startswith("raise finish 3 mm and waste 10 percent: mean depth")
    say("raise finish 3 mm", "waste 10 percent")
    assert say("tally").reply.data["tally"]["bags"] == told["after"]["bags"]


def test_each_is_supposed_of_the_job_with_the_ones_before(say: Say) -> None:
    say(*FLOOR)
    turn = say("what if undo and C2 -20 and correct C2 to -30")
    assert turn.ok
    assert turn.reply.data["after"]["depth_mm"]["max"] == 30
    assert turn.reply.data["after"]["points"] == 6
    refused = say("what if strike C2 and correct C2 to -30")
    assert not refused.ok
    assert "C2 has no reading" in refused.reply.headline


def test_a_name_that_no_card_has_is_refused_by_itself(say: Say) -> None:
    refused = say(*FLOOR, "what if finish +4 mm and product X and at most 12 mm")
    assert not refused.ok
    assert "There is no card 'x'" in refused.reply.headline
    turn = say("what if finish +4 mm and product example gypsum and at most 9 mm")
    assert turn.reply.data["after"]["product"] == "example gypsum"
    assert "over-own-most:A1" in turn.reply.data["warnings_come"]


def test_a_side_that_lacks_is_asked_for_and_the_rest_waits_with_it(
    talk: Conversation, say: Say
) -> None:
    say(*FLOOR)
    turn = say("what if waste 10 percent and A1 18 mm and B1 16 mm")
    assert turn.ok
    assert talk.pending is not None
    assert talk.pending.text.startswith("A1, 18 mm")
    turn = say("below")
    assert talk.pending is not None
    assert talk.pending.text.startswith("B1, 16 mm")
    turn = say("below")
    assert turn.reply.data["after"]["depth_mm"]["max"] == 18
    assert turn.reply.data["after"]["waste_percent"] == 10
    assert talk.job.readings["A1"].mm == -8


def test_each_is_decided_once(say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    say(*FLOOR)
    decided: list[SetWaste] = []
    decider = decide.DECIDERS[SetWaste]

    def counted(job: Job, command: SetWaste, world: World) -> Decision:
        decided.append(command)
        return decider(job, command, world)

    monkeypatch.setitem(decide.DECIDERS, SetWaste, counted)
    say("what if raise finish 3 mm and waste 10 percent")
    assert len(decided) == 1


# --- of everything that can be set -------------------------------------------------------

READY = (
    *FLOOR, "door 1 left minus 4 right minus 4", "door 1 outside plus 2", "benchmark 1 at 40 mm "
    "above zero", "guide", "water in", "undo",
)  # fmt: skip
NOT_SUPPOSED: dict[str, str] = {}
"""Changes that cannot stand after "what if" -> why."""


def _ready_record(world: World) -> list[RecordEntry]:
    with Journal.open(None) as journal:
        talk = Conversation(journal, world)
        for line in READY:
            talk.hear(line)
        return journal.entries()


@pytest.mark.slow
def test_whatever_can_be_set_can_be_supposed(world: World) -> None:
    """Each example of each change: after "what if" without a record, and taken as it is."""
    tried, ready = 0, _ready_record(world)
    for phrase in PHRASES:
        if not issubclass(phrase.command, Change) or phrase.template in NOT_SUPPOSED:
            continue
        for example in phrase.examples:
            # Made ready once, not said anew for each: two hundred examples take the same lines.
            with Journal.open(None) as journal:
                for entry in ready:
                    journal.append(entry.said, entry.events, entry.time)
                supposed = Conversation(journal, world)
                before = len(supposed.job.history)
                turn = supposed.hear(f"what if {example}")
                assert len(supposed.job.history) == before, example
                # Nothing was recorded, so that the next to open the record finds it as it was.
                said = Conversation(journal, world)
                assert len(said.job.history) == before, example
                said.hear(example)
                if len(said.job.history) > before:
                    tried += 1
                    assert turn.ok, (example, turn.reply.headline)
                    assert turn.command == "WhatIf", (example, turn.command)
                    assert "after" in turn.reply.data or supposed.pending is not None, example
    assert tried > 80


def test_readings_in_one_breath_are_one_change() -> None:
    """As typed, so supposed: commas part no reading from the others of its breath."""
    (meant,) = understand("what if A1 minus 8, B1 minus 9")
    assert isinstance(meant, WhatIf)
    assert (type(meant.change), meant.also) == (TakePoints, None)
