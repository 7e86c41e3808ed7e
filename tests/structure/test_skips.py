"""A test that is skipped without being expected to turns a whole run red."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.skips import LIST, Expected, Skip, expected_in, unexpected

ROOT = Path(__file__).resolve().parents[2]
WITHOUT = "no-such-program-anywhere"
TESTS = """\
import pytest

@pytest.mark.skipif(True, reason="the moon is full")
def test_by_moonlight(): ...

@pytest.mark.xfail(reason="not yet", strict=True)
def test_not_yet(): assert False

def test_by_day(): ...
"""
MODULE = 'import pytest\npytest.importorskip("no_such_package", reason="no package")\n'
CONFTEST = """\
from pathlib import Path
from tests.skips import watch

def pytest_configure(config):
    watch(config, Path(__file__).with_name("list.toml"))
"""
MOON = '[[skip]]\ntests = "test_some.py::*"\nreason = "the moon *"\nwhy = "it wanes"\n'
PACKAGE = '[[skip]]\ntests = "test_more.py"\nreason = "no package"\nwhy = "nobody has it"\n'


def _run(folder: Path, listed: str, *options: str, asked: str = "listed") -> tuple[int, str]:
    for name, text in {
        "conftest.py": CONFTEST, "list.toml": listed, "test_some.py": TESTS, "test_more.py": MODULE,
    }.items():  # fmt: skip
        (folder / name).write_text(text)
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *options],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "LEADSMAN_SKIPS": asked},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout


@pytest.mark.parametrize("options", [(), ("-n", "1")], ids=["alone", "spread"])
def test_a_skip_that_is_not_listed_fails_the_run(tmp_path: Path, options: tuple[str, ...]) -> None:
    code, told = _run(tmp_path, MOON, *options)
    assert code == 1
    assert "test_more.py: no package" in told
    assert "the moon is full" not in told


def test_those_that_are_listed_do_not(tmp_path: Path) -> None:
    assert _run(tmp_path, MOON + PACKAGE)[0] == 0


def test_nobody_else_is_held_to_the_list(tmp_path: Path) -> None:
    assert _run(tmp_path, "", asked="")[0] == 0


@pytest.mark.parametrize(
    ("expected", "fits"),
    [
        (Expected("tests/a.py::*", "no sound*", "why"), True),
        (Expected("tests/b.py::*", "no sound*", "why"), False),
        (Expected("tests/a.py::*", "no light", "why"), False),
        (Expected("*", "*", "why", lacks_program=WITHOUT), True),
        (Expected("*", "*", "why", lacks_program=f"sh {WITHOUT}"), True),
        (Expected("*", "*", "why", lacks_program="sh"), False),
        (Expected("*", "*", "why", lacks_package="no_such_package"), True),
        (Expected("*", "*", "why", lacks_package="json"), False),
        (Expected("*", "*", "why", platform=sys.platform), True),
        (Expected("*", "*", "why", platform="elsewhere"), False),
    ],
    ids=str,
)
def test_a_lack_that_is_none_excuses_nothing(expected: Expected, fits: bool) -> None:
    skip = Skip("tests/a.py::test_it[5 mm]", "no sound here")
    assert unexpected([skip, skip], [expected]) == ([] if fits else [skip])


@pytest.mark.parametrize(
    "entry", ['tests = "*"\nreason = "*"', 'tests = "*"\nreason = "*"\nwhy = "w"\nhow = "h"']
)
def test_a_list_with_a_slip_in_it_is_refused(entry: str, tmp_path: Path) -> None:
    path = tmp_path / "list.toml"
    path.write_text(f"[[skip]]\n{entry}\n")
    with pytest.raises(ValueError, match=r"why|how"):
        expected_in(path)


def test_the_list_speaks_of_tests_that_there_are() -> None:
    for each in expected_in(LIST):
        files = each.tests.split("::")[0]
        assert list(ROOT.glob(files)), each.tests
