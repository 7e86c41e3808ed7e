"""Whoever calls the grammar can catch all that may be wrong with words by one name."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import pytest

import grammar
from grammar import Misunderstood, understand
from grammar.errors import GrammarError

FOLDER = Path(grammar.__file__).parent


def _exceptions() -> set[type[BaseException]]:
    """Every exception class of the package, wherever in it."""
    names = [path.relative_to(FOLDER.parent).with_suffix("") for path in FOLDER.rglob("*.py")]
    modules = [import_module(".".join(name.parts).removesuffix(".__init__")) for name in names]
    return {
        kind
        for module in modules
        for kind in vars(module).values()
        if isinstance(kind, type)
        and issubclass(kind, BaseException)
        and kind.__module__.split(".")[0] == "grammar"
    }


def test_every_exception_of_the_grammar_has_one_base() -> None:
    assert {kind.__name__ for kind in _exceptions() if not issubclass(kind, GrammarError)} == set()
    assert {"NoParse", "Impossible", "Unsayable", "Misunderstood"} <= {
        kind.__name__ for kind in _exceptions()
    }


@pytest.mark.parametrize("line", ["B3 minus", "zzz", "B3 1 3/7 in", "strike 100"])
def test_a_line_that_is_refused_is_caught_by_it(line: str) -> None:
    with pytest.raises(GrammarError) as caught:
        understand(line)
    assert isinstance(caught.value, Misunderstood)
    assert caught.value.explain()
