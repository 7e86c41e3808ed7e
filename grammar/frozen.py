"""Frozen dataclasses whose methods are made when they are first used.

There are hundreds of small classes here, and one answer uses a few dozen. ``dataclass`` writes and
compiles six methods for each as soon as its module is loaded, which was half the time of a start.
"""

from __future__ import annotations

from dataclasses import MISSING, Field, FrozenInstanceError, field, make_dataclass
from inspect import get_annotations
from threading import RLock
from typing import Any, NoReturn, TypeVar, dataclass_transform

T = TypeVar("T")

_MADE = (
    "__dataclass_params__", "__match_args__", "__eq__", "__hash__", "__repr__", "__init__",
    "__dataclass_fields__",
)  # fmt: skip
_LOCK = RLock()  # recognisers work in threads of their own


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """
    As ``dataclass(frozen=True)``, with the same methods, made by it when one is first needed.

    Raises TypeError for a class with ``__post_init__``, which would not be called.

    >>> @frozen
    ... class Step:
    ...     rise_mm: int
    ...     name: str = "step"
    >>> Step(4), Step(4) == Step(4, "step")
    (Step(rise_mm=4, name='step'), True)
    """
    if hasattr(cls, "__post_init__"):
        raise TypeError(f"{cls.__name__} has __post_init__: make it a dataclass")
    for name in _MADE:
        if name not in cls.__dict__ or (name == "__hash__" and cls.__dict__[name] is None):
            setattr(cls, name, _Later(cls, name))
    cls.__setattr__ = _refused  # type: ignore[method-assign]
    cls.__delattr__ = _refused  # type: ignore[method-assign]
    return cls


class _Later:
    """Stands where a class's method will, and has it made as soon as somebody looks at it."""

    def __init__(self, cls: type, name: str) -> None:
        self._cls, self._name = cls, name

    def __get__(self, instance: object, owner: type | None = None) -> Any:
        with _LOCK:
            if self._cls.__dict__.get(self._name) is self:
                _make(self._cls)
        return getattr(owner if instance is None else instance, self._name)


def _refused(self: object, name: str, *_value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot change '{name}' of {type(self).__name__}, which is frozen")


def _make(cls: type) -> None:
    """Give a class the methods of a dataclass that holds the same fields."""
    fields = _fields(cls)
    model = make_dataclass(
        cls.__name__, [(name, of.type, of) for name, of in fields.items()], frozen=True
    )
    for name in fields:
        if isinstance(cls.__dict__.get(name), Field):
            _set_default(cls, name, fields[name])
    for name in _MADE:
        # The last is what tells that all is made, and all of it stands before it is taken away.
        if isinstance(cls.__dict__.get(name), _Later):
            setattr(cls, name, model.__dict__[name])


def _fields(cls: type) -> dict[str, Any]:
    """All fields, those of the bases first, as ``make_dataclass`` takes them."""
    found: dict[str, Any] = {}
    for base in reversed(cls.__mro__[1:]):
        found |= getattr(base, "__dataclass_fields__", {})
    for name, kind in get_annotations(cls).items():
        if str(kind).removeprefix("typing.").startswith("ClassVar"):
            continue
        given = cls.__dict__.get(name, MISSING)
        found[name] = given if isinstance(given, Field) else field(default=given)
        found[name].type = kind
    return found


def _set_default(cls: type, name: str, of: Field[Any]) -> None:
    """Put what a field without a value has in its place, as a dataclass does."""
    if of.default is MISSING:
        delattr(cls, name)
    else:
        setattr(cls, name, of.default)
