"""A table by the class of a command, of which each matter's rows are loaded when first used.

A command's module has its matter's name, so its row can be found without loading the others:
one answer needs the rows of one matter, and loading all of them is a good part of a start.
"""

from __future__ import annotations

from collections.abc import Iterator, MutableMapping, Sequence
from importlib import import_module
from threading import RLock
from typing import TypeVar

K = TypeVar("K", bound=type)
V = TypeVar("V")


class ByMatter(MutableMapping[K, V]):
    """
    The rows of all matters on one floor; to walk them loads them all.

    Parameters
    ----------
    floor : str
        The package that holds a module for each matter.
    rows : str
        What the dictionary of rows is called in each.
    matters
        The modules' names, in the order in which the rows are walked.
    """

    def __init__(self, floor: str, rows: str, matters: Sequence[str]) -> None:
        self._floor, self._name = floor, rows
        self._to_load = list(matters)
        self._rows: dict[K, V] = {}
        self._lock = RLock()  # recognisers look in threads of their own

    def __getitem__(self, kind: K) -> V:
        if kind not in self._rows:
            self._load(kind.__module__.rpartition(".")[2])
        if kind not in self._rows:
            self._load_all()  # a row may stand with another matter than its command
        return self._rows[kind]

    def __setitem__(self, kind: K, row: V) -> None:
        self._load_all()
        self._rows[kind] = row

    def __delitem__(self, kind: K) -> None:
        self._load_all()
        del self._rows[kind]

    def __iter__(self) -> Iterator[K]:
        self._load_all()
        return iter(self._rows)

    def __len__(self) -> int:
        self._load_all()
        return len(self._rows)

    def _load_all(self) -> None:
        for matter in list(self._to_load):
            self._load(matter)

    def _load(self, matter: str) -> None:
        with self._lock:
            if matter in self._to_load:
                module = import_module(f"{self._floor}.{matter}")
                self._rows |= vars(module)[self._name]
                self._to_load.remove(matter)
