"""Adding a kind of value: one module and its row, and whatever is left out of them is named."""

from __future__ import annotations

import ast
import dataclasses
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from grammar.slots import Slot
from tests.structure.forks import ENDED_RED, pytests_in
from tests.structure.made_up import COMMAND, EDITS, ROOT, without_plugins, write

SLOT = '''"""How many hands there are: a made-up kind of value."""

from __future__ import annotations

from grammar.slots.slot import Slot, SpokenForm, ValueKind

KIND = ValueKind(
    slots=(
        Slot(
            name="hands",
            rule="h_many r_hands",
            build=lambda many, _hands: many,
            short=lambda many: f"{many} hands",
            sample=lambda random: random.choice([("3 hands", 3), ("one hand", 1)]),
            aloud=SpokenForm(
                heard="<under_hundred> hands", say=lambda voice, many: f"{voice.whole(many)} hands"
            ),
        ),
    ),
    roles={"hands": dict.fromkeys(("hands", "hand"), None)},
    rules="h_many: whole",
    builders={"h_many": lambda many: many},
    expected={"r_hands": "hands"},
    offered={"hands": ("hands",)},
)
'''
HOME = "grammar/slots/hands.py"
REGISTRY = [("    measure,\n", "    hands,\n    measure,\n"),
            ("    measure.KIND,\n", "    hands.KIND,\n    measure.KIND,\n")]  # fmt: skip
NEEDED = [
    field.name
    for field in dataclasses.fields(Slot)
    if field.default is field.default_factory is dataclasses.MISSING
]


def _built(folder: Path, slot: str = SLOT, registry: list[tuple[str, str]] = REGISTRY) -> Path:
    """The grammar with the slot in it, and a phrase that holds it."""
    shutil.copytree(ROOT / "grammar", folder / "grammar")
    (folder / "tests/grammar").mkdir(parents=True)
    for name in ("test_slots.py", "every_rule.py"):
        shutil.copy(ROOT / "tests/grammar" / name, folder / "tests/grammar")
    shutil.copy(ROOT / "pyproject.toml", folder)
    phrase = [
        (mark, new.replace("<number:whole>", "<number:hands>").replace(
            '"shifts 3", "shifts four"', '"shifts 3 hands", "shifts four hands"'))
        for mark, new in EDITS["grammar/phrases/material.py"]
    ]  # fmt: skip
    write(folder, {
        "grammar/commands/material.py": [("\x00", COMMAND)],
        "grammar/phrases/material.py": phrase,
        "grammar/slots/__init__.py": registry,
        HOME: [("\x00", slot)],
    })  # fmt: skip
    return folder


def _without(part: str) -> str:
    """The slot's module with one argument left out, wherever it stands."""
    tree = ast.parse(SLOT)
    for call in ast.walk(tree):
        if isinstance(call, ast.Call):
            call.keywords = [one for one in call.keywords if one.arg != part]
    return ast.unparse(tree)


WALK = (
    "tests/grammar/test_slots.py",
    "-k", "hands or registry or exists or role or two_homes or builder",
)  # fmt: skip
"""The tests that walk the table of slots."""


def test_a_kind_of_value_has_one_home() -> None:
    assert len(REGISTRY) == 2, "an import and a row"
    assert {"rule", "build", "short", "sample", "aloud"} <= set(NEEDED)


@pytest.mark.parametrize("part", NEEDED)
def test_a_slot_without_one_of_its_parts_is_refused_by_name(part: str) -> None:
    with pytest.raises(TypeError, match=f"'{part}'"):
        exec(_without(part), {})


@pytest.mark.slow
def test_added_by_the_recipe_it_is_understood_heard_and_said(tmp_path: Path) -> None:
    folder = _built(tmp_path)
    ((code, said),) = pytests_in([folder], *WALK)
    assert code == 0, said[-3000:]
    words = (
        "from grammar import *; from grammar.spoken import Spoken\n"
        "print(understand('shifts three hands'), hint('shifts 3'))\n"
        "print(suggestions('shifts 3 ')[0].insert)\n"
        "print(Spoken().automaton.accepts('shifts three hands'.split()))"
    )
    done = subprocess.run(
        [sys.executable, "-c", words],
        cwd=folder,
        env=without_plugins(folder),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stdout == "(SetShifts(number=3),) ('hands',)\nhands\nTrue\n", done.stderr


WRONG: dict[str, tuple[str, list[tuple[str, str]], str]] = {
    "registry": (SLOT, [], "slots/hands.py"),
    "builders": (_without("builders"), REGISTRY, "h_many"),
    "short": (SLOT.replace('f"{many} hands",', "str(many),"), REGISTRY, "hands: short form"),
    "sample": (SLOT.replace('("3 hands", 3)', '("3 hands", 4)'), REGISTRY, "hands: sample"),
    "expected": (SLOT.replace('"r_hands": "hands"', '"r_hand": "hands"'), REGISTRY, "r_hand"),
    "spoken": (SLOT.replace("<under_hundred> hands", "<under_100> hands"), REGISTRY, "under_100"),
    "offered": (SLOT.replace('("hands",)}', '("men",)}'), REGISTRY, "men"),
}
"""What is wrong of a slot's module or its row, and what has to be named."""


@pytest.mark.slow
def test_what_is_wrong_of_it_is_named(tmp_path: Path) -> None:
    folders = [
        _built(tmp_path / wrong, slot, registry) for wrong, (slot, registry, _) in WRONG.items()
    ]
    ended = dict(zip(WRONG, pytests_in(folders, *WALK), strict=True))
    missed = {
        wrong: said[-1500:]
        for wrong, (code, said) in ended.items()
        if code not in ENDED_RED or WRONG[wrong][2] not in said
    }
    assert not missed
