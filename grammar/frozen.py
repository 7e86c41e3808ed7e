"""Frozen dataclasses whose methods are made when they are first used.

There are hundreds of small classes here, and one answer uses a few dozen. ``dataclass`` writes and
compiles six methods for each as soon as its module is loaded, which was half the time of a start.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import MISSING, Field, FrozenInstanceError, field, make_dataclass
from inspect import get_annotations
from threading import RLock
from typing import Any, NoReturn, TypeVar, dataclass_transform, overload

T = TypeVar("T")

_MADE_BY: dict[str, dict[str, bool]] = {
    "__dataclass_fields__": {},
    "__match_args__": {},
    "__dataclass_params__": {"init": True, "repr": True, "eq": True, "frozen": True},
    "__init__": {},
    "__repr__": {"repr": True},
    "__eq__": {"eq": True},
    "__hash__": {"eq": True, "unsafe_hash": True},
}
"""What dataclasses give a class, and what to ask them for to get just that."""
_LOCK = RLock()  # recognisers work in threads of their own


@overload
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]: ...
@overload
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(*, kw_only: bool) -> Callable[[type[T]], type[T]]: ...
def frozen(cls: type[T] | None = None, *, kw_only: bool = False) -> Any:
    """
    As ``dataclass(frozen=True)``, with the same methods, made when one is first needed.

    Raises TypeError for a class with ``__post_init__``, which would not be called.

    >>> @frozen
    ... class Step:
    ...     rise_mm: int
    ...     name: str = "step"
    >>> Step(4), Step(4) == Step(4, "step")
    (Step(rise_mm=4, name='step'), True)
    """
    if cls is None:
        return lambda cls: _with_stand_ins(cls, _MADE_BY, kw_only)
    return _with_stand_ins(cls, _MADE_BY, kw_only)


@dataclass_transform(frozen_default=True, eq_default=False, field_specifiers=(field,))
def frozen_identity(cls: type[T]) -> type[T]:
    """As ``dataclass(frozen=True, eq=False)``, for what holds arrays: equal to itself alone."""
    return _with_stand_ins(cls, _MADE_BY.keys() - {"__eq__", "__hash__"})


def _with_stand_ins(cls: type[T], names: Iterable[str], kw_only: bool = False) -> type[T]:
    if hasattr(cls, "__post_init__"):
        raise TypeError(f"{cls.__name__} has __post_init__: make it a dataclass")
    for name in names:
        if name not in cls.__dict__ or (name == "__hash__" and cls.__dict__[name] is None):
            setattr(cls, name, _Later(cls, name, kw_only))
    cls.__setattr__ = _refused  # type: ignore[method-assign]
    cls.__delattr__ = _refused  # type: ignore[method-assign]
    return cls


class _Later:
    """Stands where a class's method will, and has it made as soon as somebody looks at it."""

    def __init__(self, cls: type, name: str, kw_only: bool) -> None:
        self._cls, self._name, self._kw_only = cls, name, kw_only

    def __get__(self, instance: object, owner: type | None = None) -> Any:
        with _LOCK:
            if self._cls.__dict__.get(self._name) is self:
                _make(self._cls, self._name, self._kw_only)
        return getattr(owner if instance is None else instance, self._name)


def _refused(self: object, name: str, *_value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot change '{name}' of {type(self).__name__}, which is frozen")


def _make(cls: type, name: str, kw_only: bool) -> None:
    """Give a class what a dataclass that holds the same fields has by this name."""
    gathers = name == "__dataclass_fields__"
    fields = _gathered(cls, kw_only) if gathers else _fields_of(cls)
    if name == "__init__":
        cls.__init__ = _initializer(cls, fields)  # type: ignore[misc]
        return
    asked: dict[str, Any] = {"init": False, "repr": False, "eq": False, **_MADE_BY[name]}
    model = make_dataclass(
        cls.__name__,
        [(name, of.type, of) for name, of in fields.items()],
        namespace={"__doc__": cls.__doc__},
        **asked,
    )
    setattr(cls, name, model.__dict__[name])
    if gathers:
        _put_defaults(cls)


def _initializer(cls: type, fields: Mapping[str, Field[Any]]) -> Callable[..., None]:
    """
    The ``__init__`` that a frozen dataclass with these fields has.

    Written out here, as dataclass compiles three methods to give one, and a start needs fifty.
    """
    known: dict[str, Any] = {"_put": object.__setattr__, "_none": object()}
    taken, by_name, lines = ["self"], ["*"], []
    for name, of in fields.items():
        value = name
        if of.default_factory is not MISSING:
            known[f"_make_{name}"] = of.default_factory
            value = f"_make_{name}() if {name} is _none else {name}"
        elif of.default is not MISSING:
            known[f"_default_{name}"] = of.default
        if of.init:
            (by_name if of.kw_only else taken).append(f"{name}{_default(name, of)}")
        elif of.default_factory is not MISSING:
            value = f"_make_{name}()"
        else:
            continue
        lines.append(f" _put(self, {name!r}, {value})")
    taken += by_name if len(by_name) > 1 else []
    exec("\n".join([f"def __init__({', '.join(taken)}):", *(lines or [" pass"])]), known)
    init: Any = known["__init__"]
    init.__qualname__, init.__module__ = f"{cls.__name__}.__init__", cls.__module__
    return init  # type: ignore[no-any-return]


def _default(name: str, of: Field[Any]) -> str:
    if of.default_factory is not MISSING:
        return "=_none"
    return "" if of.default is MISSING else f"=_default_{name}"


def _fields_of(cls: type) -> dict[str, Field[Any]]:
    fields: dict[str, Field[Any]] = getattr(cls, "__dataclass_fields__", {})
    return fields


def _gathered(cls: type, kw_only: bool) -> dict[str, Field[Any]]:
    """The fields of the bases, and those that the class declares."""
    found: dict[str, Any] = {}
    for base in reversed(cls.__mro__[1:]):
        found |= _fields_of(base)
    for name, kind in get_annotations(cls).items():
        if not str(kind).removeprefix("typing.").startswith("ClassVar"):
            given = cls.__dict__.get(name, MISSING)
            of = given if isinstance(given, Field) else field(default=given)
            if of.kw_only is MISSING:
                of.kw_only = kw_only
            found[name], of.type = of, kind
    return found


def _put_defaults(cls: type) -> None:
    """Put the values of fields in the place of their declarations, as a dataclass does."""
    for name, of in _fields_of(cls).items():
        if isinstance(cls.__dict__.get(name), Field):
            if of.default is MISSING:
                delattr(cls, name)
            else:
                setattr(cls, name, of.default)
