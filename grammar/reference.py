"""The printed reference of the language, made from the phrase table."""

from __future__ import annotations

from itertools import groupby

from grammar.phrases import PHRASES


def as_markdown() -> str:
    """All phrases with help and examples, a table a topic."""
    parts = []
    topics = list(dict.fromkeys(phrase.topic for phrase in PHRASES))
    ordered = sorted(PHRASES, key=lambda phrase: topics.index(phrase.topic))
    for topic, phrases in groupby(ordered, key=lambda phrase: phrase.topic):
        parts.append(f"### {topic[0].upper()}{topic[1:]}\n")
        parts.append("| say | for example | what it does |\n|---|---|---|")
        for phrase in phrases:
            examples = " · ".join(f"`{example}`" for example in phrase.examples[:4])
            parts.append(f"| `{_shown(phrase.template)}` | {examples} | {phrase.help} |")
        parts.append("")
    return "\n".join(parts)


def _shown(template: str) -> str:
    """A template as a reader wants it: slots by what they hold, bars safe in a table."""
    shown = template
    for slot, told in _SLOT_WORDS.items():
        shown = shown.replace(slot, told)
    return shown.replace("|", "\\|")


_SLOT_WORDS = {
    "<first,second:pair>": "LENGTH by LENGTH",
    "<reading:signed_reading>": "READING",
    "<first:length>": "LENGTH",
    "<starting:length>": "LENGTH",
    "<reach:length>": "LENGTH",
    "<length>": "LENGTH",
    "<by:loose>": "LENGTH",
    "<left:reading>": "READING",
    "<right:reading>": "READING",
    "<outside:reading>": "READING",
    "<height:reading>": "READING",
    "<reading>": "READING",
    "<point>": "POINT",
    "<door:whole>": "NUMBER",
    "<percent>": "PERCENT",
    "<direction>": "DIRECTION",
    "<unit:reading_unit>": "UNIT",
    "<name>": "NAME",
    "<side>": "SIDE",
    "<change>": "CHANGE",
}
