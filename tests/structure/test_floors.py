"""The house as DEVELOPERS.md draws it: floors that import downwards only, matters with one name."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
MOST_AT_THE_ROOT = 6


def _table(name: str) -> list[list[str]]:
    """The cells of a table of the page, without its head."""
    part = re.search(rf"<!-- {name} -->\n(.*?)<!-- end of {name} -->", PAGE, re.DOTALL)
    assert part, f"DEVELOPERS.md has no table between the marks of {name}"
    rows = [line for line in part[1].splitlines() if line.startswith("|")][2:]
    return [[cell.strip() for cell in row.strip("|").split("|")] for row in rows]


FLOORS = [row[0].strip("`").rstrip("/") for row in _table("floors")][::-1]
"""From the ground up; the page has the top first."""
MATTERS = [row[0] for row in _table("matters")]
PLACES = ["grammar/commands", "grammar/phrases", "assistant/decide", "assistant/events",
          "assistant/answers"]  # fmt: skip


MODULES = sorted((ROOT / "assistant").rglob("*.py"))


def _floor(parts: tuple[str, ...]) -> str | None:
    """The floor of ``("assistant", "job", "fold")``; none for the package itself."""
    return parts[1] if len(parts) > 1 else None


def _imported(path: Path) -> Iterator[str]:
    """What a module imports of the program, wherever in it, and for types too."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            # "from assistant import wording" names the floor last
            yield from (f"{node.module}.{name.name}" for name in node.names)
        elif isinstance(node, ast.Import):
            yield from (name.name for name in node.names)


def test_every_floor_stands_in_the_plan() -> None:
    there = {
        path.stem
        for path in (ROOT / "assistant").iterdir()
        if (path.is_dir() and list(path.glob("*.py"))) or path.suffix == ".py"
    }
    assert there - {"__init__"} == set(FLOORS)


def test_every_module_can_be_imported() -> None:
    """Whatever the machine lacks, as what is not there is missed where it is needed."""
    wrong = {}
    for path in (*MODULES, *(ROOT / "grammar").rglob("*.py")):
        name = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        try:
            import_module(name.removesuffix(".__init__"))
        except Exception as why:
            wrong[name] = repr(why)
    assert not wrong


def test_few_files_lie_at_the_root() -> None:
    assert len(list((ROOT / "assistant").glob("*.py"))) <= MOST_AT_THE_ROOT


def test_nothing_is_imported_from_a_floor_above() -> None:
    found = [told for path in MODULES for told in _imported_from_above(path)]
    assert not found, "\n".join(found)


def _imported_from_above(path: Path) -> Iterator[str]:
    here = _floor(path.relative_to(ROOT).with_suffix("").parts)
    if here is None or here == "__init__":
        return
    for name in _imported(path):
        parts = tuple(name.split("."))
        there = _floor(parts) if parts[0] == "assistant" else None
        if there is None or there not in FLOORS:
            continue
        if FLOORS.index(there) > FLOORS.index(here):
            yield f"{path.relative_to(ROOT)} imports {name}: {there} stands above {here}"


def test_the_grammar_knows_nothing_of_the_assistant() -> None:
    for path in (ROOT / "grammar").rglob("*.py"):
        assert not [name for name in _imported(path) if name.split(".")[0] == "assistant"], path


def test_the_numeric_core_stands_by_itself() -> None:
    """Nothing but errors is below it: no files, no clock, no units of measurement."""
    core = ("levels", "pours", "flatness", "errors")
    strangers = {"pint", "datetime", "time", "sqlite3", "rich", "pathlib"}
    for floor in ("levels", "pours", "flatness"):
        for path in (ROOT / "assistant" / floor).rglob("*.py"):
            for name in _imported(path):
                parts = name.split(".")
                assert parts[0] not in strangers, f"{path} imports {name}"
                if parts[0] == "assistant":
                    assert parts[1] in core, f"{path} imports {name}"


@pytest.mark.parametrize("row", _table("matters"), ids=lambda row: row[0])
def test_a_matter_has_one_name_on_every_floor(row: list[str]) -> None:
    matter, *marks = row
    for place, mark in zip(PLACES, marks, strict=True):
        there = (ROOT / place / f"{matter}.py").is_file() or (ROOT / place / matter).is_dir()
        assert there == bool(mark), f"{place}/{matter} and the table disagree"


@pytest.mark.parametrize("place", PLACES)
def test_every_file_is_of_a_matter_or_shared_by_them(place: str) -> None:
    shared = {
        "grammar/commands": {"kinds"},
        "grammar/phrases": set(),
        "assistant/decide": {
            "parts",
            "resolve",
            "suspect",
            "after_pour",
            "unit_meant",
            "questions",
            "unsaid",
            "reading_repeated",
            "by_matter",  # finds a command's row in the module of its matter, for any matter
        },
        "assistant/events": {"kinds"},
        "assistant/answers": {"parts", "finished"},
    }[place]
    there = {
        path.stem
        for path in (ROOT / place).iterdir()
        if path.suffix == ".py" or (path.is_dir() and (path / "__init__.py").is_file())
    }
    assert there - {"__init__"} <= set(MATTERS) | shared


def _circle(graph: dict[str, set[str]]) -> list[str]:
    """Modules that import each other in a circle, one of them first; none where there is none."""
    done: set[str] = set()

    def from_here(name: str, way: tuple[str, ...]) -> list[str]:
        if name in way:
            return [*way[way.index(name) :], name]
        if name in done:
            return []
        for other in sorted(graph.get(name, ())):
            if found := from_here(other, (*way, name)):
                return found
        done.add(name)
        return []

    return next((found for name in sorted(graph) if (found := from_here(name, ()))), [])


def test_no_module_imports_itself_by_way_of_others() -> None:
    names = {".".join(path.relative_to(ROOT).with_suffix("").parts): path for path in MODULES}
    # a package's own page gathers what is in it, and is no way round
    names = {name: path for name, path in names.items() if not name.endswith("__init__")}
    graph: dict[str, set[str]] = {}
    for name, path in names.items():
        taken = set(_imported(path))
        wanted = taken | {each.rpartition(".")[0] for each in taken}
        graph[name] = wanted & (names.keys() - {name})
    assert not _circle(graph)


def test_no_two_classes_have_one_name() -> None:
    """Who searches for a name finds the one thing that is called so."""
    places: dict[str, list[str]] = {}
    for path in (*MODULES, *(ROOT / "grammar").rglob("*.py")):
        for node in ast.parse(path.read_text("utf-8")).body:
            if isinstance(node, ast.ClassDef):
                places.setdefault(node.name, []).append(str(path.relative_to(ROOT)))
    assert len(places) > 500
    assert not {name: where for name, where in places.items() if len(where) > 1}
