"""A product card as a file: its text, and writing it whole or not at all."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from assistant.errors import CardError

__all__ = ["card_text", "file_for", "write_card"]


def card_text(values: Mapping[str, Any], printed: Mapping[str, str]) -> str:
    """
    The card as TOML, each number beside what the bag prints.

    >>> print(card_text({"name": "harbour fine", "bag_kg": 22.6796}, {"bag_kg": "50 lb"}), end="")
    name = "harbour fine"
    bag_kg = 22.6796                    # 50 lb
    """
    lines = []
    for key, value in values.items():
        line = f"{key} = {_toml(value)}"
        told = printed.get(key)
        lines.append(f"{line:<35} # {told}" if told else line)
    return "\n".join(lines) + "\n"


def _toml(value: Any) -> str:
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)  # TOML's basic strings are JSON's
    if isinstance(value, list | tuple):
        return f"[{', '.join(_toml(each) for each in value)}]"
    return f"{value:.10g}"


def file_for(folder: Path, name: str) -> Path:
    """The file of a card of that name."""
    return folder / f"{'_'.join(name.casefold().split())}.toml"


def write_card(path: Path, text: str) -> None:
    """
    Write a new card: all of it or nothing, and never over another file.

    Raises :class:`CardError` where there is a file already, or it cannot be written.
    """
    draft = path.with_name(f".{path.name}.{os.getpid()}.draft")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with draft.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        _put_in_place(draft, path)
    except FileExistsError:
        raise CardError(f"{path}: there is a file of that name; it is left as it is.") from None
    except OSError as fault:
        raise CardError(f"{path}: cannot be written ({fault.strerror or fault}).") from fault
    finally:
        with suppress(OSError):
            draft.unlink()


def _put_in_place(draft: Path, path: Path) -> None:
    """Give the whole file its name, unless that is taken; both in one step."""
    try:
        os.link(draft, path)
    except FileExistsError:
        raise
    except OSError:
        # A file system without links, as on a memory stick.
        if path.exists():
            raise FileExistsError(path) from None
        draft.rename(path)
