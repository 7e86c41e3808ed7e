"""What the rows of ``grammar/phrases/walk.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "same": (
        "same/identical/unchanged ~next ~reading ~point",
        "no change ~next",
        "same_as_before/shows_exactly",
    ),
    "same as [point] <like:point>": ("carbon_copy/identical/same/like/copy ~reading",),
    "skip [point] <point> [because <reason:sentence>]": (
        "skip",
        "not reach/get/measure/read/access",
        "on_it ~there",
        "has on_it",
        "leave",
        "isn't_there/not_there/is_not_there ~shaft",
        "can't_see/can't_do/cannot_see",
    ),
    "go to [point] <point>": (
        "goto ~point ~measure ~next",
        "goto",
        "next",
        "now ~do",
        "do ~let",
    ),
    "next row": (
        "line another/after/next ~start",
        "rest line",
        "left line next/after/another/start",
        "leave line",
        "line another/after/next/new ~start",
        "next_line",
        "onto line",
    ),
    "along rows": (
        "walkalong rowword",
        "rowword one_at_time",
        "row_by_row",
        "rowword instead/go/going",
    ),
    "along columns": (
        "walkalong columnword",
        "column_by_column",
        "columnword up/instead/go/going",
    ),
}
