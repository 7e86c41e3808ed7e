"""A line that is not taken: where it went wrong, and what would have been right."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, understand


def _miss(line: str) -> Misunderstood:
    with pytest.raises(Misunderstood) as caught:
        understand(line)
    return caught.value


@pytest.mark.parametrize(
    ("line", "position", "found", "at_end"),
    [
        ("B3 minus", 8, "", True),
        ("B3 minus  ", 8, "", True),
        ("B3  zzz 18", 4, "zzz", False),
        ("zzz", 0, "zzz", False),
        ("undo 100", 5, "100", False),
    ],
)
def test_the_place_is_the_one_in_the_text_as_it_was_typed(
    line: str, position: int, found: str, at_end: bool
) -> None:
    miss = _miss(line)
    assert (miss.position, miss.found, miss.at_end) == (position, found, at_end)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("B3 minus", "“B3 minus” is not finished."),
        ("zzz", "I don't know “zzz” at the start of a line."),
        ("wall zzz 4 m", "I follow “wall”, but not “zzz” after it."),
        ("undo 100", "makes no sense: doors, strips, people, readings and changes are counted"),
        ("B3 2,5", "A decimal takes a point: 2.5, not 2,5."),
    ],
)
def test_it_is_explained_in_a_sentence(line: str, said: str) -> None:
    assert said in _miss(line).explain()


def test_a_rule_that_was_broken_is_all_that_would_be_accepted() -> None:
    (rule,) = _miss("undo 100").accepted
    assert "1 to 99" in rule


def test_control_signs_and_long_lines_are_not_shown() -> None:
    told = _miss("zzz\x1b[31m" + "q" * 500).explain()
    assert "\x1b" not in told
    assert "q" * 100 not in told


def test_a_pour_that_has_stopped_is_told_the_words_for_it() -> None:
    with pytest.raises(Misunderstood) as missed:
        understand("the pour has stopped")
    assert "stop pour" in missed.value.explain()
    assert understand("stop pour")
