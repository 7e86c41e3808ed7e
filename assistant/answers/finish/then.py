"""What supposed limits of depth would come to: the best finish that there would be."""

from __future__ import annotations

from assistant.answers.parts import Moment
from assistant.errors import Refusal, SurveyError
from assistant.reply import wording

MOST_NAMED = 3
"""Most wishes named that stand against each other."""


def best_then(moment: Moment) -> tuple[str, ...]:
    """One line where limits of one's own are supposed; nothing where none are, or no floor is."""
    job = moment.after
    if job.own_limits == moment.before.own_limits:
        return ()
    # Loads numpy, which most what-ifs of a start need not wait for.
    from assistant.floor.constraints import best_level_of, rounded_mm, wish_words
    from assistant.levels.best_finish import Conflict

    try:
        wanted, found = best_level_of(job)
    except (Refusal, SurveyError):
        return ()
    if isinstance(found, Conflict):
        against = [wish_words(job, wanted, wish) for wish in found.members]
        return (f"No level finish would meet it: {wording.join_names(against, MOST_NAMED)}.",)
    height = wording.height(rounded_mm(found.height_m), moment.unit)
    return (f"The best finish would then be {height}.",)
