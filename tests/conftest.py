"""Before anything else is imported."""

import gc
import os
import shutil
import sys
from typing import Any
from zlib import crc32

# Threads of the linear algebra spin for a core that another process has, and a hundred times
# as long as the work takes; the matrices here are small.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest
from hypothesis import HealthCheck, settings

from assistant.sound.voice_parts import let_nothing_call_out
from tests.compiled import compile_tests
from tests.doctests import OnlyWhereThereAreSome
from tests.skips import watch

# Compiled once, not once in each worker, each program that is started and each copy of the tree.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# How many examples a property is tried on, where it does not say: the suite has to end while
# somebody waits for it, DEVELOPERS.md has the command of a long run. None has a deadline, nor
# is asked how quick its examples are made: a busy machine would turn it red.
BUSY: Any = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("suite", max_examples=40, **BUSY)
settings.register_profile("long", max_examples=2000, **BUSY)
# A walk over tables, in a copy of the program.
settings.register_profile("few", max_examples=5, **BUSY)
settings.load_profile("suite")

# Files of tests are in memory where that is: a record waits for the disk at each line, and whoever
# else uses that disk lets all tests wait. What has to be on a disk says so (tests/there.py).
MEMORY = "/dev/shm"
ENOUGH = 2**31
if (
    os.access(MEMORY, os.W_OK | os.X_OK)
    and shutil.disk_usage(MEMORY).free > ENOUGH
    and not os.statvfs(MEMORY).f_flag & os.ST_NOEXEC
):
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", MEMORY)

# Tests ask for packages by themselves, to see whether they are there.
let_nothing_call_out()


def pytest_configure(config: pytest.Config) -> None:
    """Before any test."""
    watch(config)
    config.pluginmanager.register(OnlyWhereThereAreSome())
    if config.getoption("numprocesses", None):  # none of a worker
        compile_tests()


def in_turn(items: list[pytest.Item], turn: str) -> list[pytest.Item]:
    """
    The share of the tests that is asked for: "2/3" is the second of three; all of them by "1/1".

    By name, so that each worker finds the same ones.
    """
    which, of = map(int, turn.split("/"))
    return [item for item in items if crc32(item.nodeid.encode()) % of == which % of]


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Files with slow tests first, whole, so that no worker has one left when others have none."""
    items[:] = in_turn(items, os.environ.get("LEADSMAN_TURN", "1/1"))
    slow = {item.path for item in items if item.get_closest_marker("slow")}
    items.sort(key=lambda item: item.path not in slow)


def pytest_collection_finish() -> None:
    """All that is there now stays: it need not be looked through for garbage again and again."""
    gc.collect()
    gc.freeze()


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int | None:
    """One more than there are cores: there is always a test that waits for sound, or a program."""
    if "PYTEST_XDIST_AUTO_NUM_WORKERS" in os.environ or not hasattr(os, "sched_getaffinity"):
        return None
    return len(os.sched_getaffinity(0)) + 1


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """
    Each worker has its stretch of the tests, and takes from the others' once it is through.

    Dealt out by turns, every file would be begun by every worker: its models loaded, its voices
    made to speak and its floors read as many times.
    """
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log) if config.getoption("dist") == "load" else None
