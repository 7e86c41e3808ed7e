"""What the rows of ``grammar/phrases/notes.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "notes": (
        "notes show/which/what ~made ~you ~so_far ~have",
        "notes",
        "what jotted/jot/wrote/noted",
        "notes_on this/job/floor",
    ),
    "notes (at | on | for | about) [point] <point>": (
        "notes ~point ~regarding ~any",
        "what wrote/noted/jotted/jot/write_about",
        "say_about ~note",
    ),
}
