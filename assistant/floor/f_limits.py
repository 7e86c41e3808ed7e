"""The floor against F-numbers that a specification asks for."""

from __future__ import annotations

from dataclasses import replace

from assistant.floor.f_section import SPACING, section_of
from assistant.floor.in_doubt import doubtful_lines
from assistant.floor.late_numpy import np
from assistant.floor.limit_check import LimitCheck, checked, unless_in_doubt
from assistant.job import Job
from assistant.limits.specs import Spec, SpecLimit, formula_row
from assistant.reply import wording


def f_of_section(job: Job, spec: Spec, limit: SpecLimit) -> LimitCheck:
    """The least F-number that the floor as a whole is to have."""
    from assistant.flatness.f_numbers import f_number, noise_of
    from assistant.flatness.verdicts import f_verdict

    assert limit.limit is not None
    least, row, section = float(limit.limit), formula_row(), section_of(job)
    flatness = limit.test == "ff"
    value = section.ff if flatness else section.fl
    test = "FF at least" if flatness else "FL at least"
    if value is None:
        tells = f"lines read every {SPACING[job.reading_unit]}, 12 readings or more on each"
        return checked(spec, test, None, None, least, None, "", tells, section.why, "")
    spreads = [line.q if flatness else line.z for _, line in section.lines]
    constant = row.ff_mm if flatness else row.fl_mm
    said, (low, high) = f_verdict(spreads, constant, least, section.sd_mm, flatness=flatness)
    met, tells = said.met, ""
    if met is None and low < least <= high:
        tells = (
            f"a finer instrument: readings like these leave {test[:2]} between "
            f"{wording.figure(low, 0)} and {whole_f(high)}"
        )
    elif met is None:
        noise = noise_of(section.sd_mm)[0 if flatness else 1]
        plane = whole_f(f_number(constant, 3 * noise))
        tells = (
            f"a finer instrument: by errors of such readings alone a plane has {test[:2]} {plane}"
        )
    elif not section.supported:
        why = "; ".join(f"{each[0].lower()}{each[1:].rstrip('.')}" for each in section.why)
        met, tells = None, f"lines by the standard's rules, which these are not: {why}"
    where = wording.counted(len(section.lines), "line")
    notes = (f"{row.source[0].upper()}{row.source[1:]}.",)
    found = checked(spec, test, met, value, least, None, where, tells, notes, "")
    return unless_in_doubt(found, (), doubtful_lines(job))


def f_of_any_part(job: Job, spec: Spec, limit: SpecLimit) -> LimitCheck:
    """
    The least F-number that any part of a floor may have, as its specification bounds the parts.

    Where they lie nobody has said, so no line and no section shows that it is reached. The floor as
    a whole lies between its parts, though: where it does not reach it, neither does one of them.
    """
    flatness = limit.test == "ff local"
    name = "FF" if flatness else "FL"
    whole = f_of_section(job, spec, replace(limit, test="ff" if flatness else "fl"))
    test = f"{name} of any part at least"
    found = replace(whole, id=f"{spec.name}: {test}", test=test)
    lines = section_of(job).lines
    if found.met is False or found.value is None or not lines:
        return found
    number, worst = min((line.ff if flatness else line.fl, line_id) for line_id, line in lines)
    tells = (
        f"the lines of each part by themselves, as the specification bounds it; {worst} alone has "
        f"{name} {whole_f(number)}"
    )
    return replace(found, met=None, value=number, where=worst, tells=tells)


def whole_f(number: float) -> str:
    """An F-number as it is printed, whole; one that has no bound in words."""
    return "no bound" if np.isinf(number) else str(int(number + 0.5))
