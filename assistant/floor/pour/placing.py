"""How fast the crew places what it mixes, as far as it was said."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.events.kinds import Setting
from assistant.events.pour import BatchSet, BatchTimeSet, CrewSet, MixersSet, PumpSet
from assistant.job import Job
from assistant.pours.placing import bags_per_min
from grammar.frozen import frozen

Settings = Mapping[type[Setting], Setting]

MOST_IN_A_BARREL = 2
"""Bags that go into one barrel at most; one independent trade article."""


@frozen
class Placing:
    """How fast bags are placed."""

    bags_per_min: float
    batch_bags: int
    """In one batch; one bag with a pump."""
    mixers: int
    """That run at once; none with a pump."""

    @property
    def batch_min(self) -> float:
        """Minutes from one batch to the next."""
        return self.batch_bags / self.bags_per_min


def placing_of(job: Job) -> Placing | None:
    """How fast bags are placed; None until enough was said."""
    return placing_by(job.settings)


def placing_by(settings: Settings) -> Placing | None:
    """How fast bags are placed with the mixers, or the pump, that were last set."""
    pump, mixers = settings.get(PumpSet), settings.get(MixersSet)
    if isinstance(pump, PumpSet) and pump.bags_per_hour is not None:
        return Placing(pump.bags_per_hour / 60, 1, 0)
    batch, time = settings.get(BatchSet), settings.get(BatchTimeSet)
    if mixers is None or not isinstance(batch, BatchSet) or not isinstance(time, BatchTimeSet):
        return None
    running = _running(settings)
    rate = bags_per_min(running, batch.bags, float(time.minutes))
    return Placing(rate, batch.bags, running)


def mixers_running(job: Job) -> int:
    """Mixers that somebody runs: one hand of the crew spreads, unless there is only one."""
    return _running(job.settings)


def _running(settings: Settings) -> int:
    mixers, crew = settings.get(MixersSet), settings.get(CrewSet)
    assert crew is None or isinstance(crew, CrewSet)
    assert mixers is None or isinstance(mixers, MixersSet)
    count = mixers.mixers if mixers else 0
    return count if crew is None else max(min(count, crew.people - 1), 1)


def placing_lacks(job: Job) -> tuple[str, ...]:
    """What is still to be said of it, as it would be said."""
    told = {
        "mixers 2": job.setting(MixersSet),
        "batches of 2 bags": job.setting(BatchSet),
        "minutes per batch 6": job.setting(BatchTimeSet),
    }
    return tuple(line for line, said in told.items() if said is None)


def is_alone(job: Job) -> bool:
    """Whether one person mixes and pours."""
    crew = job.setting(CrewSet)
    return crew is not None and crew.people == 1
