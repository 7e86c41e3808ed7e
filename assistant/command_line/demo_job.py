"""The job that shows the program: typed lines and product cards, shipped with it."""

from __future__ import annotations

from pathlib import Path

from assistant.errors import LeadsmanError


def demo_folder() -> Path:
    """The demo's folder: within the installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "demo"
    return installed if installed.is_dir() else package.parent / "demo"


def demo_lines() -> Path:
    """The typed lines."""
    path = demo_folder() / "boat_shed.txt"
    if not path.is_file():
        raise LeadsmanError(f"The demo job is missing: there is no {path}.")
    return path


def demo_cards() -> Path:
    """The folder of its product cards."""
    return demo_folder() / "cards"
