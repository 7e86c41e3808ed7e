"""Which floor a command speaks of: the slab that was surveyed, or the one that lies open.

Until the pour is finished they are the same. From then on what is read, tied, checked or asked
about readings is of the finished floor; what was worked out of the slab (tally, order, cut list,
warnings) stays the slab's. Each command says it of itself (``SPEAKS_OF``).
"""

from __future__ import annotations

from assistant.job import Job, being_read
from grammar.commands import Command
from grammar.commands.kinds import WHOLE_JOB


def floor_meant(job: Job, command: Command) -> Job:
    """The job as it shows the floor that a command speaks of."""
    if command.SPEAKS_OF == WHOLE_JOB or getattr(command, "of", None) == "slab":
        return job
    return being_read(job)
