"""The result of a search for a finish, as the one of two types that a test expects."""

from __future__ import annotations

from assistant.levels.best_finish import Conflict, Finish


def met(result: Finish | Conflict) -> Finish:
    """The finish itself; the test fails where wishes stand against each other."""
    assert isinstance(result, Finish)
    return result


def unmet(result: Finish | Conflict) -> Conflict:
    """The wishes that stand against each other; the test fails where they can be met."""
    assert isinstance(result, Conflict)
    return result
