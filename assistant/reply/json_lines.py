"""A turn as one JSON object on one line, for programs."""

from __future__ import annotations

import json
import math
from decimal import Decimal
from fractions import Fraction
from typing import Any

from assistant.reply.replies import LimitWarning, Turn

DECIMALS = 6
"""Places kept: a micrometre in metres. Fewer would show in a volume, more is float noise."""


def json_line(line: int, turn: Turn) -> str:
    """One object, no line end. Only ASCII is used, so any terminal's encoding takes it."""
    return json.dumps(as_object(line, turn), allow_nan=False)


def as_object(line: int, turn: Turn) -> dict[str, Any]:
    """The keys in the order they are printed."""
    return {
        "line": line,
        "text": turn.text,
        "ok": turn.ok,
        "command": turn.command,
        "canonical": turn.canonical,
        "taken_as": turn.taken_as,
        "recorded": list(turn.recorded),
        "ask": turn.reply.ask,
        "lapsed": turn.lapsed,
        "say": turn.reply.say,
        "warnings": [_warning(warning) for warning in turn.reply.warnings],
        "cautions": [
            {"id": caution.id, "text": caution.message, "source": caution.source}
            for caution in turn.reply.cautions
        ]
        + [
            {"id": caution.id, "text": caution.reminder, "source": caution.source}
            for caution in turn.reply.reminders
        ],
        "data": json_value(turn.reply.data),
    }


def _warning(warning: LimitWarning) -> dict[str, Any]:
    return {
        "id": warning.id,
        "severity": warning.severity,
        "message": warning.message,
        "value": json_value(warning.value),
        "limit": json_value(warning.limit),
        "source": warning.source,
    }


def json_value(value: Any) -> Any:
    """The same with JSON's own types; a number that is not finite becomes null."""
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, float | Decimal | Fraction):
        return _number(float(value))
    if isinstance(value, dict):
        return {str(key): json_value(item) for key, item in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [json_value(item) for item in value]
    if hasattr(value, "tolist"):  # an array, or a number out of one
        return json_value(value.tolist())
    return str(value)


def _number(value: float) -> float | None:
    # + 0.0 turns minus zero, which a reader might take for "just below", into zero.
    return round(value, DECIMALS) + 0.0 if math.isfinite(value) else None
