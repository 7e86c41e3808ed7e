"""numpy, loaded when it is first used: a room, a reading or a tally of no readings does without.

The numeric core (``levels/``) has it from the start, and is imported where a floor is worked out.
"""

from __future__ import annotations

from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING, Any

__all__ = ["np"]

if TYPE_CHECKING:
    import numpy as np
else:

    class _Late(ModuleType):
        """Stands for a module, and loads it as soon as something of it is asked for."""

        def __getattr__(self, name: str) -> Any:
            found = getattr(import_module(self.__name__), name)
            setattr(self, name, found)  # asked for once
            return found

    np = _Late("numpy")
