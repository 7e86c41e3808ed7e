"""Lines from files and pipes, whatever wrote them."""

from __future__ import annotations

import io

import pytest

from assistant.command_line.playing import play
from assistant.conversation.lines import lines_of, utterance_in
from assistant.reply.replies import Reply, Turn


@pytest.mark.parametrize(
    ("line", "utterance"),
    [
        ("B3 -18", "B3 -18"),
        ("  B3 -18 \t", "B3 -18"),
        ("# the back wall", ""),
        ("   # indented", ""),
        ("B3 -18 # at the post", "B3 -18"),
        ("B3 -18\t#at the post", "B3 -18"),
        ("B3#4 -18", "B3#4 -18"),
        ("", ""),
        ("\r", ""),
    ],
)
def test_comments(line: str, utterance: str) -> None:
    assert utterance_in(line) == utterance


@pytest.mark.parametrize(
    ("written", "lines"),
    [
        (b"B3 -18\nC3 -4\n", ["B3 -18", "C3 -4"]),
        (b"B3 -18\r\nC3 -4", ["B3 -18", "C3 -4"]),
        (b"B3 -18\rC3 -4\r", ["B3 -18", "C3 -4"]),
        (b"\xef\xbb\xbfB3 -18\n", ["B3 -18"]),
        (b"B3 \xff18\n", ["B3 \ufffd18"]),
        (b"B3\x00-18\n", ["B3\x00-18"]),
        (b"\n\n", ["", ""]),
        (b"", []),
        ("bravo three \u2212 18\u2028B3\n".encode(), ["bravo three \u2212 18\u2028B3"]),
    ],
)
def test_any_editor_s_lines(written: bytes, lines: list[str]) -> None:
    assert list(lines_of(io.BytesIO(written))) == lines


class Echo:
    """Takes everything but "no"."""

    def hear(self, text: str) -> Turn:
        return Turn(text, text != "no", None, None, (), Reply(text))


def test_every_line_is_played_and_the_numbers_are_the_file_s() -> None:
    shown: list[tuple[int, str]] = []
    lines = ["# a job", "yes", "", "no", "yes # again"]
    assert not play(lines, Echo(), lambda line, turn: shown.append((line, turn.text)))
    assert shown == [(2, "yes"), (4, "no"), (5, "yes")]


def test_all_taken() -> None:
    assert play(["yes"], Echo(), lambda *_: None)
    assert play([], Echo(), lambda *_: None)
