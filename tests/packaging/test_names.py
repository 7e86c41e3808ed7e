"""The names that the program is imported by, which others may want too."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("name", ["assistant", "grammar"])
def test_no_other_distribution_here_has_a_package_of_that_name(name: str) -> None:
    assert set(packages_distributions().get(name, [])) <= {"leadsman"}


def test_a_stranger_of_the_same_name_is_told_apart(tmp_path: Path) -> None:
    (tmp_path / "grammar").mkdir()
    (tmp_path / "grammar" / "__init__.py").write_text("PHRASES = ()\n")
    surroundings = {**os.environ, "PYTHONPATH": f"{tmp_path}{os.pathsep}{ROOT}"}
    done = subprocess.run(
        [sys.executable, "-c", "from assistant.__main__ import main; raise SystemExit(main())"],
        cwd=tmp_path, env=surroundings, input="", capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 2
    assert "another package called grammar" in done.stderr
    assert "environment of its own" in done.stderr


def test_a_wheel_takes_no_name_but_the_two_and_holds_the_demo() -> None:
    wheel = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    wheel = wheel["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel["packages"] == ["assistant", "grammar"]
    for here, there in wheel["force-include"].items():
        assert (ROOT / here).exists(), here
        assert there.startswith("assistant/demo/")
    kept = {path for path in (ROOT / "demo").iterdir() if path.suffix != ".py"}
    # The kept reports are to be looked at in the tree; the program makes its own.
    kept = {path for path in kept if path.name not in ("__pycache__", "reports")}
    assert {str(path.relative_to(ROOT)) for path in kept} == set(wheel["force-include"])
