"""
A line that nobody understood, written another way: what dictation and quick talk make of words.

Spoken stops, doubled figures, a tag at the end, what somebody will not do: each of these says
nothing that could be a value, and so nothing is lost by writing it as it was meant.
"""

from __future__ import annotations

import re

_STOPS = (
    (r" ?\b(?:full stop|period|exclamation mark|stop)$", "."),
    (r" ?\b(?:full stop|new line|next line|new paragraph|semicolon)\b", "."),
    (r" ?\bquestion mark\b", "?"),
    (r"(?<=[a-z\d]) ?\bcomma\b", ","),
)
"""What people say to a phone for a stop -> the stop."""
_DOUBLED = re.compile(
    r"\b(double|triple) (nought|zero|one|two|three|four|five|six|seven|eight|nine|\d)\b"
)
_HALF = re.compile(r"\bhalf (?:a |of a )(metre|meter|m)s?\b")
_TAG = re.compile(
    r"[, ]+(?:is|are|was|do|does|did|ca|could|wo|would|should|have|has)n'?t "
    r"(?:it|we|they|you|i|he|she|there|that)\??$"
    r"|[, ]+(?:right|yeah|yes|no|is that right|am i right|correct)\?$"
)
_RATHER = re.compile(r" (?:rather than|as opposed to) .*$")
_SPELLED = {
    "ye": "you", "yer": "your", "yous": "you", "wi": "with", "naw": "no", "nae": "not",
    "whatd": "what would", "whatll": "what will", "howd": "how would", "wot": "what",
    "meen": "mean", "dunno": "", "er": "", "youse": "you", "tae": "to", "wee": "",
    "longs": "long is", "bigs": "big is", "muchs": "much is", "fars": "far is",
}  # fmt: skip
"""Words as people write them who write as they talk."""
_HAVE = re.compile(r"\b(should|could|would|must|might) of\b")
_BIG_IS = re.compile(r"\b(big|long|much|far|deep|thick|high|wide|flat)'s\b")
_IS = re.compile(r"\b((?:[a-z]{1,2})?\d{1,2})'s\b")
_SIDE_FOR = re.compile(
    r"\b(under|below|down|low|over|above|up|proud|high) (?:for|by|of|about) "
    r"(?=\d|half|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen)"
    r"(\S+)"
)
_ONE_OF = re.compile(r"\ban? (mil|mm|millimetre|millimeter|centimetre|centimeter|cm)\b")
_PRESENT = re.compile(
    r",? (?:if|once|when) we (?:finish|stop|start|pour|are done|get done)(?: it| pouring)?"
    r"(?: at| by| around)? (?:[a-z]+ ?o'?clock|\d{1,2}(?::\d\d)?(?: ?[ap]m)?|noon|dinner|lunch)$"
)
_BATCH = re.compile(
    r"^(?:that is |that's |thats |there's |here's )?(?:(?:batch|mix|load|barrel|bucket) "
    r"(?:number )?(?:two|three|four|five|six|seven|eight|nine|ten|\d+)"
    r"|(?:second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|next) "
    r"(?:batch|mix|load|barrel|bucket)) (?:is |'s |has )?(?:down|done|gone|poured|out)$"
)
_MEANING = re.compile(
    r"^(?:and |so |sorry )?(?:what (?:does|do|is|are)|what's|whats) (?:a |an |the |that |mean )*"
    r"(?P<about>[a-z][a-z ]{2,25}?) (?:mean(?:ing)?|for|all about|about|to do|good for)"
    r"(?: like| then| exactly)?$"
    r"|^(?:what is|what's|whats) mean(?:ing of|t by| by)? (?:a |the )?(?P<meant>[a-z][a-z ]{2,25})$"
    r"|^(?:how (?:do|can|should|would) (?:i|we|you)|how to) (?:tell|give|enter|type|say|put in|"
    r"record|log|key in|write)(?: you| it| in)? (?:a |an |the |my )?(?P<told>[a-z]{4,15})$"
)
_ASKS_ABOUT = re.compile(r"\b(?:it|this|that|he|she|we|you|i|they|of|in|at|is|are)\b")


def otherwise(text: str) -> str | None:
    """
    The line as it was likely meant to be written; None where that is as it stands.

    >>> otherwise("a five minus seven full stop a six minus eight full stop")
    'a five minus seven. a six minus eight.'
    >>> otherwise("scrub C1 should of been minus double one")
    'scrub c1 should have been minus one one'
    >>> otherwise("what are pins for like"), otherwise("tally")
    ('help pins', None)
    """
    before = " ".join(text.casefold().replace("’", "'").split())
    line = before
    for spoken, stop in _STOPS:
        line = re.sub(spoken, stop, line)
    line = " ".join(_SPELLED.get(word, word) for word in line.split())
    line = " ".join(line.split())
    line = _HAVE.sub(r"\1 have", line)
    line = _BIG_IS.sub(r"\1 is", line)
    line = _IS.sub(r"\1 is", line)
    line = _SIDE_FOR.sub(r"\1 \2", line)
    line = _ONE_OF.sub(r"1 \1", line)
    line = _DOUBLED.sub(_repeated, line)
    line = _HALF.sub(r"0.5 \1", line)
    line = _PRESENT.sub("", line)
    line = _TAG.sub("?", line)
    line = _RATHER.sub("", line)
    line = _BATCH.sub("batch", line)
    if (about := _explained(line)) is not None:
        line = f"help {about}"
    return line if line != before and line.strip(" .,?") else None


def _repeated(found: re.Match[str]) -> str:
    times = 2 if found.group(1) == "double" else 3
    return " ".join([found.group(2)] * times)


def _explained(line: str) -> str | None:
    """What a line asks the meaning of; None where it asks nothing of the kind."""
    found = _MEANING.search(line.strip(" .?!"))
    if found is None:
        return None
    about = next(group for group in found.groups() if group)
    about = re.sub(r" please$", "", about)
    return None if _ASKS_ABOUT.search(about) or len(about.split()) > 2 else about
