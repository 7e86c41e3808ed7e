"""
What a change would come to, asked without "what if": "how many bags at ten percent waste".

Such a line is an amount that is asked for, and a change that is only supposed; the change alone is
given back, as it would be said after "what if".
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_BAGS = r"(?:bags?|sacks?|powder|stuff|material|leveller|litres|it)"
_AMOUNT = rf"""(?:
    (?: and | so )? \s? how\ (?:many|much|thick|deep) (?:\ (?:more|less|fewer|extra))? (?:\ of)?
      (?:\ {_BAGS})? (?:\ (?:do|would|will|does|did)\ (?:i|we|it|that|you)
      \ (?:need|take|use|want|save|be|cost|get\ through|come\ to|have))? (?:\ (?:are|is|would\ be)
      (?:\ (?:needed|it|that))?)? (?:\ (?:then|in\ total|in\ all|altogether))?
  | (?:number|amount|quantity)\ of\ {_BAGS} | {_BAGS}(?:\ (?:needed|required|total|count))?
    | bag\ count
  | what\ (?:is|are|would\ be)\ (?:damage|cost|price|total|bill|tally|mean\ depth|average\ depth
      |bag\ count|weight|volume)
  | what\ (?:does|would|will|do)\ (?:it|that|i|we)\ (?:cost|take|need|do|save|be|come\ to|mean
      |change|pay|look\ like|weigh) (?:\ (?:me|us))? (?:\ in\ (?:bags|money))? | cost | price
        | tally
  | total | weight
)"""
_BESIDE = (
    r"(?:if|with|without|at|when|supposing|suppose|assuming|including|allowing|on|using|given|of)"
)
_THEN = rf"""(?: {_AMOUNT} | what(?:\ then)? | then\ what | what\ (?:happens|changes|now) | then
  | (?:does|will|would|is|do)\ (?:anywhere|anything|it|any\ point|i|we|that)\b .*
  | what\ (?:do|would|does|will)\ (?:i|we|it|that)\b .*
    | how\ (?:does|would|is)\ (?:that|it)\b .* )"""
_DOING = (
    r"\b(?:lift|rais|lower|dropp?|bring|tak|go|grind|add|us|put|mak|chang|tak|leav|skipp?)ing\b"
)

_PATTERNS = tuple(
    re.compile(pattern, re.VERBOSE)
    for pattern in (
        rf"^{_AMOUNT}\ (?P<how>{_BESIDE})\ (?P<change>.+)$",
        rf"^(?:and\ )?(?P<how>if|with|without|suppose|supposing|say|assuming|assume|imagine|at)\ "
        rf"(?P<change>.+?)\ (?:and\ )?{_THEN}$",
        r"^(?:and\ |but\ |or\ )?if\ (?P<change>(?:finish|waste|aggregate|product|bag|we|i"
        r"|it)\b.+)$",
        rf"^how\ much\ (?:more\ )?(?:would|will|does|do|did)\ (?P<change>.*{_DOING}.*?)"
        r"\ (?:cost|save|add|need|take|come\ to)(?:\ (?:me|us|up))?(?:\ (?:in\ )?(?:bags|money))?$",
        r"^what\ (?:would|will|does|do)\ (?P<change>.+?)\ (?:do|save|cost|need|take|mean|change"
        r"|make)"
        r"(?:\ (?:me|us))?(?:\ (?:to\ it|in\ bags|to\ (?:the\ )?(?:bags|tally|numbers)))?$",
        rf"^{_AMOUNT}\ {_BESIDE}\ (?P<change>.+?)\ (?:instead|then|altogether|in\ total)$",
        rf"^how\ many\ (?:more\ |fewer\ |less\ |extra\ )?{_BAGS}\ (?:would|will|does|do|for|is)\ "
        r"(?P<change>.+?)(?:\ (?:save|cost|take|need|mean|be))?(?:\ (?:me|us))?$",
        r"^(?:what|how\ much)\ (?:would|do|will|could)\ (?:i|we)\ save\ (?P<how>if|by)\ "
        r"(?P<change>.+)$",
        r"^what\ (?:is|are)\ (?:saved|the\ saving)\ (?P<how>if|by)\ (?P<change>.+)$",
        r"^(?P<change>.+?)\ what\ (?:do|would|will)\ (?:i|we|it|that)\ (?:pay|owe|come\ to|cost"
        r"|need)$",
        r"^(?P<change>.+?)\ (?:and\ )?(?:how\ many|what)\ (?:bags|would\ that\ (?:need|take|do))"
        r"(?:\ is\ (?:it|that))?(?:\ then)?$",
        r"^does\ anywhere\ go\ too\ (?:thin|deep|thick)\ if\ (?P<change>.+)$",
        r"^what\ difference\ (?:would|does|will)\ (?P<change>.+?)\ make$",
    )
)  # fmt: skip


def changes_supposed(line: str) -> Iterator[str]:
    """
    What a line may suppose while it asks what would come of it, in words for after "what if".

    >>> list(changes_supposed("how many bags if we go up 5"))
    ['we go up 5', 'we up 5']
    >>> list(changes_supposed("supposing c1 was minus 20 how many bags"))
    ['c1 was minus 20', 'c1 minus 20', 'supposing c1 was minus 20', 'supposing c1 minus 20']
    >>> list(changes_supposed("bags without waste"))
    ['no waste']
    """
    seen: set[str] = set()
    for pattern in _PATTERNS:
        found = pattern.match(line)
        if found is None:
            continue
        said = found["change"]
        if "how" in pattern.groupindex and found["how"] == "without":
            said = f"no {said}"
        for each in _worded(said):
            if each not in seen:
                seen.add(each)
                yield each


_WAS = re.compile(r"\b(?:was|were|is|are|went|goes|go|would be|had been|at|to)\ (?!column|row)")
_MORE = re.compile(r"^(?P<size>.+?)\ (?:more|extra|higher|thicker|up)$")
_LESS = re.compile(r"^(?P<size>.+?)\ (?:less|lower|thinner|down)$")
_EACH = re.compile(r"^bags?\ at\ (?P<price>[\d.]+(?:\ [a-z]+)?)\ (?:each|apiece|a\ piece)$")


def _worded(said: str) -> Iterator[str]:
    """A change as it was said, and as an order would put it."""
    yield said
    if (plain := _WAS.sub("", said)) != said:
        yield plain
    if found := _EACH.match(said):
        yield f"bag costs {found['price']}"
    for pattern, order in ((_MORE, "raise finish"), (_LESS, "lower finish")):
        if found := pattern.match(said):
            yield f"{order} {found['size']}"
