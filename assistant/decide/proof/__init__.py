"""What proves a floor: its second survey, lines of heights, gaps and defects."""

from __future__ import annotations

from assistant.decide.parts import Decider
from assistant.decide.proof import findings, lines, mending
from grammar.commands import Change

DECIDERS: dict[type[Change], Decider] = {
    **lines.DECIDERS,
    **findings.DECIDERS,
    **mending.DECIDERS,
}
