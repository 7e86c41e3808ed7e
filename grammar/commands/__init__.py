"""What an installer can ask for: a small frozen class for each, in the file of its matter.

A command holds what was said and nothing else. Whether it can be done is
decided later, against the job.
"""

from grammar.commands.kinds import (
    IN_PARTS,
    Answer,
    Ask,
    Change,
    Command,
    Filing,
    Measure,
    Reading,
)

__all__ = [
    "IN_PARTS",
    "Answer",
    "Ask",
    "Change",
    "Command",
    "Filing",
    "Measure",
    "Reading",
]
