"""A line that was left unfinished, and what the next one makes of it.

"Correct B1" is not a sentence yet, and the "minus 16" that follows is: a reading for the next
point. Taken as that, it would lie on a point that nobody spoke of.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.conversation.question import is_bare
from grammar import Misunderstood, understand
from grammar.commands import Ask, Change, Command
from grammar.frozen import frozen


@frozen
class Whole:
    """An unfinished line and the one that finished it, taken as one."""

    said: str
    """Both, a line each, as an answer stands under its question on record."""
    meanings: tuple[Command, ...]
    """What they may mean; where there are several, it is to be asked."""


def completed(
    before: str, text: str, alone: Sequence[Command] = (), *, is_asked: bool = False
) -> Whole | None:
    """
    What an unfinished line and the one after it come to together.

    Parameters
    ----------
    before : str
        The line that was not finished; empty where there was none.
    text : str
        The line that followed.
    alone : sequence of Command
        What that line means by itself; empty where no phrase takes it.
    is_asked : bool
        Whether a question waits; what a bare value is for is then a matter of that question.

    Returns
    -------
    whole : Whole or None
        With both meanings where the second line could also be a reading for the next point, and
        with the question alone where it would change what the first one only asked about ("what
        if"). None where it says something whole of its own, or both together say nothing.
    """
    bare = bool(alone) and all(map(is_bare, alone))
    if not before or (bare and is_asked) or _begun_anew(before, text):
        return None
    try:
        together = tuple(understand(f"{before} {text}"))
    except Misunderstood:
        return None
    # Said after mere talk, it means what it means alone.
    if not together or any(command in alone for command in together):
        return None
    said = f"{before}\n{text}"
    if bare or not alone:
        return Whole(said, (*together, *alone))
    asks = all(isinstance(command, Ask) for command in together)
    changes = all(isinstance(command, Change) for command in alone)
    return Whole(said, together) if asks and changes else None


def _begun_anew(before: str, text: str) -> bool:
    """Whether the second line begins as the first did: "note", then "note at B2"."""
    one, other = before.casefold().split()[:1], text.casefold().split()[:1]
    return one == other
