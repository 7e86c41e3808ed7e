"""What the rows of ``grammar/phrases/zones.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "zones": ("zone show/list",),
}
