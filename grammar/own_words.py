"""
Words that are kept as they were said: a client, an address, a job's name, a reason, a note.

What leads up to them is known by patterns, and what then stands there is never looked into or cut.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from grammar.commands.flatness import ChooseSpec
from grammar.commands.guide import SkipStep
from grammar.commands.jobs import BringJobBack, CopyJob, RenameJob, SetAddress, SetClient
from grammar.commands.notes import TakeNote
from grammar.commands.pour import TellLeftOver
from grammar.commands.site import AcceptReason
from grammar.phrase import Phrase

_MOST_TITLE = 8
"""Words of a name or an address; more are talk."""
_FEWEST_REASON = 2
_FEWEST_ACCEPTED = 4
_EDGES = " \t,;:.!?-\"'“”"
_POLITE = re.compile(r"(?:,? (?:please|mate|thanks|cheers|ta|boss|thank you))+$", re.IGNORECASE)
_FILLED = re.compile(
    r"^(?:(?:um|uh|er|erm|hm|so|well|ok|okay|please|right|yeah|oh|just)\b[,.]?\s*)+", re.IGNORECASE
)


def _plain(line: str) -> str:
    """A line on one line, without fillers at its start and courtesies at its end."""
    return _POLITE.sub("", _FILLED.sub("", " ".join(line.split()).strip(_EDGES))).strip(_EDGES)


def own_words(phrase: Phrase, line: str) -> dict[str, str] | None:
    """
    The text of a row's gap for words of one's own; None where no such words are clear.

    >>> from grammar.likely import rows_named
    >>> own_words(rows_named("SetAddress")[0], "This job is at 31 Orchard Rise, second floor.")
    {'words': '= 31 Orchard Rise, second floor'}
    """
    way = _WAYS.get(phrase.command)
    return way(phrase, _plain(line)) if way is not None else None


def has_own_words(phrase: Phrase) -> bool:
    """Whether a row holds such words."""
    return phrase.command in _WAYS


def _first(patterns: Sequence[re.Pattern[str]], line: str) -> str | None:
    """What the first pattern that fits leaves."""
    for pattern in patterns:
        found = pattern.search(line)
        if found is not None:
            own = found["own"].strip(_EDGES)
            long = len(own.split()) > _MOST_TITLE or _ASKS_ONESELF.search(own)
            if own and not long and own.lower().removeprefix("the ") not in _NOT_SAID:
                return own
    return None


_ASKS_ONESELF = re.compile(r"\bwhat(?:'s| is)\b|\b(?:i think|so|but) ", re.IGNORECASE)
_NOT_SAID = frozenset("it this that job name new client address one them here there is".split())


def _all(*patterns: str) -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(pattern, re.IGNORECASE) for pattern in patterns)


_CLIENT = r"(?:client|customer|cleint)"
_PUTS = r"(?:put|set|have|enter|record|note|write|change|make|get|give|add)"
_CLIENTS = _all(
    rf"\bput(?: down)? (?P<own>[^,]+?)(?: down)? as (?:the |our |my )?{_CLIENT}\b",
    rf"\bas {_CLIENT} (?:put|take|have|enter) (?P<own>.+)$",
    rf"\bhave (?P<own>[^,]+?) as (?:the |our |my )?{_CLIENT}\b",
    rf"\b(?:set|put|change|enter|make|have|like|want)\b.{{0,20}}\b{_CLIENT}"
    r"(?: down| entered| name)? (?:as|to|is|be) (?P<own>[^,]+)",
    rf"\bmake (?:the |our )?{_CLIENT} (?P<own>.+)$",
    rf"\bthat (?P<own>.+?) is (?:the|our|my) {_CLIENT}$",
    rf"\b{_CLIENT}(?:'s| is)? name(?:'s| is)? (?P<own>.+)$",
    rf"\b{_CLIENT}(?: is|'s|:|,| =)? (?P<own>.+)$",
    rf"^(?P<own>[^,]+),? {_CLIENT}$",
    r"\b(?:floor|job|one|this|it|it's)(?: is|'s)?(?: being)?(?: made| done| laid)?"
    r" for (?P<own>[^,]+)",
    r"^for (?P<own>[^,]+)$",
    r"^(?P<own>[^,]+?)(?:'s)? (?:floor|job)$",
)
_AN_ADDRESS = r"(?:(?:site |job )?(?:address|addr|adress)|place of the job)"
_ADDRESSES = _all(
    rf"\bput(?: in| down)? (?P<own>.+?)(?: down)? as (?:the |our )?{_AN_ADDRESS}$",
    rf"\b{_AN_ADDRESS}(?: on it| entered| down| in)?(?:,)?"
    r"(?: it's| it is| is|'s|:| =| as| to| now)* (?P<own>.+)$",
    rf"^(?P<own>.*\d.*?),? {_AN_ADDRESS}$",
    r"\b(?:job|floor|site|place)(?: is|'s) (?:at|in|on) (?P<own>.+)$",
    rf"^{_PUTS} (?:the )?(?:place|site|floor|job) (?:down )?(?:as|to|at) (?P<own>.+)$",
    r"^(?P<own>(?:(?:flat|unit|plot|block|house|no|number) )?\d+\w?,? .*[^\W\d_]{3}.*)$",
    r", put (?P<own>\d.*)$",
)
_A_JOB = r"(?:the |this |my |that )?(?:job|one|it)"
_NEW_NAMES = _all(
    rf"\bchange {_A_JOB} to (?P<own>.+)$",
    rf"\bre-?(?: ?name|title)(?: {_A_JOB})?(?:'s name)?(?: to be| to| as| in|[.:,])? (?P<own>.+)$",
    r"\bnames?\b[^,]*\b(?:be changed to|changed to|to be|to|in|as|be) (?P<own>.+)$",
    rf"\b(?:called?|calling) {_A_JOB}(?: job)? (?P<own>.+?)(?: instead)?$",
    r"\b(?:called|named|(?:be|being) titled) (?P<own>.+)$",
    r"\banother name, make it (?P<own>.+)$",
    r"\b(?:new|job|job's|its)(?: new)? name(?: is| now|'s)?[,.:]?(?: to)?[,.:]? (?P<own>.+)$",
    r"^(?P<own>[^,]+), rename$",
)
_COPIES = _all(
    r"\b(?:called|named|under the name(?: of)?|with (?:the )?name(?: of)?) "
    r"(?P<own>.+)$",
    r"\b(?:copy|clone|duplicate|copied)\b[^,]*?\b(?:to|in|into|as) (?:a |the )?(?:new job )?"
    r"(?P<own>.+?)(?: and (?:leave|keep) .*)?$",
)
_BROUGHT = _all(
    r"\b(?:bring|fetch|get|take|put|open)\b[^,]* (?:called|named) (?P<own>[^,]+?)(?: back)?$",
    r"\b(?:bring|fetch|get)(?: me)? back (?:the )?(?:job )?(?P<own>[^,]+?)(?: job)?$",
    r"\b(?:bring|fetch|get)(?: me)? (?:the )?(?:job )?(?P<own>[^,]+?)(?: job)? back\b",
    r"\bwant (?:the )?(?P<own>[^,]+?)(?: job)? (?:again|back)\b",
    r"^(?:the )?(?P<own>[^,]+?)(?: job)? back(?: please)?$",
)


def _title(
    patterns: Sequence[re.Pattern[str]], opener: str = ""
) -> Callable[[Phrase, str], dict[str, str] | None]:
    """How a row with one name in words of one's own finds it."""

    def way(phrase: Phrase, line: str) -> dict[str, str] | None:
        own = _first(patterns, line)
        if own is None or len(phrase.fields) != 1:
            return None
        return {next(iter(phrase.fields)): f"{opener}{own}"}

    return way


_ACCEPTS = r"(?:please )?(?:so |just )?(?:please )?acc?c?ept(?!ed)"
_ENDS_ACCEPTED = re.compile(
    rf"[,.;]?\s*\b(?:so |and |then )*{_ACCEPTS}"
    r"(?:(?: that| it| them|(?: the| its)?(?: old| unchecked)? \w+))?(?: please)?$",
    re.IGNORECASE,
)
_BEGINS_ACCEPTED = re.compile(
    rf"^(?:\w+\. )?{_ACCEPTS}(?: the| its| it| them| that)*(?: \w+)?"
    r"(?:,|\.| because| becuase| as)+\s+"
    r"|^(?:i'd like )?(?:it |that )*(?:can be |should be |may be |be )*"
    r"(?:(?:put|keep|set|take|get|have) )?(?:it |this )?"
    r"(?:on record|on file|noted?|recorded|written down|put down|down) that ",
    re.IGNORECASE,
)


def _accepted(_phrase: Phrase, line: str) -> dict[str, str] | None:
    """Why something is accepted: all that was said but the order to accept it."""
    if len(line.split()) < _FEWEST_ACCEPTED:
        return None
    reason = _ENDS_ACCEPTED.sub("", _BEGINS_ACCEPTED.sub("", line)).strip(_EDGES)
    return _reason("words", reason)


def _reason(field: str, reason: str) -> dict[str, str] | None:
    return {field: reason} if len(reason.split()) >= _FEWEST_REASON else None


_SKIPS = r"(?:please )?(?:so |we |i want to |just )*(?:skip|skipping|skipped|skpi)"
_BEGINS_SKIPPED = re.compile(
    rf"^(?:{_SKIPS}|go past|move on without|don't do)(?: over)?(?: this| it| that| step| one| the)*"
    r"(?:(?:,|\.)? (?:the reason is that|because|since|as|for))?(?:,|\.|:)*\s+",
    re.IGNORECASE,
)
_ENDS_SKIPPED = re.compile(
    rf"(?:,|\.|;)?\s*(?:so |and |which is why )*{_SKIPS}(?: this| it| that| step| one)*$",
    re.IGNORECASE,
)


def _skipped(phrase: Phrase, line: str) -> dict[str, str] | None:
    """Why a step is skipped: all that was said but that it is to be."""
    reason = _ENDS_SKIPPED.sub("", _BEGINS_SKIPPED.sub("", line)).strip(_EDGES)
    if reason == line or "reason" not in phrase.fields:
        return None
    return _reason("reason", reason)


_LEFT_OVER = _all(
    r"\b(?:because|since|due to|on account of|owing to|it's because) (?P<own>.+)$",
    r"\breason\b[^:]*: (?P<own>.+)$",
    r"\breason\b.*?\b(?:is|was)(?: that)? (?P<own>.+)$",
    r"\b(?:left ?overs?|over|spare|surplus|bags over)(?:,|:| as) (?P<own>.+)$",
    r"\bbags: (?P<own>.+)$",
    r"^what was left over came from (?P<own>.+)$",
    r"^(?P<own>.+?),? that's why\b.*$",
)


def _left_over(_phrase: Phrase, line: str) -> dict[str, str] | None:
    for pattern in _LEFT_OVER:
        found = pattern.search(line)
        if found is not None:
            return _reason("reason", found["own"].strip(_EDGES))
    return None


_POINT = r"(?:point )?(?P<point>[A-Za-z]{1,2}\d{1,2})"
_WRITES = r"(?:put|add|write|note|jot|record|remark|make|stick|leave|log|have|like|may)"
_NOTES = _all(
    rf"^{_POINT},? note[,:]? (?P<own>.+)$",
    rf"\b{_WRITES}\b[^,]*?\b(?:at|on|against|to|for|about) {_POINT}[,:]?"
    r"(?: that| note:?| saying(?: that)?| write(?: remark)?(?: that)?)* (?P<own>.+)$",
    rf"^(?:against|at|for|on) {_POINT},? (?:write|note|put|jot)(?: down)?(?: remark)?"
    r"(?: that|[:,])? (?P<own>.+)$",
    rf"^(?P<own>.+?),? note(?: at| on)? {_POINT}$",
)


def _note(phrase: Phrase, line: str) -> dict[str, str] | None:
    """A remark about a point."""
    if "point" not in phrase.fields:
        return None
    for pattern in _NOTES:
        found = pattern.search(line)
        if found is not None and len(found["own"].split()) > 1:
            said = f"at {found['point'].upper()} {found['own'].strip(_EDGES)}"
            return dict.fromkeys(("point", "words"), said)
    return None


_SPEC_ROW = re.compile(r"\b(?:din|18202)\b.*?\b(?:row|line) (\d|three|four)\b", re.IGNORECASE)
_SPEC_SR = re.compile(r"\b(?:s ?r|surface regularity) ?(\d|one|two|three)\b", re.IGNORECASE)
_SPEC_DIGITS = {"one": "1", "two": "2", "three": "3", "four": "4"}


def _spec(_phrase: Phrase, line: str) -> dict[str, str] | None:
    """A limit by its standard's name, and the class in it."""
    row, sr = _SPEC_ROW.search(line), _SPEC_SR.search(line)
    if (row is None) is (sr is None):
        return None
    if row is not None:
        return {"name": f"DIN 18202 row {_SPEC_DIGITS.get(row[1].lower(), row[1])}"}
    assert sr is not None
    return {"name": f"SR{_SPEC_DIGITS.get(sr[1].lower(), sr[1])}"}


_WAYS: dict[type, Callable[[Phrase, str], dict[str, str] | None]] = {
    AcceptReason: _accepted,
    BringJobBack: _title(_BROUGHT),
    ChooseSpec: _spec,
    CopyJob: _title(_COPIES),
    RenameJob: _title(_NEW_NAMES),
    SetAddress: _title(_ADDRESSES, "= "),
    SetClient: _title(_CLIENTS, "= "),
    SkipStep: _skipped,
    TakeNote: _note,
    TellLeftOver: _left_over,
}
