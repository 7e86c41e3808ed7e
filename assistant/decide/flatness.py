"""What the floor is held to: a named specification, or a gap in somebody's own words."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World, length_of
from assistant.errors import Refusal
from assistant.events.flatness import OwnSpecSet, ScanImported, SpecChosen
from assistant.job import Job, being_read
from assistant.limits.specs import named_apart, specs, specs_named
from assistant.reply import wording
from assistant.units.lengths import exact_mm
from grammar.commands import Change, Measure
from grammar.commands.flatness import ChooseSpec, DropScan, DropSpecs, SetOwnSpec
from grammar.example import Example

SHORTEST_EDGE_MM = 200
LONGEST_EDGE_MM = 10_000
"""Straightedges, and strings stretched for one. Our own choice, no source."""


def choose_spec(_job: Job, command: ChooseSpec, _world: World) -> Decision:
    found = specs_named(command.name)
    if len(found) == 1:
        return Decision((SpecChosen(found[0].name),))
    if found:
        which = ", ".join(spec.name for spec in found)
        raise Refusal(
            f"Several specs are called {command.name}: {which}. Say which: spec {found[0].name}.",
            spoken="Several specs have that name. Say which.",
        )
    if aside := named_apart(command.name):
        raise Refusal(
            " ".join(each.in_words for each in aside), spoken="A floor is not held to that here."
        )
    raise Refusal(
        f"There is no spec {command.name}. There are {', '.join(spec.name for spec in specs())}; "
        "or in your own words: ",
        Example("spec 3 mm under 2 m", "spec 1/8 in under 10 ft"),
        ".",
        spoken="No spec has that name.",
    )


def set_own_spec(_job: Job, command: SetOwnSpec, _world: World) -> Decision:
    length_of(command.gap, "The gap")
    if exact_mm(command.gap) * 4 >= exact_mm(command.length):
        raise Refusal(
            f"A gap of {wording.as_said(command.gap)} under {wording.as_said(command.length)} "
            "limits nothing. The gap first, then the straightedge: ",
            Example("spec 3 mm under 2 m", "spec 1/8 in under 10 ft"),
            ".",
            spoken="The gap first, then the straightedge.",
        )
    check_edge(command.length)
    return Decision((OwnSpecSet(command.gap, command.length),))


def check_edge(length: Measure) -> None:
    """Refuse what no straightedge is long."""
    if not SHORTEST_EDGE_MM <= exact_mm(length) <= LONGEST_EDGE_MM:
        raise Refusal(
            f"A straightedge is 200 mm to 10 m long, not {wording.as_said(length)}: ",
            Example("straightedge 2 m", "straightedge 10 ft"),
            ".",
            spoken="No straightedge is that long.",
        )


def drop_specs(job: Job, _command: DropSpecs, _world: World) -> Decision:
    chosen, own = job.setting(SpecChosen), job.setting(OwnSpecSet)
    events: tuple[SpecChosen | OwnSpecSet, ...] = ()
    if chosen is not None and chosen.spec is not None:
        events += (SpecChosen(None),)
    if own is not None and own.gap is not None:
        events += (OwnSpecSet(None, None),)
    if not events:
        raise Refusal(
            "The floor is held to nothing yet: specs lists what there is.",
            spoken="The floor is held to nothing yet.",
        )
    return Decision(events)


def drop_scan(job: Job, _command: DropScan, _world: World) -> Decision:
    finished = being_read(job).slab is not None
    if finished not in job.scans:
        raise Refusal(
            "There is no scan of the floor that lies open. At the shell: leadsman import FILE.",
            spoken=NO_SCAN,
        )
    return Decision((ScanImported(None, finished=finished),))


NO_SCAN = "There is no scan."

DECIDERS: dict[type[Change], Decider] = {
    ChooseSpec: choose_spec,
    SetOwnSpec: set_own_spec,
    DropSpecs: drop_specs,
    DropScan: drop_scan,
}
