"""What a broken place is said to have come to, whoever else is at work on the machine."""

from __future__ import annotations

import signal
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from tests.mutation import __main__ as tool
from tests.mutation.argued import Argued, Argument
from tests.mutation.fork_server import Outcome, Task
from tests.mutation.passing import Passing
from tests.mutation.places import Place
from tests.mutation.verdicts import Seen, Verdict, figures, read_seen, write_seen

PLACES = [Place("grammar/low.py", line, 10 * line, "<", "(<=)") for line in range(10)]
NONE_ARGUED = Argued(())


def _outcome(code: int | None, told: str = "") -> Outcome:
    return Outcome(
        Task(PLACES[0], (), (), (), budget_s=10, limit_s=100, patience_s=500), code, 1.0, told
    )


@pytest.mark.parametrize(
    ("code", "verdict"),
    [
        (0, Verdict.LIVED),
        (5, Verdict.LIVED),  # no test passes there
        (1, Verdict.KILLED),
        (2, Verdict.KILLED),  # not even imported
        (-signal.SIGXCPU, Verdict.KILLED),  # goes round for ever
        (None, Verdict.UNDECIDED),  # patience ended, by the clock
        (-signal.SIGKILL, Verdict.UNDECIDED),  # by the system, short of memory
        (3, Verdict.UNDECIDED),  # pytest's own fault
        (4, Verdict.UNDECIDED),  # called wrongly
    ],
)
def test_only_a_red_test_or_an_endless_loop_kills(code: int | None, verdict: Verdict) -> None:
    assert _outcome(code).verdict is verdict


def test_a_program_that_does_not_begin_is_killed() -> None:
    told = "ImportError while loading conftest '/tree/tests/conftest.py'."
    assert _outcome(4, told).verdict is Verdict.KILLED


def test_what_is_argued_or_not_decided_is_left_out_of_the_share() -> None:
    verdicts = [Verdict.KILLED] * 6 + [Verdict.LIVED] * 3 + [Verdict.UNDECIDED]
    seen = [Seen(place, verdict) for place, verdict in zip(PLACES, verdicts, strict=True)]
    # Places 6, 7 and 8 lived; what stands there is argued by path and change, so for all three.
    told = figures(seen, {"grammar": 100}, NONE_ARGUED)
    assert "grammar: 6 of 9 killed (0 argued, 1 not decided), of 100 places; 66.7 %" in told
    argued = Argued((Argument("grammar/low.py", "", "no value is at the bound", "<", "(<=)"),))
    told = figures(seen, {"grammar": 100}, argued)
    assert "grammar: 6 of 6 killed (3 argued, 1 not decided), of 100 places; 100.0 %" in told


def test_a_room_weighs_as_much_as_it_has_places() -> None:
    others = [Place("assistant/floor/high.py", row, 0, "<", "(<=)") for row in range(10)]
    seen = [Seen(place, Verdict.KILLED) for place in PLACES]
    seen += [Seen(place, Verdict.LIVED) for place in others]
    told = figures(seen, {"grammar": 300, "assistant/floor": 100}, NONE_ARGUED)
    assert "all: 10 of 20 killed; 75.0 %" in told.splitlines()[-1]


def test_what_was_seen_is_kept_for_another_look(tmp_path: Path) -> None:
    seen = [Seen(place, verdict) for place, verdict in zip(PLACES, Verdict, strict=False)]
    write_seen(tmp_path / "seen.json", seen)
    assert read_seen(tmp_path / "seen.json") == seen


def test_told_to_end_it_says_so_once_and_is_not_cut_off_in_saying_it() -> None:
    from tests.mutation.__main__ import ended_once

    told = []
    # Not to be taken as found: what a shell begins in the background inherits that it is ignored.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    with ended_once():
        try:
            signal.raise_signal(signal.SIGTERM)
        except SystemExit:
            signal.raise_signal(signal.SIGTERM)
            signal.raise_signal(signal.SIGINT)
            told.append("figures")
    assert told == ["figures"]
    # Interrupts are heeded again afterwards.
    assert signal.signal(signal.SIGINT, before) is signal.default_int_handler


class _StandIn:
    """For the forks: so many of the places left whole turn red, and all broken ones."""

    red = 0

    def __init__(self, *_: object) -> None:
        """Takes what the forks take."""

    def run(self, tasks: Sequence[Task]) -> Iterator[Outcome]:
        for number, task in enumerate(tasks):
            yield Outcome(task, 1 if not task.whole or number < self.red else 0, 1.0, "")


def test_where_whole_code_turns_a_test_red_nothing_is_counted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    nothing = Passing([], [], {}, [], [], {})
    monkeypatch.setattr(tool, "kept_or_found", lambda _: nothing)
    monkeypatch.setattr(tool, "Server", _StandIn)
    kept = tmp_path / "seen.json"
    run = ["grammar/words.py", "--sample", "20", "--sound", "3", "--keep", str(kept)]
    monkeypatch.setattr(_StandIn, "red", 1)
    assert tool.main(run) == 2
    told = capsys.readouterr().out
    assert "RED THOUGH WHOLE" in told
    assert "nothing counted" in told
    assert "killed" not in told
    assert not kept.exists()
    monkeypatch.setattr(_StandIn, "red", 0)
    assert tool.main(run) == 0
    told = capsys.readouterr().out
    assert "grammar/words.py: 20 of 20 killed" in told
    assert "left whole: none of 3 red" in told
    assert kept.exists()
