"""Words of one's own, kept as they are said: a remark, one that begins with its point, a title."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from grammar.errors import Impossible, LikeTalk
from grammar.numbers import DIGITS, TEENS
from grammar.slots.point import ALPHABET, LETTERS, named_point
from grammar.slots.slot import Slot, TypedOnly, ValueKind

if TYPE_CHECKING:
    from random import Random

_PARTED_BY = " \t\r\n,;:"
"""What may part a remark from the word that opens it, and from its point."""
_LINE_ENDS = re.compile(r"\s*[\r\n\v\f\x1c-\x1e\x85\u2028\u2029]+\s*")
_SPOKEN_LETTER = "|".join(sorted(LETTERS.keys() - set("abcdefghijklmnopqrstuvwxyz"), key=len)[::-1])
_SPOKEN_NUMBER = "|".join(sorted({**DIGITS, **TEENS}, key=len)[::-1])
_AT_A_POINT = re.compile(
    rf"""(?: at | on | for | near | by ) \s+ (?: the\s+ )? (?: point\s+ )?
    (?: (?P<label> [a-z]{{1,2}} \s? [1-9][0-9]? )
      | (?P<letter> {_SPOKEN_LETTER} ) \s+ (?P<row> [1-9][0-9]? | {_SPOKEN_NUMBER} ) )
    (?! [\w.°%"'/] | \s* (?: mm | cm | m | in | ft | degrees? | percent | by | x | am | pm ) \b )
    (?P<rest> .* )""",
    re.VERBOSE | re.IGNORECASE | re.DOTALL,
)
"""A remark that begins with its point: "at B2 crack"; not with a time or a length."""

_EMPTY = "a note says something: note at B2 crack along the wall"


def _as_said(said: tuple[str, ...]) -> str:
    # On one line, as everything is that was said.
    return _LINE_ENDS.sub(" ", "".join(said)).lstrip(_PARTED_BY).rstrip()


def _remark(*said: str) -> str:
    words = _as_said(said)
    if not words or _AT_A_POINT.fullmatch(words):
        raise Impossible(_EMPTY)
    return words


def _remark_at(*said: str) -> tuple[str, str]:
    found = _AT_A_POINT.fullmatch(_as_said(said))
    words = found["rest"].lstrip(_PARTED_BY) if found else ""
    if found is None or not words:
        raise Impossible(_EMPTY)
    return _point_of(found), words


def _point_of(found: re.Match[str]) -> str:
    if found["label"]:
        return named_point("".join(found["label"].split()))
    row = found["row"].lower()
    letter = LETTERS[found["letter"].lower()]
    return named_point(f"{letter}{DIGITS.get(row) or TEENS.get(row) or row}")


def _short_at(value: tuple[str, str]) -> str:
    point, words = value
    return f"at {point} {words}"


_TALK = frozenset(
    """
    is are was were wants wanted want says said say comes came come will would can could should has
    had have asks asked calls called phones phoned likes knows thinks needs who what when where why
    how and or if not no about for with at to by from in on the a an this that these those it him
    her them he she they we you i me my our his their all any some just
    """.split()
)
"""Words with which talk goes on after "client" or "address", and no title begins."""
_STATES = frozenset(
    """
    here there in out on at away back off coming going leaving gone late early due ready waiting
    happy unhappy pleased delighted angry cross mad sure right wrong asking calling ringing paying
    watching looking not fine ok okay alright sick busy outside inside upstairs around still
    always never very so too
    """.split()
)
"""Words with which "client is" tells of somebody; a name of them is taken with "=" before it."""
_IN_A_TITLE = frozenset("and or the a an at by on in to from for with no all".split())
"""Those of them that may stand inside a title: "Hall and Sons", "The Mill at the Weir"."""
_NO_TITLE = (
    "after “client” stands a name, after “address” a place; any other words with “=” before "
    "them, and what is said about them is a note"
)


def _title(*said: str) -> str:
    words = _as_said(said)
    after = re.fullmatch(r"(?P<by>is|=)\s+(?P<rest>.+)", words, re.IGNORECASE | re.DOTALL)
    if after is not None and (after["by"] == "=" or not _is_a_state(after["rest"])):
        return after["rest"]
    if after is not None or not words or _is_like_talk(words):
        raise LikeTalk(_NO_TITLE)
    return words


def _is_like_talk(words: str) -> bool:
    """
    Whether it is said about a client, rather than a client's name.

    >>> [_is_like_talk(words) for words in ("wants oak", "laughing her head off", "Hall and Sons")]
    [True, True, False]
    """
    first, *rest = (word.casefold().strip(".,;:!?") for word in words.split())
    later = _TALK - _IN_A_TITLE
    return first in _TALK or words.startswith("=") or any(word in later for word in rest)


def _is_a_state(words: str) -> bool:
    """Whether "client is" goes on with how or where somebody is: "here", "not happy"."""
    return words.split()[0].casefold().strip(".,;:!?") in _STATES


def _short_title(words: str) -> str:
    if _is_a_state(words):
        return f"= {words}"
    return f"is {words}" if _is_like_talk(words) else words


_SAMPLES = (
    "crack along the wall", "B3 minus 18 is wrong, so read again", "what is it?", "OK the Client",
    "3/8 in more here!", "undo",
)  # fmt: skip


def _sample(random: Random) -> tuple[str, str]:
    words = random.choice(_SAMPLES)
    return words, words


def _sample_title(random: Random) -> tuple[str, str]:
    words = random.choice(("Smith", "Jo & Sons, Builders", "12 Mill Lane, flat B3", "Old Mill"))
    return random.choice((f"is {words}", words)), words


def _sample_at(random: Random) -> tuple[str, tuple[str, str]]:
    letter, row = random.choice(ALPHABET), random.randrange(1, 20)
    point = f"{letter[0].upper()}{row}"
    words = random.choice(_SAMPLES)
    said = random.choice((point, point.lower(), f"{letter} {row}", f"point {point}"))
    return f"at {said} {words}", (point, words)


def _slot(
    name: str,
    build: Callable[..., Any],
    short: Callable[[Any], str],
    sample: Callable[[Random], tuple[str, Any]],
) -> Slot:
    return Slot(
        name=name,
        rule="_remark_words",
        build=build,
        short=short,
        sample=sample,
        aloud=TypedOnly(why="a recogniser held to the language hears no other words"),
        any_words=True,
    )


KIND = ValueKind(
    slots=(
        _slot("remark", _remark, str, _sample),
        _slot("remark_at", _remark_at, _short_at, _sample_at),
        _slot("title", _title, _short_title, _sample_title),
    ),
    rules="_remark_words: ANY | _remark_words ANY",
    expected={"title": "a name", **dict.fromkeys(("remark", "remark_at"), "words of your own")},
)
