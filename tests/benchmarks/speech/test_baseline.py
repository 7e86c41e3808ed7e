"""A run that is worse than the one that was kept is reported as worse, and no other is."""

from __future__ import annotations

import json
from dataclasses import asdict, replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.ears.hearing import Tier
from tests.benchmarks.speech.baseline import changes, clip_name, main, what_came
from tests.benchmarks.speech.run import (
    COMMAND_KINDS,
    _kept,
    kept_clips,
    read_rows,
    still_to_hear,
)
from tests.benchmarks.speech.score import Row
from tests.benchmarks.speech.sentences import MANNERS

TRUTH, OTHER = "B3 -18 mm", "B3 -80 mm"


def row(
    at: int, tier: Tier, *offered: str, truth: str | None = TRUTH, setting: str = "clean"
) -> Row:
    kind = "reading" if truth else "plain"
    return Row(f"sentence {at}", truth, kind, "slt", setting, tier, offered)


BEFORE = [
    *(row(at, "sure", TRUTH) for at in range(60)),
    *(row(at, "ask", TRUTH, OTHER) for at in range(60, 65)),
    row(65, "sure", OTHER),
    *(row(at, "again", truth=None) for at in range(100, 140)),
    *(row(at, "sure", TRUTH, setting="mixer 10 dB") for at in range(20)),
]


def instead(*others: Row) -> list[Row]:
    new = {(one.text, one.setting): one for one in others}
    return [new.get((one.text, one.setting), one) for one in BEFORE]


def kept(file: Path, rows: list[Row]) -> Path:
    file.write_text("".join(json.dumps(asdict(one)) + "\n" for one in rows), "utf-8")
    return file


@pytest.fixture
def verdict(tmp_path: Path) -> Any:
    """What the command ends with, of rows held against those above."""
    file = ("--file", str(tmp_path / "baseline.json"))
    main(["--words", str(kept(tmp_path / "before", BEFORE)), "--keep", *file])
    return lambda rows: main(["--words", str(kept(tmp_path / "now", rows)), *file])


@pytest.mark.parametrize(
    ("now", "worse"),
    [
        (BEFORE, 0),
        # One asked more may be chance, one taken wrongly may not.
        (instead(row(0, "ask", TRUTH, OTHER)), 0),
        (instead(row(0, "sure", OTHER)), 1),
        (instead(row(0, "sure", OTHER, setting="mixer 10 dB")), 1),
        (instead(row(100, "sure", OTHER, truth=None)), 1),
        # One more and one less is as many.
        (instead(row(0, "sure", OTHER), row(65, "ask", OTHER, TRUTH)), 0),
        (instead(*(row(at, "ask", TRUTH, OTHER) for at in range(5))), 1),
        (instead(*(row(at, "again") for at in range(5))), 1),
        # As many for the better: nothing that chance does not do.
        (instead(*(row(at, "ask", TRUTH, OTHER) for at in range(5)),
                 *(row(at, "sure", TRUTH) for at in range(60, 65))), 0),
        (instead(*(row(at, "sure", TRUTH) for at in range(60, 66))), 0),
        # A part of a run is held against that part, and clips that are new to nothing.
        (BEFORE[:30], 0),
        ([*BEFORE, row(999, "sure", OTHER)], 0),
    ],
)  # fmt: skip
def test_it_ends_with_what_it_found(verdict: Any, now: list[Row], worse: int) -> None:
    assert verdict(now) == worse


def test_a_goal_that_was_met_may_not_be_missed(tmp_path: Path) -> None:
    # Asked 10 of 100 is met; 11 are one more, which chance does, and missed.
    def asked(count: int) -> list[Row]:
        return [
            row(at, "ask", TRUTH, OTHER) if at < count else row(at, "sure", TRUTH)
            for at in range(100)
        ]

    file = ("--file", str(tmp_path / "baseline.json"))
    main(["--words", str(kept(tmp_path / "rows", asked(10))), "--keep", *file])
    assert main(["--words", str(kept(tmp_path / "rows", asked(11))), *file]) == 1
    main(["--words", str(kept(tmp_path / "rows", asked(12))), "--keep", *file])
    assert main(["--words", str(kept(tmp_path / "rows", asked(13))), *file]) == 0


def test_counts_are_of_the_clips_that_both_heard() -> None:
    found = {one.what: one for one in changes(what_came(BEFORE), instead(row(0, "again"))[:62])}
    right = found["clean, right"]
    assert (right.of, right.before, right.now, right.worse, right.better) == (62, 62, 61, 1, 0)
    assert found["clean, asked"].before == 2
    assert found["talk taken as sure"].of == 0


def test_without_rows_it_says_what_is_wanted(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main([])
    assert "--words FILE" in capsys.readouterr().err


def test_the_same_clips_are_heard_again(tmp_path: Path) -> None:
    ked = "festival ked"
    rows = [
        replace(BEFORE[0], text="bravo three minus eighteen millimetres", voice=ked),
        replace(BEFORE[0], text="bravo three minus eighteen millimetres", voice=ked,
                setting="mixer 10 dB"),
        replace(BEFORE[70], text="mind the door", voice=ked),
    ]  # fmt: skip
    file = tmp_path / "baseline.json"
    main(["--words", str(kept(tmp_path / "rows", rows)), "--keep", "--file", str(file)])
    clips = list(kept_clips("words", file))
    assert {(one.said.text, one.talker.name, one.setting.name) for one in clips} == {
        clip_name(one) for one in rows
    }
    assert {one.said.truth for one in clips} == {TRUTH, None}
    assert {one.half for one in clips} == {"report"}


def test_what_is_kept_can_be_heard_again() -> None:
    for manner in MANNERS:
        clips = list(kept_clips(manner))
        assert len(clips) > 300
        # Each is a command still, and means something.
        assert all(one.said.truth for one in clips if one.said.kind in COMMAND_KINDS)


# --- a run that was stopped ----------------------------------------------------------------


def test_a_run_goes_on_where_it_was_stopped(tmp_path: Path) -> None:
    file = tmp_path / "rows"
    assert list(_kept(iter(BEFORE[:3]), file)) == BEFORE[:3]
    # Stopped within a line.
    with file.open("a") as opened:
        opened.write('{"text": "sent')
    assert read_rows(file) == BEFORE[:3]
    list(_kept(iter(BEFORE[3:5]), file))
    assert read_rows(file) == BEFORE[:5]


def test_what_is_left_comes_in_an_order_of_chance_that_stays() -> None:
    def clip(one: Row) -> Any:
        said, talker, setting = (SimpleNamespace() for _ in range(3))
        said.text, talker.name, setting.name = one.text, one.voice, one.setting
        return SimpleNamespace(said=said, talker=talker, setting=setting)

    every = [clip(one) for one in BEFORE]
    left = still_to_hear(every, [])
    assert sorted(map(repr, left)) == sorted(map(repr, every))
    assert left != every
    assert still_to_hear(reversed(every), BEFORE[:60]) == [
        one for one in left if one not in every[:60]
    ]
    # Whoever stops early has heard of each noise.
    assert {one.setting.name for one in left[:20]} == {"clean", "mixer 10 dB"}
