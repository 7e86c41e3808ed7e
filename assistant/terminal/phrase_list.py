"""The printed reference: every phrase, what it is for, and examples, from the phrase table."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from itertools import groupby

from grammar import PHRASES, Phrase

WIDTH = 78
INDENT = " " * 4
HOW_TO_READ = "In a template [this] may be left out, (one | of these) is said, <this> is filled in."


def reference_text() -> str:
    """The reference as text for a terminal."""
    return "\n".join(_text_lines()).strip() + "\n"


def reference_markdown() -> str:
    """The reference as a whole page, ``docs/phrases.md``."""
    return "\n".join(_markdown_lines()).strip() + "\n"


def shown_template(template: str) -> str:
    """A template as a reader wants it: what a gap holds, not which field it fills."""
    return re.sub(
        r"<(?:[a-z_,]+:)?([a-z_]+)>", lambda gap: f"<{_GAPS.get(gap[1], gap[1])}>", template
    )


_GAPS = {
    "pair": "length by length",
    "loose": "length",
    "whole": "number",
    "signed_reading": "reading",
    "reading_unit": "inches or millimetres",
}


def _by_topic() -> Iterator[tuple[str, list[Phrase]]]:
    order = list(dict.fromkeys(phrase.topic for phrase in PHRASES))
    ordered = sorted(PHRASES, key=lambda phrase: order.index(phrase.topic))
    for topic, phrases in groupby(ordered, key=lambda phrase: phrase.topic):
        yield topic, list(phrases)


def _text_lines() -> Iterator[str]:
    yield HOW_TO_READ
    for topic, phrases in _by_topic():
        yield f"\n{topic.upper()}\n"
        for phrase in phrases:
            yield f"  {shown_template(phrase.template)}"
            yield from textwrap.wrap(
                phrase.help, WIDTH, initial_indent=INDENT, subsequent_indent=INDENT
            )
            examples = " · ".join(example.replace(" ", "\u00a0") for example in phrase.examples)
            for line in textwrap.wrap(
                examples, WIDTH, initial_indent=INDENT, subsequent_indent=INDENT
            ):
                yield line.replace("\u00a0", " ")
            if phrase.ways:
                also = "also: " + " · ".join(shown_template(way) for way in phrase.ways)
                yield from textwrap.wrap(
                    also, WIDTH, initial_indent=INDENT, subsequent_indent=INDENT
                )


def _markdown_lines() -> Iterator[str]:
    yield "# Everything that can be said\n"
    yield "Made from the phrase table by `leadsman phrases --markdown`; a test keeps it so."
    # As code, or HTML would take the gaps for tags.
    yield re.sub(r"([\[(<][^\])>]*[\])>])", r"`\1`", HOW_TO_READ)
    for topic, phrases in _by_topic():
        yield f"\n## {topic.capitalize()}\n"
        yield "| say | for | examples |"
        yield "|---|---|---|"
        for phrase in phrases:
            examples = ", ".join(f"`{example}`" for example in phrase.examples)
            also = "".join(f"; `{_in_a_cell(way)}`" for way in phrase.ways)
            template = _in_a_cell(phrase.template)
            yield f"| `{template}`{also} | {phrase.help} | {examples} |"


def _in_a_cell(template: str) -> str:
    return shown_template(template).replace("|", "\\|")
