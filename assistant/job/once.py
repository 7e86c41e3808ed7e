"""What is worked out from a job, worked out once and kept with it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Protocol, TypeVar


class _Keeping(Protocol):
    @property
    def kept(self) -> dict[str, Any]: ...


_Owner = TypeVar("_Owner", bound=_Keeping)
_Value = TypeVar("_Value")


def cached(function: Callable[[_Owner], _Value]) -> Callable[[_Owner], _Value]:
    """Work a thing out at most once for each job or layout, and keep it with that object.

    Neither ever changes, so what was kept cannot go stale; a job that follows
    starts with nothing kept, but shares the layout while no point moved.
    """
    name = f"{function.__module__}.{function.__qualname__}"

    @wraps(function)
    def remembered(owner: _Owner) -> _Value:
        if name not in owner.kept:
            owner.kept[name] = function(owner)
        value: _Value = owner.kept[name]
        return value

    return remembered
