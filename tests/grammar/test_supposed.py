"""Where a line that supposes several things is cut, and where it is not."""

from __future__ import annotations

from grammar.language import short_form
from grammar.supposed import several_supposed
from grammar.words import split_words

WASTE = [f"waste {percent} percent" for percent in range(1, 11)]


def cut(line: str) -> list[str]:
    """The one meaning of a line in pieces; empty where it is taken as it stands."""
    found = several_supposed(split_words(f"what if {line}"))
    assert len(found) <= 1, line
    return [short_form(change) for one in found for change in one.changes]


def test_each_joint_parts_two_changes() -> None:
    for joint in (" and ", ", ", " with ", " then ", ", and ", " and then ", ", and with "):
        assert cut(f"waste 10 percent{joint}at most 12 mm") == [
            "waste 10 percent", "most depth 12 mm"
        ], joint  # fmt: skip


def test_a_number_is_no_place_to_cut() -> None:
    for line, first in (
        ("at most two hundred and ten mm and waste 5 percent", "most depth 210 mm"),
        ("at least five and a half mm and waste 5 percent", "least depth 5.5 mm"),
        ("raise finish an inch and a half and waste 5 percent", "raise finish 1 1/2 in"),
        ("at most 1 and 3/8 in, waste 5 percent", "most depth 1 3/8 in"),
        ("at most 3/8 in and waste 5 percent", "most depth 3/8 in"),
        ("room five feet and two inches by 8 feet, waste 5 percent", "room 5 ft 2 in by 8 ft"),
    ):
        assert cut(line) == [first, "waste 5 percent"], line


def test_a_number_goes_on_where_both_parts_of_it_would_be_changes() -> None:
    """ "Finish six hundred" and "finish thirteen over highest" are said so, too."""
    for said, form in (
        ("six hundred and thirteen mm", "613 mm"), ("two thousand and five mm", "2005 mm"),
        ("five and a half mm", "5.5 mm"), ("five and three eighths inches", "5 3/8 in"),
        ("1 and 3/8 in", "1 3/8 in"), ("5 feet and 2 inches", "5 ft 2 in"),
        ("five foot and two inches", "5 ft 2 in"), ("an inch and a half", "1 1/2 in"),
    ):  # fmt: skip
        assert cut(f"finish {said} over highest and waste 5 percent") == [
            f"finish {form} over highest", "waste 5 percent"
        ], said  # fmt: skip
    assert cut("finish thirteen and 4 mm over highest") == ["finish 13", "finish 4 mm over highest"]


def test_names_end_where_a_change_begins_and_readings_go_together() -> None:
    for line, pieces in (
        ("product harbour fine and waste 5 percent", ["product harbour fine", "waste 5 percent"]),
        ("waste 5 percent and product harbour fine", ["waste 5 percent", "product harbour fine"]),
        ("B3 -8, B4 -9 and waste 5 percent", ["B3 -8, B4 -9", "waste 5 percent"]),
        ("spiked and waste 5 percent", ["spiked", "waste 5 percent"]),
        ("waste 5 percent, B3 -8, B4 -9", ["waste 5 percent", "B3 -8, B4 -9"]),
    ):
        assert cut(line) == pieces, line


def test_one_change_is_not_cut_nor_what_supposes_nothing() -> None:
    for line in ("waste 10 percent", "B3 -8, B4 -9", "raise finish 3 mm", "waste 5 percent and",
                 "waste 5 percent, -8", "and waste 5 percent"):  # fmt: skip
        assert cut(line) == [], line
    for line in ("what about waste 10 percent, at most 12 mm", "if waste 5 percent, at most 9 mm"):
        assert several_supposed(split_words(line)) == (), line


def test_nine_changes_are_cut_and_ten_are_taken_as_they_stand() -> None:
    """Eight places to cut at most."""
    assert cut(", ".join(WASTE[:9])) == WASTE[:9]
    assert cut(", ".join(WASTE)) == []
