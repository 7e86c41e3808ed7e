"""Before anything else is imported."""

import os

# Threads of the linear algebra spin for a core that another process has, and a hundred times
# as long as the work takes; the matrices here are small.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest

from assistant.sound.voice_parts import let_nothing_call_out
from tests.skips import watch

# Tests ask for packages by themselves, to see whether they are there.
let_nothing_call_out()


def pytest_configure(config: pytest.Config) -> None:
    """Before any test."""
    watch(config)
