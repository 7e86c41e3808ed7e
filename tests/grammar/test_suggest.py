"""Completion: what is offered fits, stands where the cursor is, and comes in a steady order."""

from __future__ import annotations

import pytest

from grammar import suggestions


def _offered(before: str, *names: str) -> list[str]:
    return [item.insert for item in suggestions(before, names)]


@pytest.mark.parametrize(
    ("before", "offered"),
    [
        ("correct B3 to ", ["minus", "plus", "below", "above", "level"]),
        ("B3 minus 18 ", ["mm", "cm", "m", "in", "ft"]),
        ("room 12 ", ["mm", "cm", "m", "in", "ft", "by"]),
        ("readings in ", ["inches"]),
        ("wall ", ["north", "east", "south", "west"]),
        ("wall s", ["south"]),
        ("waste 7 ", ["percent"]),
        ("zzz ", []),
        ("B3 minus 18 mm ", []),
    ],
)
def test_what_can_come_next(before: str, offered: list[str]) -> None:
    assert _offered(before) == offered


def test_it_replaces_just_the_word_that_was_begun() -> None:
    (one,) = [item for item in suggestions("undo th") if item.insert == "that"]
    assert one.start == -2
    assert all(item.start == 0 for item in suggestions("strike "))


def test_a_whole_word_is_not_offered_again() -> None:
    assert "tally" not in _offered("tally")
    assert "tally" in _offered("tall")
    assert "tally" in _offered("TALL")


def test_only_the_first_word_comes_with_help() -> None:
    assert all(item.help for item in suggestions("tal"))
    assert not any(item.help for item in suggestions("strike "))


def test_names_are_offered_where_a_name_stands_and_nowhere_else() -> None:
    assert _offered("product ha", "harbour fine", "deep fill") == ["harbour fine"]
    assert "harbour fine" not in _offered("because ", "harbour fine")
    assert "harbour fine" not in _offered("", "harbour fine")
