"""From text to every meaning it can have, or to what was missing and where."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, cached_property
from itertools import product
from typing import Any

from lark import Token, Tree

from grammar.commands import Command
from grammar.errors import GrammarError, Impossible
from grammar.frozen import frozen
from grammar.language import ANY, opens_name, rule_table, terminal_of
from grammar.lookahead import Lookahead, NoLine
from grammar.phrases import PHRASES
from grammar.slots import BUILDERS, ROLES, UNBROKEN
from grammar.words import END, NO_NAME_WITH, Word

_MOST_MEANINGS = 64
"""Most ways to read one piece that are looked at; real utterances have one or two."""


@frozen
class Bound:
    """A value that fills a field of a command."""

    field: str
    value: Any


@cache
def parser() -> Lookahead:
    """The parser, made from the phrase table on first use."""
    return Lookahead(rule_table())


def _tokens(words: list[Word]) -> list[Token]:
    """Words as lark takes them."""
    tokens = []
    in_name = False
    for at, word in enumerate(words, start=1):
        kind = ANY if in_name and word.kind != END else terminal_of(word)
        # What somebody says in words of their own is kept as it was said.
        text = word.said or f" {word.text}" if kind == ANY else word.text
        tokens.append(Token(kind, text, start_pos=word.start, end_pos=word.end))
        # A name may hold any word; without a terminal of its own for that, each word of
        # the language would be a way to go on at every word of a name.
        opened = opens_name([each.text for each in words[max(at - 3, 0) : at]])
        in_name = in_name or (opened and not _is_limit(word, words[at:]))
    return tokens


def _is_limit(opener: Word, after: list[Word]) -> bool:
    """Whether a limit stands after a word that opens names too: spec 3 mm under 2 metres."""
    mark = NO_NAME_WITH.get(opener.text)
    return mark is not None and any(word.text == mark for word in after)


class NoParse(GrammarError):
    """Where a row of words leaves the grammar."""

    def __init__(self, at: int, state: Callable[[], Iterable[tuple[Any, int]]]) -> None:
        super().__init__(at)
        self.at = at
        """Index of the first word that does not fit; the number of words at the end."""
        self._state = state

    @cached_property
    def state(self) -> Iterable[tuple[Any, int]]:
        """Lark's (rule, place) pairs that were possible there; a parse more, when asked for."""
        return self._state()


def meanings_of(words: Sequence[Word]) -> tuple[Command, ...]:
    """As :func:`parse`, but none where the words make no sense."""
    try:
        return parse(list(words)) if words else ()
    except (NoParse, Impossible):
        return ()


def parse(words: list[Word]) -> tuple[Command, ...]:
    """
    Every distinct command a row of words can mean.

    Raises :class:`NoParse` where the words leave the grammar, and
    :class:`~grammar.errors.Impossible` where they fit but make no sense.
    """
    tokens = _tokens(words)
    try:
        tree = parser().tree(tokens)
    except NoLine as stop:
        ended = stop.state
        if stop.at == len(words):
            raise NoParse(stop.at, lambda: ended) from None
        at = _index_of(words, words[stop.at])
        # As they stand in the whole line: what comes after a word may say what it is.
        so_far = tokens[: at + 1]
        raise NoParse(at, lambda: _all_that_may_come(so_far) if at else _openings()) from None
    troubles: list[Impossible] = []
    pauses = frozenset(word.start for word in words if word.after_pause)
    found = _distinct(_values(tree, troubles, pauses))
    if not found:
        # What is wrong with two numbers tells more than that they are not one.
        several = [each for each in troubles if str(each) != _BROKEN]
        raise (several or troubles or [Impossible("it can be meant in no way I know")])[0]
    return tuple(found)


def _index_of(words: list[Word], part: Word) -> int:
    """Of the first of the parts that one word was cut into."""
    return next(at for at, word in enumerate(words) if word.start == part.start)


def _all_that_may_come(tokens: list[Token]) -> Iterable[tuple[Any, int]]:
    """What a parser that leaves nothing out would take in the place of the last token."""
    try:
        parser().tree(tokens, all_at=len(tokens) - 1)
    except NoLine as stop:
        return stop.state
    raise AssertionError("what did not fit has to be refused again")


@cache
def _openings() -> Iterable[tuple[Any, int]]:
    return _all_that_may_come(_tokens([Word(END, "", -1, -1)]))


def _distinct(values: Iterator[Any]) -> list[Any]:
    seen: dict[str, Any] = {}
    for value in values:
        seen.setdefault(repr(value), value)
        if len(seen) >= _MOST_MEANINGS:
            break
    return list(seen.values())


def _values(node: Any, troubles: list[Impossible], pauses: frozenset[int]) -> Iterator[Any]:
    """Everything a piece of the parse can stand for."""
    if not isinstance(node, Tree):
        yield node
        return
    if node.data == "_ambig":
        for way in node.children:
            yield from _values(way, troubles, pauses)
        return
    choices = [_distinct(_values(child, troubles, pauses)) for child in node.children]
    for parts in product(*choices):
        try:
            if node.data in UNBROKEN:
                _unbroken(node, pauses)
            yield _build(str(node.data), parts)
        except Impossible as trouble:
            trouble.start = next(
                (leaf.start_pos or 0 for leaf in node.scan_values(lambda _: True)), 0
            )
            troubles.append(trouble)


_BROKEN = "one number has no comma or stop inside it"


def _unbroken(node: Tree[Any], pauses: frozenset[int]) -> None:
    leaves = [leaf.start_pos for leaf in node.scan_values(lambda _: True)]
    if any(start in pauses for start in leaves if start != min(leaves)):
        raise Impossible(_BROKEN)


def _build(rule: str, parts: tuple[Any, ...]) -> Any:
    if rule.startswith("r_"):
        return ROLES[rule[2:]][str(parts[0])]
    if rule.startswith("ph_"):
        held = {part.field: part.value for part in parts if isinstance(part, Bound)}
        return _command(int(rule[3:]), held)
    if rule.startswith("b_"):
        return Bound(rule[2:].split("__")[0], parts[0])
    if rule == "start":
        return parts[0]
    return BUILDERS[rule](*(str(part) if isinstance(part, Token) else part for part in parts))


def _command(number: int, held: dict[str, Any]) -> Command:
    values: dict[str, Any] = dict(PHRASES[number].fixed)
    for names, value in held.items():
        fields = names.split("_and_")
        values.update({names: value} if len(fields) == 1 else zip(fields, value, strict=True))
    command = PHRASES[number].command
    if "point" in command.__dataclass_fields__:
        values.setdefault("point", None)
    return command(**values)
