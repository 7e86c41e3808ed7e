"""A bar while something takes longer than a second, on a terminal and nowhere else."""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

AFTER_S = 1.0
"""Until it is shown. Less would flash past before it could be read."""

At = Callable[[str], None]
"""Called with the step that begins."""


@contextmanager
def progress_bar(*steps: str, plain: bool = False, file: TextIO | None = None) -> Iterator[At]:
    """
    Show how far work is, on standard error, so that it never reaches the answers.

    Parameters
    ----------
    *steps : str
        The names of the steps, in order; the function that is yielded is called as each begins.
    plain : bool
        No bar: it moves the cursor.
    file : TextIO, optional
        Standard error, where none is given.
    """
    shown_on = sys.stderr if file is None else file
    if plain or shown_on is None or not shown_on.isatty():
        yield lambda _: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    progress = Progress(
        TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn(),
        console=Console(file=shown_on), transient=True,
    )  # fmt: skip
    # A single step has no share to show; its bar only moves.
    task = progress.add_task(steps[0], total=len(steps) if len(steps) > 1 else None)
    late = threading.Timer(AFTER_S, progress.start)
    late.daemon = True
    late.start()

    def at(step: str) -> None:
        progress.update(task, description=step, completed=steps.index(step))

    try:
        yield at
    finally:
        late.cancel()
        late.join()
        progress.stop()
