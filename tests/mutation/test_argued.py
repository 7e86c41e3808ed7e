"""What is argued to make no difference still stands where it is said to."""

from __future__ import annotations

from tests.mutation.argued import key, read_argued
from tests.mutation.passing import ROOT
from tests.mutation.places import places_in


def test_every_change_argued_can_still_be_made() -> None:
    argued = read_argued()
    paths = {path for path, *_ in argued.reasons}
    found = {
        key(place)
        for path in paths
        for place in places_in(path, (ROOT / path).read_text(encoding="utf-8"))
    }
    assert set(argued.reasons) <= found
    assert all(argued.reasons.values())


def test_a_bound_a_sign_and_a_number_are_broken() -> None:
    source = "def low(x, y):\n    return x < 3 and not (\n        y + 1\n    )\n"
    assert [place.broken(source).split("return ")[1] for place in places_in("low.py", source)] == [
        "(x < 3 or not y + 1)\n",
        "(x <= 3) and not (\n        y + 1\n    )\n",
        "x < 3 and (y + 1)\n",
        "x < (4) and not (\n        y + 1\n    )\n",
        "x < 3 and not (\n        (y - 1)\n    )\n",
        "x < 3 and not (\n        y + (2)\n    )\n",
    ]
