"""What came of a wish for a finish, where a test knows which of the two it is."""

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
