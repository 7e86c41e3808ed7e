"""Files for others are written by the conversation, where there is a file to put them beside."""

from __future__ import annotations

from assistant.answers.jobs import no_file
from assistant.answers.parts import Answerer
from grammar.commands import Command
from grammar.commands.handover import DrawPicture, ExportJob, WriteReport

ANSWERS: dict[type[Command], Answerer] = {
    ExportJob: no_file,
    DrawPicture: no_file,
    WriteReport: no_file,
}
