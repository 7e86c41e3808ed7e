"""What is typed, line by line: each is answered, or it is told that it was not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from assistant.conversation.lines import utterance_in
from assistant.terminal.opening import Opening
from assistant.terminal.screen import Screen

LEAVE = frozenset({"quit", "exit", "bye"})
"""What people type who don't think of Ctrl-D; words of the prompt, not of the language."""

Hears = Callable[[str, bool], None]
"""Takes a line and shows what came of it; and whether the question that then waits is shown
too, as nobody will see it at the prompt."""


def talk(typed: Iterable[str], opening: Opening, screen: Screen, hear: Hears | None = None) -> None:
    """
    Hear all that is typed until somebody leaves.

    Parameters
    ----------
    typed : iterable of str
        Each is what was sent at once: a line, or what was pasted, of several lines.
    opening, screen
    hear : callable, optional
        Takes each line; by itself it is said to the conversation and shown.
    """

    def said(line: str, ask: bool) -> None:
        screen.show(opening.conversation.hear(line), ask=ask)

    for text in typed:
        lines = [line for line in map(utterance_in, text.splitlines()) if line]
        if not _heard_all(lines, opening, screen, hear or said):
            return


def _heard_all(lines: Sequence[str], opening: Opening, screen: Screen, hear: Hears) -> bool:
    """
    False where one of them was to leave.

    Ctrl-C may come between any two steps. What `at` points to then is the last line that was
    begun; what became of it is looked up in the record, and those behind it are told of.
    """
    at = before = 0
    try:
        for number, line in enumerate(lines):
            if line.casefold() in LEAVE:
                return False
            before, at = opening.conversation.on_record, number
            # What waits stands at the prompt; only the last of several gets there.
            hear(line, number < len(lines) - 1)
    except KeyboardInterrupt:
        for told in _stopped_at(lines, at, opening.conversation.on_record > before):
            screen.say(told)
    return True


def _stopped_at(lines: Sequence[str], at: int, recorded: bool) -> Iterator[str]:
    """What became of the line that Ctrl-C met, and of those after it."""
    if recorded:
        yield f"Stopped. “{lines[at]}” is on record."
    else:
        yield f"Stopped. Nothing was recorded of “{lines[at]}”."
    rest = lines[at + 1 :]
    if rest:
        what, to = ("line", "") if len(rest) == 1 else ("lines", f" to “{rest[-1]}”")
        yield f"Not heard, nothing recorded: the {len(rest)} {what} after it, “{rest[0]}”{to}."
