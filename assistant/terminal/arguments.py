"""A command-line parser that reports faults as the rest of the program does."""

from __future__ import annotations

import argparse
import sys
from typing import Any, NoReturn

from assistant.terminal.aside import aside

COULD_NOT_RUN = 2


class Arguments(argparse.ArgumentParser):
    """Wraps its errors to the terminal's width, and shows control signs instead of sending them."""

    def error(self, message: str) -> NoReturn:
        """Say what was wrong, and where help is."""
        self.print_usage(sys.stderr)
        aside(f"{message}. All that can be said: {self.prog} --help")
        sys.exit(COULD_NOT_RUN)

    def _print_message(self, message: str, file: Any = None) -> None:
        # As in argparse, but a failure to write the help is not ignored.
        if message:
            (file or sys.stderr).write(message)
