"""A made-up command, "crew 3", as somebody following the recipe in DEVELOPERS.md would add it.

One edit a file: where it goes in, and what. Nothing here is part of the program.
"""

from __future__ import annotations

import shutil
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

PHRASE = """
    Phrase(
        "crew <people:whole>",
        SetCrew,
        "how many people pour",
        ("crew 3", "crew four"),
        _SETTINGS,
    ),
"""
DECIDER = """

def set_crew(_job: Job, command: SetCrew, _world: World) -> Decision:
    if not 1 <= command.people <= 20:
        raise Refusal(f"A crew is 1 to 20 people, not {command.people}: crew 3.")
    return Decision((CrewSet(command.people),))


DECIDERS[SetCrew] = set_crew
"""
ANSWER = """

def crew_told(moment: Moment, command: SetCrew) -> Reply:
    people = moment.job.setting(CrewSet).people
    return Reply(f"A crew of {people}.", f"A crew of {spelled_digits(Decimal(people))}.")


ANSWERS[SetCrew] = crew_told
"""
TEST = '''"""How many people pour."""


def test_a_crew_is_kept_told_and_undone(site):
    floor = site()
    assert floor.told("crew 3").headline == "A crew of 3."
    assert floor.told("take that back").say == "Undone: the crew."
    assert "1 to 20" in floor.refused("crew 40")
'''
COMMAND = '''

@frozen
class SetCrew(Change):
    """How many people pour."""

    people: int
'''
EVENT = '''

@frozen
class CrewSet(Setting):
    """How many people pour."""

    NAME: ClassVar[str] = "crew-set"
    people: int

    def in_words(self) -> str:
        return "the crew"
'''
CREW_SET = "from assistant.events.material import CrewSet\n"
_LAST = "\x00"

EDITS: dict[str, list[tuple[str, str]]] = {
    "grammar/commands/material.py": [(_LAST, COMMAND)],
    "grammar/phrases/material.py": [
        ("    SetWaste,\n)", "    SetCrew,\n    SetWaste,\n)"),
        ('    Phrase(\n        "products",', PHRASE + '    Phrase(\n        "products",'),
    ],
    "assistant/events/material.py": [(_LAST, EVENT)],
    "assistant/decide/material.py": [
        ("    SetWaste,\n)", "    SetCrew,\n    SetWaste,\n)"),
        ("ProductChosen, WasteSet", "CrewSet, ProductChosen, WasteSet"),
        (_LAST, DECIDER),
    ],
    "assistant/answers/material/product.py": [
        ("    SetWaste,\n)", "    SetCrew,\n    SetWaste,\n)"),
        ("from assistant.job import", f"{CREW_SET}from assistant.job import"),
        (_LAST, ANSWER),
    ],
    "tests/job/test_crew.py": [(_LAST, TEST)],
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
