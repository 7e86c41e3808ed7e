"""Words in, commands out.

The front door of the language: :func:`understand` turns a line into every
command it can mean, :func:`short_form` turns a command back into a line,
:func:`suggestions` says what can come next. The language itself is one table,
``grammar.phrases.PHRASES``.

What needs the parser is loaded when it is first used, so that a start which
only prints its version stays quick.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from grammar.errors import GrammarError
    from grammar.language import short_form
    from grammar.misses import Misunderstood
    from grammar.phrase import Phrase
    from grammar.phrases import PHRASES
    from grammar.slots.measure import spoken_measure
    from grammar.slots.point import spoken_point
    from grammar.slots.reading import spoken_reading
    from grammar.suggest import Suggestion, hint, suggestions
    from grammar.understanding import understand

_WHERE = {
    "understand": "grammar.understanding",
    "GrammarError": "grammar.errors",
    "Misunderstood": "grammar.misses",
    "short_form": "grammar.language",
    "suggestions": "grammar.suggest",
    "hint": "grammar.suggest",
    "Suggestion": "grammar.suggest",
    "PHRASES": "grammar.phrases",
    "Phrase": "grammar.phrase",
    "spoken_point": "grammar.slots.point",
    "spoken_measure": "grammar.slots.measure",
    "spoken_reading": "grammar.slots.reading",
}
__all__ = [
    "PHRASES",
    "GrammarError",
    "Misunderstood",
    "Phrase",
    "Suggestion",
    "hint",
    "short_form",
    "spoken_measure",
    "spoken_point",
    "spoken_reading",
    "suggestions",
    "understand",
]


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module 'grammar' has no attribute '{name}'")
    from importlib import import_module

    return getattr(import_module(_WHERE[name]), name)
