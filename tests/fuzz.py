"""Random lines against a whole job: no traceback, no event from what was not understood.

What is understood comes back from its short form as the very same command.

Run by hand, ``python tests/fuzz.py 200000``; the test suite runs some hundreds.
Half the lines are noise, half are sentences of the language with words cut,
swapped, doubled or run together, which get much further in.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable, Mapping
from random import Random

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.products.cards import Card
from assistant.record.journal import Journal
from assistant.reply.json_lines import json_line
from assistant.wiring import gather_cards, open_journal
from grammar import Misunderstood, short_form, understand
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence

PROGRESS = 1000
"""After so many lines a campaign says how far it is."""
_SIGNS = (
    "abcdefghijklmnopqrstuvwxyz0123456789 -+/'\".,%½¾−″\t\n\r\0\x1b\x7f\u200b\ufeff\ud83d"
    "ÄßŁЖ中🙂()[]{}<>|\\#$&*=@!?"
)


def noise(random: Random) -> str:
    """A line of signs, printable and not."""
    length = random.choice((1, 3, 10, 40, 200))
    return "".join(random.choice(_SIGNS) for _ in range(random.randrange(length + 1)))


def mangled(random: Random) -> str:
    """A sentence of the language with something wrong with it, or nothing."""
    words = random_sentence(random.choice(PHRASES), random).text.split(" ")
    for _ in range(random.randrange(3)):
        at = random.randrange(len(words))
        act = random.randrange(5)
        if act == 0 and len(words) > 1:
            del words[at]
        elif act == 1:
            words.insert(at, words[at])
        elif act == 2:
            other = random_sentence(random.choice(PHRASES), random).text.split(" ")
            words[at] = random.choice(other)
        elif act == 3:
            words[at] = words[at][: random.randrange(len(words[at]) + 1)]
        else:
            words[at] += random.choice(_SIGNS)
    return " ".join(words)


def short_form_differs(text: str) -> str | None:
    """The short form of something this line means that does not parse to just that, or None."""
    try:
        meanings = understand(text)
    except Misunderstood:
        return None
    for command in meanings:
        short = short_form(command)
        try:
            again = understand(short)
        except Misunderstood:
            return short
        if again != (command,):
            return short
    return None


def run(lines: int, seed: int, progress: Callable[[int], None] | None = None) -> dict[str, int]:
    """Hear so many lines; counts of what came of them. Raises where a rule is broken."""
    random = Random(seed)
    counts = {"lines": 0, "understood": 0, "refused": 0, "events": 0}
    cards, _ = gather_cards(None, ())
    talk, journal = _fresh(cards)
    for number in range(lines):
        if number % 500 == 499:
            # A job of thousands of rooms and grids tells nothing new and gets slow.
            journal.close()
            talk, journal = _fresh(cards)
        if progress is not None and number and number % PROGRESS == 0:
            progress(number)
        text = random.choice((noise, mangled, mangled))(random)
        before = sum(len(entry.events) for entry in journal.entries()) if number % 50 == 0 else None
        short = short_form_differs(text)
        if short is not None:
            raise AssertionError(f"{text!r} does not come back from {short!r}")
        turn = talk.hear(text)
        line = json_line(number, turn)
        counts["lines"] += 1
        counts["understood" if turn.ok else "refused"] += 1
        counts["events"] += len(turn.recorded)
        if not turn.ok and turn.recorded:
            raise AssertionError(f"recorded though not understood: {text!r}")
        if not line or "\n" in line:
            raise AssertionError(f"not one line of JSON: {text!r}")
        if before is not None:
            after = sum(len(entry.events) for entry in journal.entries())
            if after - before != len(turn.recorded):
                raise AssertionError(f"the record and the reply differ: {text!r}")
    journal.close()
    return counts


def _fresh(cards: Mapping[str, Card]) -> tuple[Conversation, Journal]:
    journal = open_journal(None)
    talk = Conversation(journal, World(cards))
    for line in ("room 12 by 8 metres", "product example standard", "grid 2 metres", "B3 -18"):
        talk.hear(line)
    return talk, journal


def main() -> int:
    """The campaign."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("lines", type=int, nargs="?", default=200_000)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    started = time.monotonic()

    def progress(lines: int) -> None:
        seconds = time.monotonic() - started
        print(f"{lines} of {asked.lines} lines, {lines / seconds:.0f} a second", flush=True)

    counts = run(asked.lines, asked.seed, progress)
    seconds = time.monotonic() - started
    rate = asked.lines / seconds
    print(counts, f"{seconds:.0f} s, {rate:.0f} lines a second, seed {asked.seed}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
