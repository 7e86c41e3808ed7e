"""Starts the program, and is the one place where errors are shown to the user."""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Sequence

from assistant.errors import LeadsmanError
from assistant.terminal.aside import aside
from assistant.version import __version__

COULD_NOT_RUN = 2
INTERRUPTED = 130
PIPE_CLOSED = 141
NO_OUTPUT = (
    "Standard output is closed, so nothing can be answered and nothing was done. Leave it "
    "open; to throw the answers away: > /dev/null"
)
"""Exit code of a program stopped by a signal, as shells have it: 128 plus its number."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the program; the exit code."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        return _run(given)
    except LeadsmanError as error:
        aside(str(error))
        return COULD_NOT_RUN
    except KeyboardInterrupt:
        print(file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:
        _let_go_of_stdout()
        return PIPE_CLOSED
    except OSError as fault:
        if not _is_unwritten(fault):
            return _own_fault(fault)
        _let_go_of_stdout()
        aside(
            f"the answers cannot be written ({fault.strerror}), so it stopped there. "
            "What was recorded till then is kept."
        )
        return COULD_NOT_RUN
    except Exception as fault:
        return _own_fault(fault)


def _run(given: Sequence[str]) -> int:
    if sys.stdout is None:
        raise LeadsmanError(NO_OUTPUT)
    if given in (["--version"], ["-V"]):
        # Asked by scripts and by people in a hurry: nothing else is loaded for it.
        print(f"leadsman {__version__}", flush=True)
        return 0
    _look_for_strangers()
    from assistant.command_line.parser import run

    for stream in (sys.stdout, sys.stderr):
        # A sign the terminal can't show must not end the program.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        code = run(given)
    except SystemExit as left:  # help was printed, or the program was asked to end
        if left.code == 0:
            sys.stdout.flush()
        raise
    sys.stdout.flush()
    return code


def _look_for_strangers() -> None:
    """Refuse to run where one of our two packages belongs to another program."""
    from importlib.util import find_spec
    from pathlib import Path

    ours = Path(__file__).resolve().parent
    found = find_spec("grammar")
    beside = ours.parent / "grammar" / "__init__.py"
    if found is None or found.origin is None or Path(found.origin).resolve() != beside:
        there = found.origin if found and found.origin else "without code"
        raise LeadsmanError(
            f"Python finds another package called grammar ({there}), not the one beside {ours}. "
            "Give Leadsman an environment of its own, for example by pipx, and leave PYTHONPATH "
            "empty."
        )


def _is_unwritten(fault: OSError) -> bool:
    """Whether standard output cannot be written; faults of files that we open carry a name."""
    full = (errno.ENOSPC, errno.EIO, errno.EBADF, errno.EFBIG, errno.EDQUOT)
    return fault.filename is None and fault.errno in full


def _let_go_of_stdout() -> None:
    """Stop Python from writing once more at its end to a reader that has gone."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _own_fault(fault: Exception) -> int:
    from assistant.record.places import user_folders
    from assistant.wiring import note_fault

    where = note_fault(user_folders().faults, fault)
    aside(
        f"the program made a mistake ({type(fault).__name__}: {fault}).\n"
        f"Everything that was answered is on disk. What went wrong is noted in {where}."
    )
    return COULD_NOT_RUN


if __name__ == "__main__":
    sys.exit(main())
