"""The job that shows the program: typed lines and product cards, shipped with it."""

from __future__ import annotations

from pathlib import Path

from assistant.errors import LeadsmanError


def demo_folder() -> Path:
    """Beside the package, in a checkout as well as where it is installed."""
    return Path(__file__).resolve().parents[2] / "demo"


def demo_lines() -> Path:
    """The typed lines."""
    path = demo_folder() / "boat_shed.txt"
    if not path.is_file():
        raise LeadsmanError(f"The demo job is missing: there is no {path}.")
    return path


def demo_cards() -> Path:
    """The folder of its product cards."""
    return demo_folder() / "cards"
