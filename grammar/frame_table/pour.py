"""What the rows of ``grammar/phrases/pour.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "where do bags go": (
        "where bag staging",
        "where staging bag/pallet",
        "pallet where",
    ),
    "plan": (
        "planned pour ~floor ~show",
        "order pour ~what_order",
        "strips show/list",
    ),
    "how goes pour": ("goingon pour",),
    "short": (
        "runout ~bag ~may",
        "bag runout",
    ),
}
