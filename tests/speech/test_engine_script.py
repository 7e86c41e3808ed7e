"""An engine that hears what a script says."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.ears.hearing import Alternative, Engine, Heard, expect
from assistant.ears.script import ScriptEngine, heard_text
from grammar import understand


def hear(engine: Engine, seconds: float = 0.5) -> Heard:
    engine.start()
    engine.feed(np.zeros(int(16_000 * seconds), np.float32))
    engine.maybe_end()
    return engine.finish()


def test_one_line_an_utterance_then_silence() -> None:
    engine = ScriptEngine(["bravo three minus eighteen millimetres", "", "tally"])
    first, second, third, fourth = (hear(engine) for _ in range(4))
    assert (first.tier, first.canonical, first.speech_s) == ("sure", "B3 -18 mm", 0.5)
    assert second.tier == "none"
    assert third.canonical == "tally"
    assert fourth.tier == "none"


def test_talk_is_to_be_said_again() -> None:
    heard = heard_text("mind the door on the left")
    assert (heard.tier, heard.command, heard.canonical) == ("again", None, None)
    assert heard.text == "mind the door on the left"


def test_a_heard_is_passed_on_as_it_is() -> None:
    asked = Heard("minus fifteen millimetres", (Alternative("x", None, None, 0.6, 0.0),), "ask")
    assert hear(ScriptEngine([asked])) is asked


def test_all_meanings_are_alternatives() -> None:
    heard = heard_text("twenty five eighths inches below")
    assert len(heard.alternatives) == len({a.canonical for a in heard.alternatives})
    assert heard.confidence == 1.0


def test_silence_has_no_command() -> None:
    heard = heard_text("   ")
    assert (heard.tier, heard.confidence, heard.canonical) == ("none", 0.0, None)


def test_what_answers_a_question_is_heard_while_it_waits() -> None:
    bravo, delta = (understand(line)[0] for line in ("B3 -18", "D3 -18"))
    engine = ScriptEngine(["delta", "Bravo.", "minus eighteen millimetres", "delta"])
    expect(engine, {"bravo": bravo, "delta": delta})
    first, second, third = (hear(engine) for _ in range(3))
    assert (first.tier, first.command) == ("sure", delta)
    assert (second.tier, second.command) == ("sure", bravo)
    assert third.canonical == "-18 mm"
    expect(engine, {})
    assert hear(engine).tier == "again"


@pytest.mark.parametrize("name", ["name", "start", "feed", "maybe_end", "finish", "info"])
def test_it_is_a_whole_engine(name: str) -> None:
    assert hasattr(ScriptEngine([]), name)
