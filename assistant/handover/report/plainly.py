"""Answers of the chat, in words for somebody who has no chat: what could be typed is left out."""

from __future__ import annotations

import re

_SENTENCES = re.compile(
    r"(?:^|(?<=[.?!)] ))(?:To clear it|Say|One is begun so|They are told so|Flat and level are two "
    r"promises|In the chat)\b.*?\.(?= |$) ?"
)
"""Sentences that say what to type next."""
_TAILS = (
    (", readings of the slab.", "."),
    (": promised flat, or promised level.", "."),
    (", so no bags: product NAME.", ", so no bags."),
    (": room 12 by 8 metres.", "."),
    (": check zero level.", "."),
    (": specs lists what there is, spec NAME chooses.", "."),
    (" (punch over sets it).", "."),
    (" (defects).", "."),
    ("how fast you place it is not said.", "how fast it is placed was not told."),
)
_PLANS = re.compile(r"; (?:pump|minutes per batch) [^.;]*? plans with it\.")
NOTHING_YET = {
    "tally": "There are no readings yet, so nothing could be worked out.",
    "survey": "There are no readings yet that could be checked.",
    "pins": "There are no depths yet to cut pins to.",
    "order": "What to order could not be worked out: it takes the room, the product and readings.",
    "strips": "No strips were planned: how fast it is mixed and placed was not told.",
    "laid": "What was really laid could not be worked out.",
    "lines": "No line was measured on it.",
    "held-to": "No limit was chosen that the floor is held to.",
    "punch": "Its points were not read again, so nothing can be listed.",
    "promise": "Nobody has said what was promised.",
}
"""What a section says where the chat would say what it wants first."""


def plain_wording(text: str) -> str:
    """
    An answer's words without what could be typed next.

    >>> plain_wording("The pH is not tested. To clear it: pH 9 at B3. (ASTM F710)")
    'The pH is not tested. (ASTM F710)'
    >>> plain_wording("Before the pour: 12 readings, readings of the slab.")
    'Before the pour: 12 readings.'
    >>> plain_wording("So far: 64 bags an hour; pump 64 bags per hour plans with it.")
    'So far: 64 bags an hour.'
    """
    for tail, end in _TAILS:
        text = text.replace(tail, end)
    return _SENTENCES.sub("", _PLANS.sub(".", text)).strip()
