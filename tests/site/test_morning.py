"""The mornings of these tests leave nothing behind them."""

from __future__ import annotations

import gc
import sys
import threading

import pytest

from tests.site.conftest import Morning


def test_one_may_be_collected_in_any_thread(
    morning: type[Morning], monkeypatch: pytest.MonkeyPatch
) -> None:
    faults: list[object] = []
    monkeypatch.setattr(sys, "unraisablehook", faults.append)
    # It and its clock hold each other; a recogniser's thread may be the one that frees them.
    morning("room 8 by 6 metres")
    collecting = threading.Thread(target=gc.collect)
    collecting.start()
    collecting.join()
    assert faults == []
