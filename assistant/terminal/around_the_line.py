"""What stands around the typed line: the waiting question, the tally, hints and completion."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from assistant.reply.visible import visible
from assistant.terminal.opening import Opening

if TYPE_CHECKING:
    from prompt_toolkit.document import Document

    from assistant.decide import Question


SHORT_OFFER = 30
"""Characters of what is offered that still stand beside the line."""

LONG_LINE = 200
"""Characters from which a line gets no hints or completion: it was pasted, and parsing
it at every keystroke would make the prompt lag."""


def completer_of(opening: Opening) -> Any:
    """Completes a line with the words of the language that can come next."""
    from prompt_toolkit.completion import CompleteEvent, Completer, Completion

    class FromGrammar(Completer):
        """Words of the language that can come next."""

        def get_completions(
            self, document: Document, complete_event: CompleteEvent
        ) -> Iterable[Completion]:
            before = document.current_line_before_cursor
            # On an empty line the menu would hold everything; Tab still shows it.
            wanted = before.strip() or complete_event.completion_requested
            if not opening.opened or not wanted or len(before) > LONG_LINE:
                return
            from grammar import suggestions

            job = opening.conversation.job
            for item in suggestions(before, _names(job)):
                yield Completion(
                    item.insert, item.start, display=item.display, display_meta=item.help
                )

    return FromGrammar()


def _names(job: Any) -> tuple[str, ...]:
    """Names that may complete a phrase: the product in use."""
    return (job.card.name,) if job.card is not None else ()


def question_before(opening: Opening, columns: int, shown: str | None = None) -> str:
    """The waiting question, shown at the line itself so that it can't be overlooked; where it
    was `shown` before, only what it is about."""
    pending = opening.conversation.pending if opening.opened else None
    if pending is None:
        return ""
    if pending.text == shown:
        return f"{_what_about(pending)}? "
    text = visible(pending.text)
    # Beside the line where there is room to answer, else above it.
    if len(text) + 30 <= columns:
        return f"{text} "
    # Cut off at the width of the line it would lose its end, which says how to answer.
    return "".join(f"{line}\n" for line in textwrap.wrap(text, columns, break_on_hyphens=False))


def _what_about(pending: Question) -> str:
    """The point that a question is about, or else what it offers, where that is short."""
    from grammar import short_form  # there since the question was asked

    command = pending.command
    if point := getattr(command, "point", None):
        return str(point)
    offered = short_form(command) if pending.is_an_offer and command is not None else ""
    return offered if len(offered) <= SHORT_OFFER else ""


class Toolbar:
    """The tally, and under it what may come next on the line."""

    def __init__(self, opening: Opening, status: Callable[[], str] = lambda: "") -> None:
        self._opening = opening
        self._status = status
        self._shown: tuple[object, int, str] = (None, 0, "")

    def text(self, before: str, columns: int) -> str:
        """One or two lines, each no wider than `columns`."""
        if not self._opening.opened:
            return " opening the job …"
        # The recogniser's state takes the place of the hints: nobody speaks and types at once.
        below = _hint(before, columns - 2) or self._status()[: columns - 2]
        return f" {self._tally(columns - 2)}\n {below}".rstrip(" \n")

    def _tally(self, width: int) -> str:
        """The tally line, worked out once for each job state, not at each keystroke."""
        from assistant.floor.tally import tally_of
        from assistant.floor.warnings import all_warnings
        from assistant.terminal.toolbar import toolbar_line

        job = self._opening.conversation.job
        if self._shown[0] is not job or self._shown[1] != width:
            line = toolbar_line(job, tally_of(job), len(all_warnings(job)), width)
            self._shown = (job, width, line)
        return self._shown[2]


def _hint(before: str, width: int) -> str:
    """What may come next, as much of it as fits."""
    if not before.strip() or len(before) > LONG_LINE:
        return ""
    from grammar import hint

    finished, _, _ = before.rpartition(" ")
    line = "next:"
    # While a word is being typed, the hints are still what follows the words before it.
    for number, name in enumerate(hint(before) or (hint(finished) if finished else ())):
        more = f"{line}{',' if number else ''} {name}"
        if len(more) > width - 2:
            return f"{line} …"
        line = more
    return line if line != "next:" else ""
