"""A command line whose faults are told as every other fault is."""

from __future__ import annotations

import argparse
import sys
from typing import Any, NoReturn

from assistant.terminal.aside import aside

COULD_NOT_RUN = 2


class Arguments(argparse.ArgumentParser):
    """Its errors go no wider than the terminal, and signs that steer one are shown, not sent."""

    def error(self, message: str) -> NoReturn:
        """Say what was wrong, and where help is."""
        self.print_usage(sys.stderr)
        aside(f"{message}. All that can be said: {self.prog} --help")
        sys.exit(COULD_NOT_RUN)

    def _print_message(self, message: str, file: Any = None) -> None:
        # As in argparse, but help that could not be written is not passed over.
        if message:
            (file or sys.stderr).write(message)
