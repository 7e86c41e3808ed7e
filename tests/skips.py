"""Skipped tests against a list: where a run is to be whole, one that was not expected fails it.

With ``LEADSMAN_SKIPS=listed`` each skip has to stand in ``expected_skips.toml``, with a lack that
this machine really has. Otherwise a package that no longer installs would take its tests with
it, and every run would stay green.
"""

from __future__ import annotations

import fnmatch
import importlib.util
import os
import shutil
import sys
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import pytest

ASKED_FOR_BY = "LEADSMAN_SKIPS"
LIST = Path(__file__).with_name("expected_skips.toml")
FAILED = 1
_KEYS = {"tests", "reason", "why", "lacks_program", "lacks_package", "platform"}


@dataclass(frozen=True, slots=True)
class Skip:
    """A test that was left out, and why by its own words."""

    test: str
    reason: str


@dataclass(frozen=True, slots=True)
class Expected:
    """Skips that are no surprise."""

    tests: str
    """Pattern of the tests' ids, such as ``tests/speech/*``."""
    reason: str
    """Pattern of what they say."""
    why: str
    """Why it is right to go on without them."""
    lacks_program: str = ""
    """Expected only where this program is not found; with several names, where one is not."""
    lacks_package: str = ""
    """Expected only where this cannot be imported."""
    platform: str = ""
    """Expected only there, as :data:`sys.platform` names it."""

    def fits(self, skip: Skip) -> bool:
        """Whether it is one of these, and what it lacks is really lacking."""
        return (
            fnmatch.fnmatchcase(skip.test, self.tests)
            and fnmatch.fnmatchcase(skip.reason, self.reason)
            and self.holds_here()
        )

    def holds_here(self) -> bool:
        """Whether this machine is as described."""
        programs = self.lacks_program.split()
        return (
            (not programs or any(shutil.which(each) is None for each in programs))
            and (not self.lacks_package or importlib.util.find_spec(self.lacks_package) is None)
            and self.platform in ("", sys.platform)
        )


def expected_in(path: Path) -> list[Expected]:
    """The list; ValueError where an entry has a key too much or too little."""
    entries = tomllib.loads(path.read_text("utf-8")).get("skip", [])
    for entry in entries:
        if unknown := entry.keys() - _KEYS:
            raise ValueError(f"{path.name}: {', '.join(sorted(unknown))} is no key of a skip")
        for key in ("tests", "reason", "why"):
            if not entry.get(key):
                raise ValueError(f"{path.name}: a skip without {key}: {entry}")
    return [Expected(**entry) for entry in entries]


def unexpected(skips: Iterable[Skip], expected: Iterable[Expected]) -> list[Skip]:
    """Those that no entry speaks of, each once."""
    known = tuple(expected)
    return [skip for skip in dict.fromkeys(skips) if not any(each.fits(skip) for each in known)]


class SkipsAsListed:
    """Looks at all that is reported, from other processes too, and has the last word."""

    def __init__(self, expected: Iterable[Expected]) -> None:
        self._expected = tuple(expected)
        self._skips: list[Skip] = []

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A test; one that is expected to fail is reported as skipped, and is none."""
        if report.skipped and not hasattr(report, "wasxfail"):
            self._note(report.nodeid, report.longrepr)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """A whole file."""
        if report.skipped:
            self._note(report.nodeid, report.longrepr)

    @pytest.hookimpl(trylast=True)
    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        """Only what is otherwise green turns red by it."""
        if unexpected(self._skips, self._expected) and session.exitstatus == 0:
            session.exitstatus = FAILED

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        """Name them, and where they would have to stand."""
        amiss = unexpected(self._skips, self._expected)
        if not amiss:
            return
        terminalreporter.section("skipped, and not expected", red=True)
        for skip in amiss:
            terminalreporter.line(f"{skip.test}: {skip.reason}")
        terminalreporter.line(f"Mend what is lacking, or give the reason in {LIST.name}.")

    def _note(self, test: str, where: object) -> None:
        # Pytest gives file, line and words.
        words = where[2] if isinstance(where, tuple) else str(where)
        self._skips.append(Skip(test, str(words).removeprefix("Skipped: ")))


def watch(config: pytest.Config, listed: Path = LIST) -> None:
    """Begin to look, where that is asked for; the processes that a run is spread over report."""
    if os.environ.get(ASKED_FOR_BY) == "listed" and not hasattr(config, "workerinput"):
        config.pluginmanager.register(SkipsAsListed(expected_in(listed)))
