"""Files of the job for others."""

from __future__ import annotations

from grammar.commands.kinds import Filing
from grammar.frozen import frozen


@frozen
class ExportJob(Filing):
    """Write the job in every format that other programs open."""


@frozen
class DrawPicture(Filing):
    """Draw the floor with its depths into a file."""


@frozen
class WriteReport(Filing):
    """Write the job as a page, and as a PDF where that can be."""
