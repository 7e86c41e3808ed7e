"""Replies on a terminal: the answer first, then warnings, then tables and the map.

Severity is printed as a word, so nothing is lost without colour.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import replace

from assistant.reply.replies import Caution, FloorMap, LimitWarning, Reply, Table, Turn
from assistant.reply.visible import visible, visible_part
from assistant.terminal.depth_map import MapText, draw
from assistant.terminal.line import Style, StyledLine
from assistant.terminal.output import Output
from assistant.terminal.table_text import lay_out

WIDEST = 80
"""Lines are kept this short even on a wide terminal: they are read at arm's length."""
LONGEST = 10_000
"""Signs of one text; what is more is counted. No line that is said has a tenth of it."""

SEVERITIES = {"stop": "STOP", "caution": "CAUTION", "note": "NOTE"}
"""The severities as printed, in the order they are printed in."""

LABEL = max(len(word) for word in SEVERITIES.values()) + 2
INDENT = "  "

STYLES = {"stop": "bold #c8503c", "caution": "bold #b9852b", "note": "bold #4f8a8b"}
SHADES = ("#b79257", "#8f9a63", "#5f9a86", "#4d86a6", "#7a70b8")
"""Colours from shallow to deep."""


class Screen:
    """Shows turns, one after the other."""

    def __init__(self, output: Output) -> None:
        self._output = output
        self.asked: str | None = None
        """The question that was shown last and still waits: it is shown once."""
        self._at_prompt: str | None = None
        """The question that the prompt has shown, or shows next."""

    @property
    def width(self) -> int:
        """Columns used."""
        return min(self._output.width, WIDEST)

    def echo(self, text: str, who: str = "") -> None:
        """Show a line as it was typed, where it was not typed on this screen, and by whom."""
        mark = f"{who}> "
        shown = _clipped(visible(text), self.width - len(mark))
        self._output.write(_line(f"{mark}{shown}", "dim"))

    def show(self, turn: Turn, *, ask: bool = True) -> None:
        """
        The reply of a turn, and a blank line after it.

        Without `ask` the waiting question is left out: the prompt shows it next, once, and again
        where this turn is the question itself.
        """
        reply = turn.reply
        self.show_reply(reply if ask else without_question(reply))
        if not ask:
            again = reply.ask == self._at_prompt and reply.headline != reply.ask
            self.asked = reply.ask if again else None
            self._at_prompt = reply.ask

    def show_reply(self, reply: Reply) -> None:
        """The reply, and a blank line after it."""
        if reply.ask is not None and reply.ask == self.asked != reply.headline:
            reply = replace(reply, ask=None)
        else:
            self.asked = reply.ask
        lines = reply_lines(reply, self.width)
        for line in lines:
            self._output.write(line)
        if lines:
            self._output.write(StyledLine())

    def say_as_it_is(self, line: str) -> None:
        """Show a line that is drawn, not worded."""
        self._output.write(_line(line))

    def say(self, text: str) -> None:
        """Show a sentence of the program's own, outside any turn; paths in it stay whole."""
        for line in wrap_lines(text, self.width, then="", whole_words=True):
            self._output.write(_line(line))


def _line(text: str, style: Style = "") -> StyledLine:
    return StyledLine(((text, style),))


GLANCE_LINES = 8
"""Most lines that are taken in at a glance, staff in hand. Common practice, no source."""


def without_question(reply: Reply) -> Reply:
    """The turn without its waiting question."""
    headline = "" if reply.headline == reply.ask else reply.headline
    return replace(reply, headline=headline, ask=None)


def reply_lines(reply: Reply, width: int) -> list[StyledLine]:
    """All of a reply, line by line."""
    if reply.in_a_glance and reply.stops:
        reply = replace(_at_a_glance(reply), in_a_glance=False)
        lines = reply_lines(reply, width)
        longer = len(lines) > GLANCE_LINES
        return reply_lines(_cautions_counted(reply), width) if longer else lines
    lines = [_line(line, "bold") for line in wrap_lines(reply.first_line, width)]
    for detail in (*reply.details, *reply.asides):
        lines += [_line(line) for line in wrap_lines(detail, width, INDENT, INDENT)]
    for warning in _by_severity(reply.warnings):
        lines += _warning_lines(warning, width)
    for table in reply.tables:
        lines += _table_lines(table, width)
    if reply.map is not None:
        lines += _map_lines(reply.map, width)
    if (reply.cautions or reply.reminders) and (reply.tables or reply.map):
        lines.append(StyledLine())
    for caution in reply.cautions:
        lines += _caution_lines(caution, width)
    if reply.reminders:
        lines += _labelled("CARE", "bold", reminded(reply.reminders), width)
    if reply.ask and reply.ask != reply.headline:
        lines += [_line(line, "bold") for line in wrap_lines(f"? {reply.ask}", width)]
    return lines


def _at_a_glance(reply: Reply) -> Reply:
    """What stops the work, and no more: notes stay with "warnings", cautions are recalled."""
    kept = [warning for warning in reply.warnings if warning.severity != "note"]
    alone = len(kept) == 1
    shown = tuple(
        replace(
            each, message=f"{each.message} ({each.source})" if alone else each.message, source=""
        )
        for each in kept
    )
    reminders = (*reply.reminders, *reply.cautions)
    return replace(reply, asides=(), warnings=shown, cautions=(), reminders=reminders)


def _cautions_counted(reply: Reply) -> Reply:
    """What stops the work in full, and how many cautions there are beside it."""
    stops = tuple(each for each in reply.warnings if each.severity == "stop")
    count = len(reply.warnings) - len(stops)
    if not count:
        return reply
    told = f"{count} caution{'' if count == 1 else 's'} besides: warnings."
    return replace(reply, warnings=(*stops, LimitWarning("more", "caution", told)))


def _by_severity(warnings: tuple[LimitWarning, ...]) -> list[LimitWarning]:
    order = list(SEVERITIES)
    return sorted(
        warnings, key=lambda w: order.index(w.severity) if w.severity in order else len(order)
    )


def _warning_lines(warning: LimitWarning, width: int) -> Iterator[StyledLine]:
    label = SEVERITIES.get(warning.severity, warning.severity.upper())
    yield from _labelled(label, STYLES.get(warning.severity, "bold"), warning.message, width)
    yield from _source_lines(warning.source, width)


def _caution_lines(caution: Caution, width: int) -> Iterator[StyledLine]:
    yield from _labelled("CARE", "bold", caution.message, width)
    yield from _source_lines(caution.source, width)


def reminded(cautions: Sequence[Caution]) -> str:
    """What matters most of cautions that were given before."""
    return f"{'. '.join(caution.reminder for caution in cautions)}. (cautions)"


def _labelled(label: str, style: str, message: str, width: int) -> Iterator[StyledLine]:
    """A label in the margin and the message beside it."""
    lines = wrap_lines(message, width - LABEL, then="")
    for line in lines[:1]:
        yield StyledLine(((label.ljust(LABEL), style), (line, "")))
    for line in lines[1:]:
        yield _line(" " * LABEL + line)


def _source_lines(source: str, width: int) -> Iterator[StyledLine]:
    if source:
        margin = " " * LABEL
        for line in wrap_lines(f"({source})", width, margin, margin + " "):
            yield _line(line, "dim")


def _table_lines(table: Table, width: int) -> Iterator[StyledLine]:
    yield StyledLine()
    if table.title:
        yield from (_line(line, "bold") for line in wrap_lines(table.title, width))
    shown = Table(
        table.title,
        tuple(visible(cell) for cell in table.columns),
        tuple(tuple(visible_part(cell, LONGEST) for cell in row) for row in table.rows),
    )
    for line in lay_out(shown, width):
        yield _line(line)


def _map_lines(floor: FloorMap, width: int) -> Iterator[StyledLine]:
    yield StyledLine()
    for line in draw(floor, width):
        yield _stripped([(visible(piece.text), _shade(piece)) for piece in line])


def _stripped(pieces: list[tuple[str, Style]]) -> StyledLine:
    """A line without blanks at its end."""
    while pieces and not pieces[-1][0].rstrip():
        pieces.pop()
    if pieces:
        text, style = pieces.pop()
        pieces.append((text.rstrip(), style))
    return StyledLine(tuple(pieces))


def _shade(piece: MapText) -> Style:
    if piece.flagged:
        return STYLES["stop"]
    if piece.shade is None:
        return ""
    return SHADES[min(int(piece.shade * len(SHADES)), len(SHADES) - 1)]


def wrap_lines(
    text: str, width: int, first: str = "", then: str = INDENT, *, whole_words: bool = False
) -> list[str]:
    """
    Lines no wider than `width`.

    A very long word is broken rather than run off the page, unless words are to stay whole.
    Paths always do: one that breaks cannot be copied.
    """
    wrapper = _Wrapper(
        max(width, 20),
        initial_indent=first,
        subsequent_indent=then,
        break_long_words=not whole_words,
        break_on_hyphens=not whole_words,
    )
    more = len(text) - LONGEST
    parts = text[:LONGEST].splitlines() + ([f"… ({more:,} characters more)"] if more > 0 else [])
    return [line for part in parts for line in wrapper.wrap(visible(part))]


class _Wrapper(textwrap.TextWrapper):
    """A wrapper that keeps paths whole."""

    def _split(self, text: str) -> list[str]:
        # Split at blanks first: only what is no path may break at its hyphens.
        split = super()._split
        return [
            chunk
            for word in re.split(r"(\s+)", text)
            if word
            for chunk in ([word] if _is_path(word) else split(word))
        ]

    def _handle_long_word(
        self, reversed_chunks: list[str], cur_line: list[str], cur_len: int, width: int
    ) -> None:
        if not _is_path(reversed_chunks[-1]):
            super()._handle_long_word(reversed_chunks, cur_line, cur_len, width)
        elif not cur_line:
            cur_line.append(reversed_chunks.pop())


def _is_path(word: str) -> bool:
    return word.count("/") + word.count("\\") > 1


def _clipped(text: str, width: int) -> str:
    return text if len(text) <= width else text[: width - 1] + "…"
