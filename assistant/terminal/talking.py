"""Typed lines, one by one: each is answered, or reported as not handled."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from assistant.conversation.lines import LEAVE, utterance_in
from assistant.terminal.opening import Opening
from assistant.terminal.screen import Screen

Hears = Callable[[str, bool], None]
"""Takes a line and shows its answer; the flag says whether to show the waiting question too,
where no prompt will."""


Own = Callable[[str], bool]
"""Takes a line that is for the program and not for the job; False where it is none."""


def talk(
    typed: Iterable[str],
    opening: Opening,
    screen: Screen,
    hear: Hears | None = None,
    own: Own = lambda _: False,
) -> None:
    """
    Handle all that is typed until the user leaves.

    Parameters
    ----------
    typed : iterable of str
        Each is what was sent at once: a line, or pasted text of several lines.
    opening, screen
    hear : callable, optional
        Takes each line; by itself it is said to the conversation and shown.
    own : callable
        Takes the lines that are for the program, before that.
    """

    def said(line: str, ask: bool) -> None:
        if own(line):
            return
        if hear is not None:
            hear(line, ask)
        else:
            screen.show(opening.conversation.hear(line), ask=ask)

    for text in typed:
        lines = [line for line in map(utterance_in, text.splitlines()) if line]
        if not _heard_all(lines, opening, screen, said):
            return


def _heard_all(lines: Sequence[str], opening: Opening, screen: Screen, hear: Hears) -> bool:
    """
    False where one of them was to leave.

    Ctrl-C may come between any two steps. `at` then points to the last line that was begun;
    whether it was recorded is looked up, and the lines after it are reported.
    """
    at = before = 0
    try:
        for number, line in enumerate(lines):
            if line.casefold() in LEAVE:
                return False
            before, at = opening.conversation.on_record, number
            # Of what is pasted, only what came of the last line can be acted on.
            opening.conversation.ahead.on = len(lines) > 1
            # The prompt shows the question of the last line only; earlier ones are shown here.
            hear(line, number < len(lines) - 1)
    except KeyboardInterrupt:
        for told in _stopped_at(lines, at, opening.conversation.on_record > before):
            screen.say(told)
    return True


def _stopped_at(lines: Sequence[str], at: int, recorded: bool) -> Iterator[str]:
    """What became of the line that Ctrl-C interrupted, and of those after it."""
    if recorded:
        yield f"Stopped. “{lines[at]}” is on record."
    else:
        yield f"Stopped. Nothing was recorded of “{lines[at]}”."
    rest = lines[at + 1 :]
    if rest:
        what, to = ("line", "") if len(rest) == 1 else ("lines", f" to “{rest[-1]}”")
        yield f"Not heard, nothing recorded: the {len(rest)} {what} after it, “{rest[0]}”{to}."
