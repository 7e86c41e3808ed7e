"""
The pieces of a line that says more than one thing: "take A1 out, somebody kicked the staff".

A line is parted at its stops, and where somebody begins to say why or what else is the case.
"""

from __future__ import annotations

import re

_PARTS = re.compile(
    r"\s*[;!?]+\s*|,\s+|\.(?:\s+|$)|\s+[-–—]+\s+(?=[a-z])"
    r"|\s+(?=(?:there's|there is|theres|there are|i've|we've|i'm|somebody|someone|they've|he's"
    r"|cos|coz|since|as there|my)\b)"
    r"|\s+(?:so|but)\s+(?=(?:i|we|you|can|take|put|strike|skip|go|what|how)\b)"
    r"|\s+and\s+(?=(?:go|skip|strike|then|what|how)\b)",
    re.IGNORECASE,
)
_MOST = 4
"""Pieces of a line; more of them are talk."""
_ADDRESSED = re.compile(
    r"\b(?:he|she|his|her|lads?|sparks|plumber|tilers?|kettle|lunch|dinner|van|phone|merchant"
    r"|yesterday|tomorrow)\b",
    re.IGNORECASE,
)
"""Words of talk with others; of a piece beside them nothing is offered."""


def clauses(text: str) -> list[str]:
    """
    The pieces of a line, in order; empty where it is one, or talk.

    >>> clauses("take A1 out, somebody kicked the staff")
    ['take A1 out', 'somebody kicked the staff']
    >>> clauses("how many bags"), clauses("C2 minus 9.5")
    ([], [])
    """
    pieces = [piece for part in _PARTS.split(text) if (piece := part.strip(" ,.;!?"))]
    if not 1 < len(pieces) <= _MOST or _ADDRESSED.search(text):
        return []
    return pieces
