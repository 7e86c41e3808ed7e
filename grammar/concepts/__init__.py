"""
What words are about: a table of concepts, each with the words that people use for it.

A row of the phrase table says in these concepts what it is about (``grammar/frame_table/``), so
that a line which nobody listed is known by what it says, in whatever words and order. Words are
held against each other by their roots; what stands joined by "_" is several words that follow each
other, with up to two others between.
"""

from __future__ import annotations

from grammar.concepts import asking, doing, finish, floor, material, pour, proof, survey, talk

__all__ = ["CONCEPTS"]

CONCEPTS: dict[str, str] = {
    **asking.CONCEPTS,
    **material.CONCEPTS,
    **survey.CONCEPTS,
    **floor.CONCEPTS,
    **finish.CONCEPTS,
    **doing.CONCEPTS,
    **pour.CONCEPTS,
    **proof.CONCEPTS,
    **talk.CONCEPTS,
}
"""A concept -> the words that people use for it; a word may be said for several."""
