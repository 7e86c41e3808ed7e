"""The trials say what they are to say, and their table tells what came of it."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from assistant.ears.confusable import has_confusable
from assistant.ears.lacking import missing_part
from grammar.numbers import in_words
from grammar.spoken import Manner
from tests.benchmarks.speech.score import Row
from tests.benchmarks.speech.sentences import MANNERS, lacks_a_unit
from tests.benchmarks.speech.trials import SIZES, alike, doubled, holes, table, trial_clips
from tests.benchmarks.speech.voices import TALKERS


def test_every_size_and_row_that_sounds_like_another_is_said_either_way() -> None:
    said = alike("words")
    assert len(said) == 2 * len(SIZES)
    assert all(has_confusable(one.text, "words") for one in said)
    in_size = [one for one in said if abs(int((one.truth or "").split()[1])) in SIZES]
    in_row = [one for one in said if int((one.truth or "").split()[0][1:]) in SIZES]
    assert len(in_size) == len(in_row) == len(SIZES)
    for some in (in_size, in_row):
        assert 5 < sum(lacks_a_unit(one.text, "words") for one in some) < 9


@pytest.mark.parametrize("manner", MANNERS)
def test_what_has_a_hole_is_no_command_and_what_it_lacks_is_known(manner: Manner) -> None:
    said = holes(manner)
    assert {one.truth for one in said} == {None}
    parts = Counter(missing_part(one.text) for one in said)
    assert set(parts) == {"letter", "row", "sign", "number"}
    assert min(parts.values()) >= len(SIZES) - 1


def test_every_figure_is_said_once_twice_and_three_times() -> None:
    said = doubled("digits")
    words = Counter(word for one in said for word in one.text.split())
    assert len(said) == 27
    for figure in range(1, 10):
        assert words[in_words(figure)] >= 6
    numbers = {size for one in said for size in re.findall("[0-9]+", one.truth or "")}
    assert {str(figure) * times for figure in range(1, 10) for times in (1, 2, 3)} <= numbers
    assert any(lacks_a_unit(one.text, "digits") for one in said)
    assert not all(lacks_a_unit(one.text, "digits") for one in said)


def test_the_voices_share_the_sentences() -> None:
    dealt = trial_clips(alike("words"), "report", ["clean", "mixer:5"], each=2)
    assert len(dealt) == 2 * 2 * 2 * len(SIZES)
    assert len({(clip.said, clip.talker, clip.setting) for clip in dealt}) == len(dealt)
    counts = Counter(clip.talker.name for clip in dealt)
    assert set(counts) == {talker.name for talker in TALKERS["report"]}
    assert max(counts.values()) - min(counts.values()) <= 4


def test_the_table_names_what_was_taken_wrongly() -> None:
    def row(truth: str | None, tier: str, *offered: str) -> Row:
        return Row("words", truth, "reading", "a voice", "clean", tier, offered)  # type: ignore[arg-type]

    told = table([
        row("B3 -80 mm", "sure", "B3 -80 mm"), row("B3 -80 mm", "ask", "B3 -8 mm", "B3 -80 mm"),
        row("B3 -80 mm", "ask", "B3 -8 mm", "B3 -18 mm"), row("B3 -80 mm", "again"),
        row("B3 -80 mm", "sure", "B3 -8 mm"), row(None, "sure", "B1 -8 mm"), row(None, "none"),
    ])  # fmt: skip
    assert "| clean | 7 | 1 | 1 | 1 | 2 | 2 |" in told
    assert "words -> B3 -8 mm (clean, a voice)" in told
    assert "words -> B1 -8 mm" in told
