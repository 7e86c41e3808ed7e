"""The object that programs get for every line."""

from __future__ import annotations

import json
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from assistant.reply.json_lines import json_line, json_value
from assistant.reply.replies import Caution, LimitWarning, Reply, Turn

KEYS = [
    "line", "text", "ok", "command", "canonical", "taken_as", "recorded", "ask", "lapsed",
    "say", "warnings", "cautions", "data",
]  # fmt: skip


def test_the_keys_and_their_order() -> None:
    warning = LimitWarning("weight", "caution", "Ask an engineer.", 90.0, 25.5, "kg/m2", "a code")
    reply = Reply("18 mm", "one eight millimetres", warnings=(warning,), data={"depth_mm": 18.0})
    turn = Turn("how deep at B3", True, "AskDepthAtPoint", "how deep at B3", (), reply)
    shown = json.loads(json_line(7, turn))
    assert list(shown) == KEYS
    assert shown["line"] == 7
    assert shown["say"] == "One eight millimetres."
    assert shown["ask"] is None
    assert shown["data"] == {"depth_mm": 18.0}
    assert shown["warnings"] == [
        {
            "id": "weight",
            "severity": "caution",
            "message": "Ask an engineer.",
            "value": 90.0,
            "limit": 25.5,
            "source": "a code",
        }
    ]


def test_cautions_are_told_with_their_source() -> None:
    reply = Reply("Mix.", cautions=(Caution("wet-cement", ("Wear gloves.",), "a letter"),))
    shown = json.loads(json_line(1, Turn("mix", True, None, None, (), reply)))
    assert shown["cautions"] == [{"id": "wet-cement", "text": "Wear gloves.", "source": "a letter"}]


def test_one_line_of_ascii_whatever_was_typed() -> None:
    turn = Turn("½\n\x00\ud83d\u2028", False, None, None, (), Reply("“½”"))
    line = json_line(1, turn)
    assert line.isascii()
    assert "\n" not in line
    assert json.loads(line)["say"] == "“½”."


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (float("nan"), None),
        (float("inf"), None),
        (-0.0, 0.0),
        (0.1 + 0.2, 0.3),
        (1.2345678, 1.234568),
        (42, 42),
        (True, True),
        (Decimal("17.5"), 17.5),
        (Fraction(35, 2), 17.5),
        (np.float64(1.5), 1.5),
        (np.int64(3), 3),
        (np.array([1.0, float("nan")]), [1.0, None]),
        ({"a": (1, {"b": None})}, {"a": [1, {"b": None}]}),
    ],
)
def test_numbers_are_json_s_own(value: Any, shown: Any) -> None:
    assert json_value(value) == shown
    assert json.loads(json.dumps(json_value(value), allow_nan=False)) == shown
    assert str(json_value(value)) == str(shown)
