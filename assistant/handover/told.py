"""What became of the files, as a reply."""

from __future__ import annotations

from assistant.handover.files import Written
from assistant.reply import wording
from assistant.reply.replies import Reply


def files_written_reply(written: Written) -> Reply:
    """The files by their names, and where they are."""
    names = [path.name for path in written.paths]
    folder = written.paths[0].parent.resolve()
    if not written.new:
        headline = f"{wording.join_names(names, 8)}: there already, just the same."
        spoken = "There already, just the same."
    else:
        headline = f"Written: {wording.join_names(names, 8)}."
        spoken = f"{wording.spoken_count(len(names), 'file')} written."
    return Reply(headline, spoken, (f"In {folder}",),
                 data={"files": [str(path.resolve()) for path in written.paths]})  # fmt: skip
