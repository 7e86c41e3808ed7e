"""Frozen classes do what the standard library's frozen dataclasses do, and make less at a start."""

from __future__ import annotations

import copy
import pickle
import subprocess
import sys
from dataclasses import (
    FrozenInstanceError,
    asdict,
    dataclass,
    field,
    fields,
    is_dataclass,
    replace,
)
from inspect import signature
from threading import Barrier, Thread
from typing import Any, ClassVar

import pytest

from grammar.frozen import frozen, frozen_identity


@frozen
class Ours:
    KIND: ClassVar[str] = "a"
    first: int
    second: str = "b"
    third: dict[str, int] = field(default_factory=dict, compare=False)


@frozen
class OursBelow(Ours):
    KIND: ClassVar[str] = "c"
    fourth: float = field(default=4.0, repr=False)
    fifth: int = field(default=5, kw_only=True)
    sixth: list[int] = field(default_factory=list, init=False, compare=False)


@dataclass(frozen=True)
class Theirs:
    KIND: ClassVar[str] = "a"
    first: int
    second: str = "b"
    third: dict[str, int] = field(default_factory=dict, compare=False)


@dataclass(frozen=True)
class TheirsBelow(Theirs):
    KIND: ClassVar[str] = "c"
    fourth: float = field(default=4.0, repr=False)
    fifth: int = field(default=5, kw_only=True)
    sixth: list[int] = field(default_factory=list, init=False, compare=False)


WRONG: tuple[tuple[Any, ...], ...] = ((), (1, "x", {}, 4.0, 5))


@pytest.mark.parametrize(("ours", "theirs"), [(Ours, Theirs), (OursBelow, TheirsBelow)])
def test_it_does_what_a_dataclass_does(ours: Any, theirs: Any) -> None:
    for values, named in (((1,), {}), ((1, "x", {"y": 2}), {}), ((), {"first": 3, "second": "z"})):
        one, other = ours(*values, **named), theirs(*values, **named)
        assert repr(one) == repr(other).replace("Theirs", "Ours")
        assert hash(one) == hash(other)
        assert asdict(one) == asdict(other)
        assert one == ours(*values, **named) != replace(one, first=99)
        assert one != other
        assert copy.deepcopy(one) == pickle.loads(pickle.dumps(one)) == one
    assert [(f.name, f.type, f.default) for f in fields(ours)] == [
        (f.name, f.type, f.default) for f in fields(theirs)
    ]
    assert ours.__match_args__ == theirs.__match_args__
    assert ours.second == theirs.second == "b"
    taken, theirs_taken = signature(ours).parameters, signature(theirs).parameters
    assert [(p.name, p.kind, p.default is p.empty) for p in taken.values()] == [
        (p.name, p.kind, p.default is p.empty) for p in theirs_taken.values()
    ]
    assert hasattr(ours, "third") == hasattr(theirs, "third")
    for values in WRONG:
        with pytest.raises(TypeError) as told:
            theirs(*values)
        with pytest.raises(TypeError, match="__init__") as ours_told:
            ours(*values)
        assert str(ours_told.value) == str(told.value).replace("Theirs", "Ours")


def test_what_is_made_anew_is_made_for_each() -> None:
    one, other = OursBelow(1, fifth=6), OursBelow(1)
    assert (one.fifth, other.fifth) == (6, 5)
    assert one.sixth == other.sixth == []
    assert one.sixth is not other.sixth
    assert one.third is not other.third


@pytest.mark.parametrize("name", ["first", "other"])
def test_nothing_of_it_can_be_changed(name: str) -> None:
    for one in (Ours(1), OursBelow(1)):
        with pytest.raises(FrozenInstanceError, match=name):
            setattr(one, name, 2)
        with pytest.raises(FrozenInstanceError, match=name):
            delattr(one, name)


def test_dataclasses_stand_below_it_and_above() -> None:
    @dataclass(frozen=True, slots=True)
    class Below(OursBelow):
        seventh: int = 7

    @frozen
    class Lowest(Below):
        eighth: int = 8

    assert [f.name for f in fields(Lowest)] == [
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
    ]
    assert Lowest(1, eighth=7) == replace(Lowest(1), eighth=7)
    assert Lowest(1) != Below(1)


def test_what_holds_arrays_is_equal_to_itself_alone() -> None:
    @frozen_identity
    class Heights:
        values: list[float]

    one = Heights([1.0])
    assert one == one
    assert one != Heights([1.0])
    assert len({one, Heights([1.0])}) == 2
    assert replace(one, values=[2.0]).values == [2.0]
    assert repr(one).endswith("Heights(values=[1.0])")
    with pytest.raises(FrozenInstanceError):
        one.values = []  # type: ignore[misc]


def test_what_a_class_says_itself_stays() -> None:
    @frozen
    class Own:
        value: int

        def __repr__(self) -> str:
            return "own"

        def __eq__(self, other: object) -> bool:
            return True

    assert repr(Own(1)) == "own"
    assert Own(1) == Own(2)
    assert hash(Own(1)) == hash((1,))


def test_a_class_that_would_not_be_looked_after_is_refused() -> None:
    with pytest.raises(TypeError, match="Checked has __post_init__"):

        @frozen
        class Checked:
            def __post_init__(self) -> None: ...


def test_threads_that_need_it_at_once_all_get_it() -> None:
    for _ in range(20):
        made: Any = frozen(
            type("Made", (), {"__annotations__": {f"f{i}": "int" for i in range(20)}})
        )
        together = Barrier(6)
        found: list[Any] = []

        def use(made: Any = made, together: Barrier = together, found: list[Any] = found) -> None:
            together.wait()
            found.append(made(*range(20)))

        threads = [Thread(target=use) for _ in range(6)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert len(found) == 6
        assert len(set(found)) == 1
        assert is_dataclass(made)
        assert hash(found[0]) == hash(tuple(range(20)))


def test_methods_are_made_for_what_is_used_only() -> None:
    """Of all commands, one that was meant; and of all phrases, what may be said so."""
    code = (
        "import grammar.frozen\n"
        "from grammar import understand\n"
        "from grammar.commands import Command\n"
        "understand('B3 18 below')\n"
        "every = [kind for base in Command.__subclasses__() for kind in base.__subclasses__()]\n"
        "made = [k for k in every if not isinstance(vars(k)['__init__'], grammar.frozen._Later)]\n"
        "print(len(every), [kind.__name__ for kind in made], end='; ')\n"
        "from grammar import PHRASES\n"
        "print(len(PHRASES), sum('nodes' in vars(phrase) for phrase in PHRASES))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    of_classes, of_phrases = done.stdout.split(";")
    count, _, made = of_classes.partition(" ")
    assert int(count) > 80
    assert made == "['TakeReading']"
    rows, read = map(int, of_phrases.split())
    assert rows > 300
    assert read < rows / 20


def test_a_hash_of_its_own_stays_and_one_lost_with_its_equality_is_made() -> None:
    @frozen
    class Own:
        first: int

        def __hash__(self) -> int:
            return 7

    @frozen
    class Equal:
        first: int

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Equal)

    assert hash(Own(1)) == hash(Own(2)) == 7
    assert hash(Equal(1)) == hash(Equal(1))
    assert Equal(1) == Equal(2)
