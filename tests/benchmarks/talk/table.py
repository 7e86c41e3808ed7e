"""The phrase tables: what was said, and what should become of it.

Phrasings said on sites, written down before the table of phrases was widened. Each row has a
phrase; what to ``do`` with it (take, ask, say, refuse); what is wanted, several parted by ``|``;
and lines that were said just before, parted by ``;``, where the phrase leans on them.

``take``
    Taken for one of the commands in `want`, each in its short form. A word of `ASKED_BY` among
    them says that asking for that is right, too.
``ask``
    Something is missing or can mean two things; `want` says what may be asked about: words of
    `ASKED_BY`, or the commands that may be offered.
``say``
    It can't be done here, or not so: nothing is recorded. Answering or naming a command in
    `want` is fine.
``refuse``
    Records nothing and judges nothing: not meant for the program, or not its to say.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
LISTS = ("said_on_site", "second", "third")
"""Those that whoever widens the language learns from."""
HELD_OUT = ("unseen",)
"""What nobody looks at who does: it says how well a line is understood that is new."""
DOES = ("take", "ask", "say", "refuse")

ASKED_BY = {
    "unit": r"\b(inch|inches|millimet\w*|metres|unit)\b",
    "side": r"\b(below or above|above or below|plus or minus|side)\b",
    "point": r"\b(which point|point|where|no [a-z]{1,2}\d+|not on the grid|is not there)\b",
    "which": r"\bwhich\b",
    "size": r"\b(size|how (big|wide|large|long|far|much)|measures?|so (wide|big)|by \S+ m)\b",
    "value": r"\b(value|height|how (many|much|high|low|deep)|what (should|is|does))\b",
    "jamb": r"\b(jambs?|left|right|outside)\b",
    "any": r"\?",
}
"""Words of `want` that stand for something asked about, with what tells it in the reply."""


@dataclass(frozen=True, slots=True)
class Row:
    """A phrase, and what should become of it."""

    phrase: str
    do: str
    want: tuple[str, ...]
    before: tuple[str, ...]

    @property
    def commands(self) -> tuple[str, ...]:
        """What may be taken, answered or offered, in short forms; ``*`` for any words."""
        return tuple(each for each in self.want if each not in ASKED_BY)

    @property
    def asked_by(self) -> tuple[str, ...]:
        """Patterns of a reply that asks what may be asked."""
        return tuple(ASKED_BY[each] for each in self.want if each in ASKED_BY)


def table(name: str) -> tuple[Row, ...]:
    """The rows of a list."""
    with (HERE / f"{name}.tsv").open(encoding="utf-8", newline="") as file:
        lines = csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE)
        return tuple(
            Row(
                line["phrase"],
                line["do"],
                _parts(line["want"], "|"),
                _parts(line["before"] or "", ";"),
            )
            for line in lines
        )


def ordinary_talk() -> tuple[str, ...]:
    """What is said on a site and is not meant for the program."""
    return tuple((HERE / "talk.txt").read_text(encoding="utf-8").splitlines())


def _parts(text: str, sign: str) -> tuple[str, ...]:
    return tuple(part for each in text.split(sign) if (part := each.strip()))
