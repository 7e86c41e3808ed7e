"""The floor against what it is held to: each limit met, not met, or open yet.

A verdict is about these readings and a named limit. It never says that a floor is good enough
for anything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.events.flatness import OwnSpecSet, SpecChosen
from assistant.floor.by_distance import ByDistance, neighbours_of, own_distance_of
from assistant.floor.depths import depths_of
from assistant.floor.f_limits import f_of_any_part, f_of_section
from assistant.floor.hand_gaps import HAND_SD_MM, laid_by_hand
from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.floor.in_doubt import doubtful_lines, doubtful_points
from assistant.floor.late_numpy import np
from assistant.floor.limit_check import LimitCheck, checked, unless_in_doubt
from assistant.floor.places_in_words import place_words
from assistant.floor.profiles import GRID, LINE, SCAN, Lines, lines_of, run_one_way
from assistant.job import Job
from assistant.limits.own_limits import SOURCE as OWN_SOURCE
from assistant.limits.specs import Spec, SpecLimit, specs_named
from assistant.reply import wording
from assistant.units.lengths import exact_mm
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.flatness.verdicts import LimitVerdict

FULL = 1e-6
OWN = "your own limit"


def held_to(job: Job) -> tuple[Spec, ...]:
    """What the floor is held to; one's own limit last."""
    chosen, own = job.setting(SpecChosen), job.setting(OwnSpecSet)
    found = list(specs_named(chosen.spec)[:1]) if chosen is not None and chosen.spec else []
    if own is not None and own.gap is not None and own.length is not None:
        gap, length = exact_mm(own.gap), exact_mm(own.length) / 1000
        words = f"{wording.as_said(own.gap)} under {wording.as_said(own.length)}"
        limit = SpecLimit("gap", length, gap)
        found.append(Spec(words, OWN, OWN_SOURCE, "", (limit,)))
    return tuple(found)


def found_of(job: Job, spec: Spec) -> tuple[LimitCheck, ...]:
    """Each limit of a specification against the readings of the floor that the job shows."""
    return tuple(_TESTS[limit.test](job, spec, limit) for limit in spec.limits)


def overall_verdict(found: Iterable[LimitCheck]) -> bool | None:
    """
    Whether all of it is met.

    Ways to try the same thing too: one of them may see what another passes over, so what is met
    by one is called met by that one, and the whole is open until the others have a verdict.
    """
    verdicts = [each.met for each in found]
    if False in verdicts:
        return False
    return True if verdicts and all(verdicts) else None


# --- a gap under a straightedge ---------------------------------------------------------


def _gap(job: Job, spec: Spec, limit: SpecLimit) -> LimitCheck:
    from assistant.flatness.straightedge import crest_mm, gaps_under, worst_gap
    from assistant.flatness.verdicts import hidden_share, places_in_reach, verdict

    assert limit.length_m is not None
    assert limit.limit is not None
    length, most = float(limit.length_m), float(limit.limit)
    edge = wording.distance(length, job.reading_unit)
    test = f"gap under {edge}"
    tried: list[_Tried] = []
    crest = 0.0
    # Each line more is one more on which readings may err to the same side.
    choices = sum(
        places_in_reach(gaps_under(each.along_m, each.heights_mm, length), most, 1.5 * each.sd_mm)
        for each in lines_of(job)
    )
    for lines in lines_of(job):
        worst = worst_gap(lines.along_m, lines.heights_mm, length)
        sd = lines.sd_mm * worst.noise
        said = verdict(
            worst.mm,
            most,
            sd,
            hidden_mm=most * hidden_share(lines.spacing_m, length, lines.averaged_m),
            choices=choices,
            whole=worst.edge_m >= length - FULL,
        )
        at = _places(job, lines, worst.line, worst.at_m, worst.between_m)
        # No gap where no three points lie under the edge is none that was looked for.
        blind = worst.mm == 0 and 2 * lines.spacing_m >= length
        tried.append(_Tried(lines, said, None if blind else worst.mm, most, sd, at, worst.edge_m))
        crest = max(crest, crest_mm(lines.along_m, lines.heights_mm, length))
    notes = []
    if limit.contact and tried and crest > max(each.value or 0.0 for each in tried):
        high = wording.length(crest, job.reading_unit)
        notes.append(
            f"A crest {high} high over {edge} reads 0 by {spec.name}: the edge rests on it alone."
        )
    return _with_hand(job, _worst_of(job, spec, test, most, tried, length, notes), length)


def _with_hand(job: Job, found: LimitCheck, length_m: float) -> LimitCheck:
    """The verdict with what an edge laid by hand says against it."""
    laid = None if found.met is False else laid_by_hand(job, found.limit, length_m)
    if laid is None:
        return found
    (gap, said), mm = laid, float(laid[0].mm)
    if said.met is None and ((found.value or 0.0) >= mm or (found.met and mm <= found.limit)):
        return found
    tells = found.tells or "readings, or the edge laid over the rest of the floor"
    if mm > found.limit:
        tells = f"the edge laid again at {gap.point}, read more finely"
    where = f"{gap.point}, laid by hand"
    tells = tells if said.met is None else ""
    return replace(found, met=said.met, value=mm, sd=HAND_SD_MM, where=where, tells=tells)


@frozen
class _Tried:
    """A test on lines of one kind and direction."""

    lines: Lines
    said: LimitVerdict
    value: float | None
    """None where the readings cannot show any."""
    limit: float
    sd: float
    at: tuple[str, ...]
    """The place of the gap, then the two places that the edge rests on."""
    edge_m: float
    wave_m: float | None = None
    """The wave of which the readings may hide a share; None for one as long as the edge."""


def _worst_of(
    job: Job,
    spec: Spec,
    test: str,
    limit: float,
    tried: list[_Tried],
    length_m: float,
    notes: list[str],
) -> LimitCheck:
    """The verdict on all lines together, and the place that decides it."""
    met = _together(tried, length_m)
    if not tried:
        tells = "three readings in a row, on the grid or along a line"
        return checked(spec, test, None, None, limit, None, "", tells, notes)
    told = [each for each in tried if each.said.met is met] or tried
    worst = max(told, key=lambda each: ((each.value or 0.0) - each.limit, each.value or 0.0))
    tells = "" if met is not None else _what_tells(job, worst, length_m)
    where = f"{worst.at[0]}, {worst.lines.direction}" if worst.value else worst.lines.direction
    if met:
        # What cannot tell, as a grid too wide for the edge, is no direction that was tried.
        notes = [*notes, *_how_far_met(job, [each.lines for each in told])]
    found = checked(spec, test, met, worst.value, worst.limit, worst.sd, where, tells, notes)
    return unless_in_doubt(found, doubtful_points(job), doubtful_lines(job))


def _how_far_met(job: Job, told: list[Lines]) -> list[str]:
    """What a verdict of met rests on, where that is less than the floor both ways."""
    notes = []
    if run_one_way(told):
        notes.append("Met in the one direction that was read; the other was not.")
    if all(lines.kind == LINE for lines in told):
        long = wording.distance(round(sum(lines.length_m for lines in told), 3), job.reading_unit)
        count = wording.counted(len(told), "line")
        notes.append(f"Met along {count}, {long} in all: of the floor beside it says nothing.")
    return notes


def _together(tried: list[_Tried], length_m: float) -> bool | None:
    """Not met anywhere is not met; met is what is met in every direction that an edge fits."""
    if any(each.said.met is False for each in tried):
        return False
    kinds = {each.lines.kind for each in tried}
    for kind in kinds:
        fits = [e for e in tried if e.lines.kind == kind and e.edge_m >= length_m - FULL]
        if fits and all(each.said.met for each in fits):
            return True
    return None


def _what_tells(job: Job, worst: _Tried, length_m: float) -> str:
    from assistant.flatness.verdicts import hidden_share, settled_by

    edge = wording.distance(length_m, job.reading_unit)
    wave_m = worst.wave_m or length_m
    wave = wording.distance(round(wave_m, 3), job.reading_unit)
    spacing = wording.distance(round(worst.lines.spacing_m, 3), job.reading_unit)
    if worst.edge_m < length_m - FULL:
        return f"readings in a line as long as {edge}"
    if worst.lines.kind == SCAN and settled_by(worst.said):
        return f"a finer scan near {worst.at[0]}, or a line read there"
    if settled_by(worst.said):
        times = worst.said.readings_each
        return f"{', '.join(dict.fromkeys(worst.at))} read {times} times each in all"
    if not length_m:
        if worst.lines.averaged_m:
            return "levels of points, as cells of a scan level out what lies within them"
        return _FINER
    hidden = hidden_share(worst.lines.spacing_m, wave_m, worst.lines.averaged_m)
    if hidden == np.inf:
        closer = wording.distance(_closer_m(job), job.reading_unit)
        return f"a line read every {closer}, as points {spacing} apart show little under {wave}"
    value = worst.value or 0.0
    if value <= worst.limit and value + hidden * worst.limit > worst.limit:
        share = wording.figure(100 * hidden, 0)
        return f"closer readings: {spacing} apart they miss up to {share} % of a wave of {wave}"
    return _FINER


_FINER = "a finer instrument: the limit is nearer than these readings can tell"


def _closer_m(job: Job) -> float:
    return 0.3048 if job.reading_unit == "in" else 0.3


def _places(
    job: Job, lines: Lines, line: int, at_m: float, between_m: tuple[float, float]
) -> tuple[str, ...]:
    """Where it is, then what is on either side."""
    return tuple(place_on(job, lines, line, each) for each in (at_m, *between_m))


def place_on(job: Job, lines: Lines, line: int, along_m: float) -> str:
    """A place on a line in words: its point, or how far along."""
    if lines.kind == GRID:
        nearest = int(np.argmin(np.abs(lines.along_m - along_m)))
        if abs(lines.along_m[nearest] - along_m) < FULL and lines.names[line][nearest]:
            return lines.names[line][nearest]
    x, y = (float(np.interp(along_m, lines.along_m, lines.places_m[line, :, k])) for k in (0, 1))
    if lines.kind == SCAN and np.isfinite(x):
        return place_words(job, x, y)
    return f"{lines.ids[line]} at {wording.distance(along_m, job.reading_unit)}"


# --- limits that grow with the distance ---------------------------------------------------


def _own_distance(job: Job, spec: Spec, limit: SpecLimit) -> LimitCheck:
    assert limit.length_m is not None
    assert limit.columns is not None
    longest, columns = float(limit.length_m), limit.columns

    def looked(lines: Lines, choices: int) -> ByDistance | None:
        return own_distance_of(lines, longest, columns, choices)

    return _by_distance(job, spec, "gap by own distance", looked, longest)


def _three_points(job: Job, spec: Spec, limit: SpecLimit) -> LimitCheck:
    assert limit.columns is not None
    columns = limit.columns

    def looked(lines: Lines, choices: int) -> ByDistance | None:
        return neighbours_of(lines, columns, choices)

    return _by_distance(job, spec, "level by neighbours", looked, 0.0)


def _by_distance(
    job: Job,
    spec: Spec,
    test: str,
    looked: Callable[[Lines, int], ByDistance | None],
    length_m: float,
) -> LimitCheck:
    tried = []
    choices = sum(int(np.isfinite(each.heights_mm).sum()) for each in lines_of(job))
    for lines in lines_of(job):
        by = looked(lines, choices)
        if by is None:
            continue
        found = by.found
        at = _places(job, lines, found.line, found.at_m, found.between_m)
        tried.append(
            _Tried(
                lines, by.said, found.mm, found.limit_mm, by.sd_mm, at, length_m, by.wave_m
            )
        )  # fmt: skip
    limit = max((each.limit for each in tried), default=0.0)
    return _worst_of(job, spec, test, limit, tried, length_m, [])


def _from_finish(job: Job, spec: Spec, limit: SpecLimit) -> LimitCheck:
    from assistant.flatness.verdicts import verdict

    assert limit.limit is not None
    most = float(limit.limit)
    off = {point: abs(float(depth)) for point, depth in depths_of(job).items()}
    if not off:
        return checked(spec, "off the finish", None, None, most, None, "", "readings")
    sds = survey_of(job).sd_mm
    point = max(off, key=lambda each: off[each])
    sd = sds.get(point, reading_sd_mm(job))
    choices = sum(1 for each in off.values() if each > most - 2 * sd)
    said = verdict(off[point], most, sd, choices=max(choices, 1))
    times = said.readings_each
    tells = "" if said.met is not None else f"{point} read {times} times in all"
    found = checked(spec, "off the finish", said.met, off[point], most, sd, point, tells)
    return unless_in_doubt(found, doubtful_points(job), ())


_TESTS: dict[str, Callable[[Job, Spec, SpecLimit], LimitCheck]] = {
    "gap": _gap,
    "own distance": _own_distance,
    "three points": _three_points,
    "ff": f_of_section,
    "fl": f_of_section,
    "ff local": f_of_any_part,
    "fl local": f_of_any_part,
    "from finish": _from_finish,
}
