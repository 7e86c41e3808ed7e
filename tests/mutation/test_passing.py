"""What is known of the tests stays true as more are written: only new ones are run again."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tests.mutation.constants import uses_of
from tests.mutation.named import names_around, naming_tests
from tests.mutation.passing import ROOT, Passing, _digest, _importing


def _found(*files: str, line: str = "3") -> Passing:
    tests = [f"tests/{file}.py::test_it" for file in files]
    numbers = list(range(len(tests)))
    cases = [f"tests.{file}::test_it" for file in files]
    return Passing(
        tests,
        [1.0 + number for number in numbers],
        {"grammar/low.py": {line: numbers}},
        cases,
        [10 * (1 + number) for number in numbers],
        {"grammar/low.py": f"digest with {files[0]}"},
        dict.fromkeys((f"tests/{file}.py" for file in files), "as it was"),
    )


def test_tests_of_a_file_are_forgotten_and_those_after_it_keep_their_numbers() -> None:
    left = _found("test_a", "test_b", "test_c").without(["tests/test_b.py"])
    assert left.tests == ["tests/test_a.py::test_it", "tests/test_c.py::test_it"]
    assert left.seconds == [1.0, 3.0]
    assert left.reach == [10, 30]
    assert left.lines == {"grammar/low.py": {"3": [0, 1]}}
    assert left.known == {"tests.test_a::test_it", "tests.test_c::test_it"}


def test_a_name_that_only_begins_alike_is_kept() -> None:
    left = _found("test_low", "test_lower").without(["tests/test_low.py"])
    assert left.known == {"tests.test_lower::test_it"}


def test_what_is_found_later_comes_after() -> None:
    both = _found("test_a", "test_b").with_also(_found("test_new"))
    assert both.tests[2] == "tests/test_new.py::test_it"
    assert both.lines == {"grammar/low.py": {"3": [0, 1, 2]}}
    assert both.known == {f"tests.{name}::test_it" for name in ("test_a", "test_b", "test_new")}
    # of a module that has changed meanwhile, lines are no guide; any of its tests may tell
    assert both.digests == {"grammar/low.py": "digest with test_a"}


def test_a_line_that_only_later_tests_pass_is_known_too() -> None:
    both = _found("test_a").with_also(_found("test_new", line="8"))
    assert both.lines == {"grammar/low.py": {"3": [0], "8": [1]}}


def test_quick_tests_come_first_and_those_that_pass_through_little_else() -> None:
    # Of the second line: a long test, two quick ones, and one that passes through it alone.
    found = Passing(
        [f"tests/test_{name}.py::test_it" for name in ("long", "wide", "narrow", "elsewhere")],
        [5.0, 0.02, 0.02, 0.02],
        {"grammar/low.py": {"2": [0, 1, 2], "3": [3]}},
        [],
        [10, 1000, 10, 10],
        {"grammar/low.py": _digest("grammar/low.py")},
    )
    order = [test.split("_")[1].split(".")[0] for test in found.through("grammar/low.py", 2, 10)]
    assert order == ["narrow", "wide", "long", "elsewhere"]
    assert found.through("grammar/low.py", 2, 0.05)[0].startswith("tests/test_narrow")
    # what a line of a module that has changed is passed by is not known any more
    stale = replace(found, digests={"grammar/low.py": "another"})
    assert len(stale.through("grammar/low.py", 2, 10)) == 4


def test_files_that_import_a_module_are_about_it() -> None:
    about = _importing("assistant/levels/drift.py")
    assert "tests/levels/test_reduction.py" in about
    # not those of a module whose name only begins alike, nor those that go through it
    assert "tests/levels/test_network.py" not in about
    assert "tests/job/test_ends_of_the_record.py" in _importing("assistant/record/lock.py")
    # its own examples are about it too
    assert "assistant/floor/cost.py" in _importing("assistant/floor/cost.py")
    assert "assistant/floor/cost.py" not in _importing("assistant/floor/order.py")


def test_tests_about_the_module_come_first() -> None:
    # One goes through little else but is about another module; the other is about this one.
    found = Passing(
        ["tests/levels/test_network.py::test_it", "tests/levels/test_reduction.py::test_it"],
        [0.02, 0.5],
        {"assistant/levels/drift.py": {"2": [0, 1]}},
        [],
        [10, 5000],
        {"assistant/levels/drift.py": _digest("assistant/levels/drift.py")},
    )
    first = found.through("assistant/levels/drift.py", 2, 10)[0]
    assert first.startswith("tests/levels/test_reduction.py")


def test_tests_that_name_what_the_line_stands_in_come_before_those() -> None:
    """Both are about the module; one asks for the function, the other for what it never calls."""
    # The line is found by what stands there, as the module grows.
    module = "assistant/floor/interval.py"
    text = (ROOT / module).read_text(encoding="utf-8").splitlines()
    line = 1 + next(row for row, code in enumerate(text) if "if name != but and name in" in code)
    file = "tests/floor/test_doubts_by_hand.py::test_"
    tests = [
        f"{file}why_there_is_no_interval",
        f"{file}spots_are_the_points_on_the_floor_in_the_order_read",
    ]
    found = Passing(
        tests, [0.02, 0.5], {module: {str(line): [0, 1]}}, [], [10, 5000], {module: _digest(module)}
    )
    assert found.through(module, line, 10) == tests[::-1]


def test_of_a_number_with_a_name_the_tests_count_that_pass_where_it_is_used() -> None:
    """It is read on import, once; whoever happened to come first there tells nothing of it."""
    module = "assistant/levels/kriged/volume.py"
    text = (ROOT / module).read_text(encoding="utf-8").splitlines()
    given, used = (
        next(row for row, code in enumerate(text, start=1) if words in code)
        for words in ("DEEP_ENOUGH = ", "< DEEP_ENOUGH * ")
    )
    found = Passing(
        ["tests/job/test_first.py::test_it", "tests/job/test_using.py::test_it"],
        [0.02, 0.5],
        {module: {str(given): [0], str(used): [1]}},
        [],
        [10, 5000],
        {module: _digest(module)},
    )
    assert found.through(module, given, 10)[0].startswith("tests/job/test_using.py")


def test_where_a_name_is_used(tmp_path: Path) -> None:
    """Made into others, imported under another name; not what only begins alike."""
    low, high = tmp_path / "grammar/low.py", tmp_path / "assistant/high.py"
    for file, text in (
        (
            low,
            "A = 1\nB = 2 * A\nAB = 3\n\n\ndef least():\n    return B\n\n\n"
            "def most():\n    return AB\n",
        ),
        (high, "from grammar.low import A as bound\n\n\ndef other(A):\n    return bound - A\n"),
    ):
        file.parent.mkdir()
        file.write_text(text, encoding="utf-8")
    assert uses_of(tmp_path, "grammar/low.py", 1) == {
        "grammar/low.py": {2, 7},
        "assistant/high.py": {5},
    }
    assert uses_of(tmp_path, "grammar/low.py", 3) == {"grammar/low.py": {11}}
    assert uses_of(tmp_path, "grammar/low.py", 7) == {}


def test_a_field_is_used_where_it_is_asked_for(tmp_path: Path) -> None:
    low = tmp_path / "grammar/low.py"
    low.parent.mkdir()
    low.write_text(
        "class Rules:\n    most: int = 3\n\n\ndef least(rules):\n    return rules.most\n"
    )
    assert uses_of(tmp_path, "grammar/low.py", 2) == {"grammar/low.py": {6}}


def test_what_stands_around_a_line_and_which_tests_name_it(tmp_path: Path) -> None:
    module, tests = tmp_path / "low.py", tmp_path / "test_low.py"
    module.write_text(
        "LEAST = 1\n\n\ndef _inner():\n    return LEAST\n\n\ndef outer():\n    return _inner()\n",
        "utf-8",
    )
    tests.write_text(
        "def made():\n    return low.outer()\n\n\ndef test_a():\n    assert made()\n\n\n"
        "def test_b():\n    assert low.LEAST\n",
        "utf-8",
    )
    around = list(names_around(tmp_path, "low.py", 1))
    assert around == [{"LEAST"}, {"_inner"}, {"outer"}]
    assert list(names_around(tmp_path, "low.py", 5)) == [{"_inner"}, {"outer"}]
    assert list(names_around(tmp_path, "low.py", 2)) == []
    for names, found in (({"LEAST"}, {"test_b"}), ({"_inner"}, set()), ({"outer"}, {"test_a"})):
        assert naming_tests(tmp_path, "test_low.py", names) == found, names
