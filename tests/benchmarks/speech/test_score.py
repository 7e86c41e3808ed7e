"""The score counts what matters, and counts it against us."""

from __future__ import annotations

import pytest

from assistant.ears.hearing import Tier
from tests.benchmarks.speech.score import Row, goals, goals_table, report, score, table, wrongs

TRUTH = "B3 -18 mm"


def row(
    tier: Tier, *offered: str, truth: str | None = TRUTH, setting: str = "clean", **more: object
) -> Row:
    kind = "reading" if truth else str(more.pop("kind", "near"))
    return Row("said", truth, kind, str(more.pop("voice", "slt")), setting, tier, offered, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("one", "right", "sure_wrong"),
    [
        (row("sure", TRUTH), True, False),
        (row("sure", "B3 -80 mm"), False, True),
        (row("sure", "B3 -80 mm", TRUTH), False, True),  # the truth second does not help
        (row("ask", TRUTH, "B3 -80 mm"), True, False),
        (row("ask", "B3 -80 mm", TRUTH), True, False),
        (row("ask", "B3 -80 mm", "B3 18 mm", TRUTH), False, False),  # third is not offered
        (row("again", TRUTH), False, False),
        (row("none"), False, False),
        (row("sure"), False, True),  # sure of nothing is a fault
        (row("sure", TRUTH, truth=None), False, True),  # talk taken for a command
        (row("ask", TRUTH, truth=None), False, False),
    ],
)
def test_each_row(one: Row, right: bool, sure_wrong: bool) -> None:
    assert (one.right, one.sure_and_wrong) == (right, sure_wrong)


ROWS = [
    *[row("sure", TRUTH, seconds=0.1)] * 6,
    row("sure", "B3 -80 mm", TRUTH, seconds=0.2),
    row("ask", TRUTH, "B3 -80 mm", seconds=0.3),
    row("ask", "B3 -80 mm", "B3 18 mm", seconds=0.9),
    row("again", seconds=0.2),
    row("again", truth=None, seconds=0.1),
    row("sure", "level", truth=None, seconds=0.1),
    row("ask", "level", truth=None, kind="plain"),
    row("none", truth=None, kind="cut"),
]


def test_parts() -> None:
    found = score(ROWS)
    assert (found.commands, found.talk) == (10, 4)
    assert found.right == pytest.approx(0.7)
    assert found.sure == pytest.approx(0.7)
    assert found.sure_wrong == pytest.approx(0.1)
    assert found.asked == pytest.approx(0.2)
    assert found.asked_truth == pytest.approx(0.5)
    assert found.again == pytest.approx(0.1)
    assert found.talk_sure == pytest.approx(0.25)
    assert found.talk_asked == pytest.approx(0.25)
    assert found.first_right == pytest.approx(0.7)
    assert found.seconds_median == pytest.approx(0.1)
    assert found.seconds_95 == pytest.approx(0.9)


def test_nothing_measured_is_no_success() -> None:
    found = score([])
    assert found.right is None
    assert not any(goal.met for goal in goals([]))
    assert goals_table([]).count("not measured") == len(goals([]))


def test_the_table_has_a_line_for_each_group_and_one_for_all() -> None:
    lines = table([*ROWS, row("sure", TRUTH, setting="mixer 10 dB")], lambda r: r.setting, "noise")
    noise, _, clean, mixer, everything = lines.splitlines()
    assert noise.startswith("| noise | commands | right % | wrong and sure % |")
    assert clean.startswith("| clean | 10 | 70.0 | 10.0 | 70.0 | 20.0 | 50.0 | 10.0 | 4 | 25.0 |")
    assert mixer.startswith("| mixer 10 dB | 1 | 100.0 | 0.0 | 100.0 | 0.0 |  | 0.0 | 0 |  |")
    assert everything.startswith("| all | 11 |")


def test_every_wrong_one_is_listed() -> None:
    lines = wrongs(ROWS).splitlines()[2:]
    assert lines == ["| said | B3 -80 mm | clean | slt |", "| said | level | clean | slt |"]


def test_the_report_has_all_its_tables() -> None:
    told = report(ROWS)
    for title in ("| noise |", "| voice, all noises |", "| kind of talk |", "| said | taken for |"):
        assert title in told


def test_goals_are_met_only_where_they_are() -> None:
    perfect = [row("sure", TRUTH, setting=s, seconds=0.2) for s in ("clean", "mixer 10 dB")]
    perfect.append(row("again", truth=None))
    assert all(goal.met for goal in goals(perfect))
    spoilt = [*perfect, row("sure", "B3 -80 mm", setting="mixer 10 dB")]
    missed = {goal.what for goal in goals(spoilt) if not goal.met}
    assert missed == {"mixer 10 dB, right", "mixer 10 dB, wrong and sure"}
