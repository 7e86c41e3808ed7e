"""One number as a reply."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.errors import Refusal
from assistant.floor.zones import cards_of, one_card
from assistant.job import Job
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.reply.replies import LimitWarning, Reply


def figure_reply(
    name: str,
    value: float | str | None,
    unit: str,
    shown: str,
    spoken: str,
    *details: str,
    warnings: Sequence[LimitWarning] = (),
) -> Reply:
    """
    The reply for one number.

    Parameters
    ----------
    name, value, unit
        For programs, as ``data.answer``.
    shown, spoken
        The sentence that is the answer, to read and to say.
    """
    data = {"answer": {"id": name, "value": value, "unit": unit}}
    return Reply(shown, spoken, details, warnings=tuple(warnings), data=data)


def card_needed(job: Job, what: str) -> Card:
    """The product card; a refusal that names what it is needed for where none was chosen."""
    cards = cards_of(job)
    if len(cards) > 1:
        names = wording.join_names([card.name for card in cards])
        raise Refusal(
            f"{what} is on each product's card, and several are poured here ({names}). Ask of one "
            f"zone: tally {next(iter(job.layout.zones))}.",
            spoken="Several products are poured. Ask of one zone.",
        )
    card = one_card(job)
    if card is None:
        raise Refusal(
            f"{what} is on the product's card: product NAME.", spoken="The product first."
        )
    return card


def still_needed(what: str, parts: Sequence[tuple[str, bool]]) -> Refusal:
    """That a number takes more than the job has: names and whether each is there."""
    lacking = [name for name, there in parts if not there]
    needed = wording.join_names(lacking) or "a reading inside the room"
    return Refusal(f"{what} takes {needed}.", spoken=f"That takes {needed}.")
