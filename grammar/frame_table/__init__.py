"""
What each row of the phrase table is about, in concepts (``grammar/concepts/``): its frames.

Each matter has its own module, named as in ``grammar/phrases/``, and a row is named by its
template. All concepts of a frame have to be evoked by a line, by words of their own: ``a/b`` is
either, ``~c`` may be said too, ``!d`` says that something else is meant. A term that is no concept
is the word itself. Which values a row needs is not repeated here; the gaps of its template say so.
"""

from __future__ import annotations

from grammar.frame_table import (
    depths,
    doors,
    figures,
    finish,
    flatness,
    guide,
    handover,
    jobs,
    material,
    notes,
    overview,
    pour,
    proof,
    readings,
    record,
    room,
    set_ups,
    site,
    talk,
    things,
    walk,
    zones,
)

__all__ = ["FRAMES"]

FRAMES: dict[str, tuple[str, ...]] = {
    **readings.FRAMES,
    **walk.FRAMES,
    **room.FRAMES,
    **things.FRAMES,
    **material.FRAMES,
    **finish.FRAMES,
    **doors.FRAMES,
    **flatness.FRAMES,
    **zones.FRAMES,
    **depths.FRAMES,
    **overview.FRAMES,
    **figures.FRAMES,
    **set_ups.FRAMES,
    **pour.FRAMES,
    **proof.FRAMES,
    **site.FRAMES,
    **guide.FRAMES,
    **notes.FRAMES,
    **jobs.FRAMES,
    **handover.FRAMES,
    **record.FRAMES,
    **talk.FRAMES,
}
