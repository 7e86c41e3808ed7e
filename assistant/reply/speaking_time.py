"""How long something takes to say, and the longest way to say it that is short enough."""

from __future__ import annotations

from collections.abc import Iterable

WORDS_A_MINUTE = 170
"""A plain pace of speech, by which lengths are held; what is read back is said faster still.
Common practice, no source."""
QUESTION_S = 5.0
"""A question's; whoever hears it stands over the point that it is about."""
REFUSAL_S = 4.0
PIECE_S = 15.0
"""The length of one piece of a long answer; "more" asks for the next one."""


def speaking_seconds(text: str) -> float:
    """
    How long it takes to say.

    >>> speaking_seconds("Bravo three, one eight millimetres below.").__round__(1)
    2.1
    """
    return len(text.split()) * 60 / WORDS_A_MINUTE


def first_that_fits(longest_s: float, *ways: str) -> str:
    """
    The first way to say something that is no longer than `longest_s`; else the last.

    >>> first_that_fits(1.5, "Confirm, or read it again.", "Confirm?")
    'Confirm?'
    """
    return next((way for way in ways if speaking_seconds(way) <= longest_s), ways[-1])


MORE = "Say more for the rest."


def in_pieces(sentences: Iterable[str], longest_s: float = PIECE_S) -> tuple[tuple[str, ...], ...]:
    """
    Sentences in pieces that are short enough, each but the last with how to hear the next.

    >>> in_pieces(["One two three four.", "Five six."], 3.2)
    (('One two three four.', 'Say more for the rest.'), ('Five six.',))
    """
    room_s = longest_s - speaking_seconds(MORE)
    pieces: list[list[str]] = []
    for sentence in sentences:
        if pieces and speaking_seconds(" ".join([*pieces[-1], sentence])) <= room_s:
            pieces[-1].append(sentence)
        else:
            pieces.append([sentence])
    return (*((*piece, MORE) for piece in pieces[:-1]), *(tuple(piece) for piece in pieces[-1:]))
