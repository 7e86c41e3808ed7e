"""A made-up command, "shifts 3", as somebody following the recipe in DEVELOPERS.md would add it.

One edit a file: where it goes in, and what. Nothing here is part of the program.
"""

from __future__ import annotations

import os
import shutil
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BARE = ("-o", "addopts=--import-mode=importlib --strict-markers", "-p", "no:cacheprovider")
"""For a pytest with no plugins but those it names: loading all of them took a third of its time."""

PHRASE = """
    Phrase(
        "shifts <number:whole>",
        SetShifts,
        "how many shifts pour",
        ("shifts 3", "shifts four"),
        _SETTINGS,
    ),
"""
DECIDER = """

def set_shifts(_job: Job, command: SetShifts, _world: World) -> Decision:
    if not 1 <= command.number <= 20:
        raise Refusal(f"There are 1 to 20 shifts, not {command.number}: shifts 3.")
    return Decision((ShiftsSet(command.number),))


DECIDERS[SetShifts] = set_shifts
"""
ANSWER = """

def shifts_told(moment: Moment, command: SetShifts) -> Reply:
    number = moment.job.setting(ShiftsSet).number
    return Reply(f"{number} shifts.", f"{spelled_digits(Decimal(number))} shifts.")


ANSWERS[SetShifts] = shifts_told
"""
TEST = '''"""How many shifts pour."""


def test_shifts_are_kept_told_and_undone(site):
    floor = site()
    assert floor.told("shifts 3").headline == "3 shifts."
    assert floor.told("take that back").say == "Undone: the shifts."
    assert "1 to 20" in floor.refused("shifts 40")
'''
COMMAND = '''

@frozen
class SetShifts(Change):
    """How many shifts pour."""

    number: int
'''
EVENT = '''

@frozen
class ShiftsSet(Setting):
    """How many shifts pour."""

    NAME: ClassVar[str] = "shifts-set"
    number: int

    def in_words(self) -> str:
        return "the shifts"
'''
SHIFTS_SET = "from assistant.events.material import ShiftsSet\n"
_LAST = "\x00"

EDITS: dict[str, list[tuple[str, str]]] = {
    "grammar/commands/material.py": [(_LAST, COMMAND)],
    "grammar/phrases/material.py": [
        ("    SetWaste,\n)", "    SetShifts,\n    SetWaste,\n)"),
        ('    Phrase(\n        "products",', PHRASE + '    Phrase(\n        "products",'),
    ],
    "assistant/events/material.py": [(_LAST, EVENT)],
    "assistant/decide/material.py": [
        ("    SetWaste,\n)", "    SetShifts,\n    SetWaste,\n)"),
        ("ProductChosen, WasteSet", "ShiftsSet, ProductChosen, WasteSet"),
        (_LAST, DECIDER),
    ],
    "assistant/answers/material/product.py": [
        ("    SetWaste,\n)", "    SetShifts,\n    SetWaste,\n)"),
        ("from assistant.job import", f"{SHIFTS_SET}from assistant.job import"),
        (_LAST, ANSWER),
    ],
    "tests/job/test_shifts.py": [(_LAST, TEST)],
}  # fmt: skip
"""What goes where; an empty mark is the end of the file."""


def build(folder: Path, *, without: str = "") -> None:
    """A copy of the program with the command in it, one file of the recipe left as it was."""
    for part in ("assistant", "grammar", "tests", "demo"):
        # With what is compiled of it: Python does that again where a source has changed.
        left_out = shutil.ignore_patterns("speech")
        shutil.copytree(ROOT / part, folder / part, ignore=left_out)
    for name in ("pyproject.toml", "README.md", "DEVELOPERS.md"):
        shutil.copy(ROOT / name, folder / name)
    write(folder, {name: edits for name, edits in EDITS.items() if name != without})


def write(folder: Path, files: dict[str, list[tuple[str, str]]]) -> None:
    """New text into files of a copy; a mark has to be there just once."""
    for name, edits in files.items():
        path = folder / name
        text = path.read_text("utf-8") if path.exists() else ""
        for mark, new in edits:
            assert mark == _LAST or text.count(mark) == 1, (name, mark)
            text = text + new if mark == _LAST else text.replace(mark, new)
        path.write_text(text, "utf-8")


def without_plugins(folder: Path) -> dict[str, str]:
    """The surroundings of a Python that runs the copy in a folder."""
    return {**os.environ, "PYTHONPATH": str(folder), "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
