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
from tests.structure.made_up import BARE, COMMAND, EDITS, ROOT, without_plugins, write

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


def _run(folder: Path, *words: str) -> tuple[int, str]:
    done = subprocess.run(
        [sys.executable, *words],
        cwd=folder,
        env=without_plugins(folder),
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout + done.stderr


def _walked(folder: Path) -> tuple[int, str]:
    return _run(
        folder, "-m", "pytest", *BARE, "-q", "tests/grammar/test_slots.py",
        "-k", "hands or registry or exists or role or two_homes or builder",
    )  # fmt: skip


def test_a_kind_of_value_has_one_home() -> None:
    assert len(REGISTRY) == 2, "an import and a row"
    assert {"rule", "build", "short", "sample", "aloud"} <= set(NEEDED)


@pytest.mark.parametrize("part", NEEDED)
def test_a_slot_without_one_of_its_parts_is_refused_by_name(tmp_path: Path, part: str) -> None:
    code, said = _run(_built(tmp_path, _without(part)), "-c", "import grammar.slots")
    assert code != 0
    assert f"'{part}'" in said, said[-500:]


@pytest.mark.slow
def test_added_by_the_recipe_it_is_understood_heard_and_said(tmp_path: Path) -> None:
    folder = _built(tmp_path)
    code, said = _walked(folder)
    assert code == 0, said[-3000:]
    code, said = _run(
        folder,
        "-c",
        "from grammar import *; from grammar.spoken import Spoken\n"
        "print(understand('shifts three hands'), hint('shifts 3'))\n"
        "print(suggestions('shifts 3 ')[0].insert)\n"
        "print(Spoken().automaton.accepts('shifts three hands'.split()))",
    )
    assert code == 0, said
    assert said == "(SetShifts(number=3),) ('hands',)\nhands\nTrue\n"


@pytest.mark.slow
@pytest.mark.parametrize(
    ("slot", "registry", "named"),
    [
        (SLOT, [], "slots/hands.py"),
        (_without("builders"), REGISTRY, "h_many"),
        (SLOT.replace('f"{many} hands",', "str(many),"), REGISTRY, "hands: short form"),
        (SLOT.replace('("3 hands", 3)', '("3 hands", 4)'), REGISTRY, "hands: sample"),
        (SLOT.replace('"r_hands": "hands"', '"r_hand": "hands"'), REGISTRY, "r_hand"),
        (SLOT.replace("<under_hundred> hands", "<under_100> hands"), REGISTRY, "under_100"),
        (SLOT.replace('("hands",)}', '("men",)}'), REGISTRY, "men"),
    ],
    ids=["registry", "builders", "short", "sample", "expected", "spoken", "offered"],
)
def test_what_is_wrong_of_it_is_named(
    tmp_path: Path, slot: str, registry: list[tuple[str, str]], named: str
) -> None:
    code, said = _walked(_built(tmp_path, slot, registry))
    assert code != 0
    assert named in said, said[-3000:]
