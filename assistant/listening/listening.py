"""Decides what to do about what was heard: take it, ask about it, or ask for it again.

All that a recogniser hears comes this way, from a microphone or from a recording.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

from assistant.conversation.conversation import Conversation
from assistant.conversation.either_or import Choice
from assistant.decide import resolve
from assistant.ears.hearing import Heard, Tier
from assistant.ears.lacking import Part, missing_part, with_a_unit
from assistant.errors import JournalError, Refusal
from assistant.job import Job
from assistant.listening.said_words import words_for
from assistant.listening.spoken_note import SpokenNote
from assistant.record.journal import utc_now
from assistant.record.misses import Miss
from assistant.reply.replies import Reply, Turn, as_sentences
from grammar import short_form
from grammar.commands import Answer, Change, Command, Reading
from grammar.commands.readings import CorrectReading, TakeReading
from grammar.commands.talk import SayAgain
from grammar.spoken import Spoken, plain_words

OFFERED = 2
"""Most choices named in a question; a third would not be remembered with a trowel in hand."""
WORTH_NAMING = 0.01
"""A choice less likely than this is not offered beside the likeliest; what was heard is then
read back for a yes or no. Higher does that more often, lower names what nobody said."""
CLEARLY = 0.25
"""A reading in a unit that the job does not use is named beside the likeliest from here on. Higher
offers inches less often where nobody said them. Of 129 readings in millimetres that were asked
about on the tuning half of the speech benchmark, one had such a rival above 0.01, at 0.09, and
none of them was what was said."""
QUIET_AGAIN_DB = 4.0
"""dB above the level where asking began from which it is quiet again. Smaller would say "it is
loud" with every gust of the mixer."""

CUT_OFF = "Only a part of that was heard"
OVER_MOUTH = "I was speaking, so the beginning of that was not heard"
AFTER_MOUTH = "That began so soon after I spoke that its beginning may be missing."
NO_PHRASE = "Not understood"
MISSING: dict[Part, tuple[str, str]] = {
    "letter": ("Say the letter, too.", "No letter was heard before the row."),
    "row": ("Say the row, too.", "No row was heard after the letter."),
    "sign": (
        "Say plus or minus before the number.",
        "No plus or minus was heard. Aloud, a side is said before the number, with one of these.",
    ),
    "number": ("Say the number, too.", "No number was heard after plus or minus."),
}
"""Which part of a reading was not heard -> what is said, and shown."""
LOUD = "It is loud: I'll ask about each reading."

Beginning = Literal["heard", "doubtful", "missed", "cut"]
"""Whether an utterance's beginning was heard: yes; perhaps not, as it began right after a reply;
no, as it began during a reply or while sound was lost."""

Weigh = Callable[[Job, str, Sequence[tuple[Reading, float]]], Sequence[float] | None]
"""Gives how likely each of some readings at a point is, by sound and by the floor around."""
KeepMiss = Callable[[Miss], None]


@dataclass(frozen=True, slots=True)
class Taken:
    """The outcome of one utterance."""

    heard: Heard
    tier: Tier
    """What was done about it; may be more careful than the recogniser proposed."""
    turn: Turn | None
    """None where nobody spoke."""


@dataclass(frozen=True, slots=True)
class Prudence:
    """When to ask although the recogniser is sure."""

    ask_below_db: float | None = None
    """Speech over noise under which every reading is asked about; None to trust any."""

    def is_loud(self, heard: Heard) -> bool:
        """Whether it is too loud to trust a reading heard once."""
        limit = self.ask_below_db
        return limit is not None and heard.snr_db is not None and heard.snr_db < limit


class Listening:
    """
    Hands what was heard to a conversation.

    Parameters
    ----------
    conversation : Conversation
    prudence : Prudence
    weigh : callable, optional
        Puts two readings of one point in the order they are offered in. It never makes
        an unsure one sure: a real step in the slab must not be talked away.
    keep_miss : callable, optional
        Keeps what was not understood at once.
    clock : callable
        The time of a miss, with its zone.
    spoken : Spoken, optional
        How numbers and names are said, for the questions.
    """

    def __init__(
        self,
        conversation: Conversation,
        prudence: Prudence | None = None,
        weigh: Weigh | None = None,
        keep_miss: KeepMiss | None = None,
        clock: Callable[[], datetime] = utc_now,
        spoken: Spoken | None = None,
    ) -> None:
        self._conversation = conversation
        self._spoken = spoken
        self._words = spoken or Spoken()
        self._prudence = prudence or Prudence()
        self._weigh = weigh
        self._keep_miss = keep_miss
        self._clock = clock
        self._told_of_noise = False
        self.note = SpokenNote(conversation.hear)
        """The note that is being said, if any."""

    def take(self, heard: Heard, *, whole: bool = True, beginning: Beginning = "heard") -> Taken:
        """
        Do what follows from an utterance.

        Parameters
        ----------
        heard : Heard
        whole : bool
            False where its first or last words may be missing: then it is only shown, for
            a number cut in two is another number.
        beginning : Beginning
            One that may be missing makes a change asked about that could be the rest of
            something longer; one that is missing leaves it not whole.
        """
        whole = whole and beginning in ("heard", "doubtful")
        if heard.tier == "none" and whole:
            return Taken(heard, "none", None)
        if (noted := self.note.take(heard, whole=whole)) is not None:
            return Taken(heard, "sure", noted)
        if heard.text and (heard.tier != "sure" or not whole):
            self._keep(heard)
        loud, why = self._is_loud(heard)
        a_rest = beginning == "doubtful" and may_be_a_rest(heard)
        tier = tier_of(
            heard, whole=whole, loud=loud or a_rest, repeats=self._conversation.would_settle
        )
        if tier == "again":
            return Taken(heard, tier, self._once_more(heard, _why_not(beginning, whole=whole)))
        choices = choices_to_offer(heard, self._spoken, self.reading_unit)
        if tier == "sure":
            taken = self._conversation.hear_command([one for one, _ in choices], heard.text)
            turn, tier = taken.turn, "ask" if taken.asked else "sure"
        else:
            turn = self._conversation.hear_either(self._in_order(choices), heard.text)
        if tier == "ask":
            self._told_of_noise = self._told_of_noise or loud
            turn = with_reason(turn, why)
            if a_rest and heard.tier == "sure":
                turn = _with_detail(turn, AFTER_MOUTH)
        return Taken(heard, tier, turn)

    @property
    def expected(self) -> Mapping[str, Command]:
        """What may answer the waiting question."""
        return self._conversation.expected

    @property
    def reading_unit(self) -> str:
        """The unit of the job's readings."""
        return self._conversation.job.reading_unit

    # --- how careful to be ------------------------------------------------------------

    def _is_loud(self, heard: Heard) -> tuple[bool, str]:
        """Whether it is too loud to trust a reading, and the reason, given once."""
        limit = self._prudence.ask_below_db
        if not self._prudence.is_loud(heard):
            quiet = None if limit is None else limit + QUIET_AGAIN_DB
            if quiet is not None and heard.snr_db is not None and heard.snr_db >= quiet:
                self._told_of_noise = False
            return False, ""
        return True, "" if self._told_of_noise else LOUD

    def _in_order(self, named: Sequence[tuple[Choice, float]]) -> list[Choice]:
        """The choices in the order they are named in; the floor around decides it."""
        choices = [choice for choice, _ in named]
        job = self._conversation.job
        pair = _readings_at_one_point(job, choices)
        if self._weigh is not None and pair is not None:
            point, readings = pair
            chances = [chance for _, chance in named]
            weighed = self._weigh(job, point, list(zip(readings, chances, strict=True)))
            if weighed is not None and weighed[1] > weighed[0]:
                choices.reverse()
        return choices

    # --- what could not be taken -----------------------------------------------------------

    def _once_more(self, heard: Heard, why: str) -> Turn:
        """Ask for it again; what was heard is shown, and a waiting question stays."""
        pending = self._conversation.pending
        likeliest = heard.command or (heard.alternatives[0].command if heard.alternatives else None)
        form = short_form(likeliest) if likeliest is not None else None
        details = (f"Perhaps: {form}",) if form and may_be_a_command(heard) else ()
        words = f"“{heard.text}”" if heard.text else "no words"
        spoken = "I was speaking. Say that again." if why == OVER_MOUTH else "Say again."
        if why == NO_PHRASE and (missing := self._missing(heard.text)):
            spoken, told = missing
            details = (told,)
        reply = Reply(
            f"{why}; heard {words}. Say it again; nothing recorded.",
            (spoken, pending.spoken) if pending is not None else spoken,
            details,
            ask=pending.text if pending is not None else None,
            data={"say_again": {"heard": heard.text, "perhaps": form}},
        )
        name = type(likeliest).__name__ if likeliest is not None else None
        return Turn(heard.text, False, name, form, (), reply)

    def _missing(self, text: str) -> tuple[str, str] | None:
        """What to say and to show about the missing part; never a value that nobody said."""
        wanted = with_a_unit(text, self.reading_unit)
        if wanted is not None and not _goes_without_saying(wanted, self.reading_unit):
            words = words_for(wanted, self._words) or "inches"
            return "Say the unit, too.", f"No unit was heard. Say: {words}."
        part = missing_part(text)
        return None if part is None else MISSING[part]

    def _keep(self, heard: Heard) -> None:
        if self._keep_miss is None:
            return
        try:
            self._keep_miss(_miss_of(heard, self._clock()))
        except JournalError:
            # Only the log of misses: what cannot be written shows with the next reading.
            return


def tier_of(
    heard: Heard,
    *,
    whole: bool = True,
    loud: bool = False,
    repeats: Callable[[Command], bool] = lambda _: False,
) -> Tier:
    """
    How far an utterance may be trusted: never more than the recogniser proposes.

    Parameters
    ----------
    heard : Heard
    whole : bool
        False where its first or last words may be missing.
    loud : bool
        Too loud to trust one hearing of a reading.
    repeats : callable
        Whether a command repeats what was asked about, so that it was heard twice.
    """
    if heard.tier == "none" and whole:
        return "none"
    named = choices_to_offer(heard)
    if heard.tier in ("again", "none") or not whole or not named:
        return "again"
    likeliest = named[0][0].command
    doubted = loud and isinstance(likeliest, Change) and not repeats(likeliest)
    if heard.tier == "sure" and not doubted:
        return "sure"
    if any(isinstance(choice.command, Answer | SayAgain) for choice, _ in named):
        # An unsure "confirm" must not become a question about a question.
        return "again"
    return "ask"


def may_be_a_rest(heard: Heard) -> bool:
    """
    Whether the words can be the end of a longer sentence: "minus eighteen millimetres".

    A reading that names its point is nearly always all there is.
    """
    return not (isinstance(heard.command, TakeReading) and heard.command.point is not None)


def may_be_a_command(heard: Heard) -> bool:
    """
    Whether a guess is worth showing.

    Where an engine thinks that none of our commands was said, its nearest is hardly the one.
    """
    return heard.tier != "again" or heard.fit is None


def _why_not(beginning: Beginning, *, whole: bool) -> str:
    if beginning == "missed":
        return OVER_MOUTH
    return NO_PHRASE if whole else CUT_OFF


def _with_detail(turn: Turn, told: str) -> Turn:
    return replace(turn, reply=replace(turn.reply, details=(*turn.reply.details, told)))


def with_reason(turn: Turn, why: str) -> Turn:
    """A turn whose reply first says why it asks."""
    if not why:
        return turn
    reply = turn.reply
    return replace(
        turn,
        reply=replace(
            reply,
            spoken=(why, *as_sentences(reply.spoken or reply.headline)),
            details=(*reply.details, why),
        ),
    )


def choices_to_offer(
    heard: Heard, spoken: Spoken | None = None, unit: str | None = None
) -> list[tuple[Choice, float]]:
    """What to name in a question, with how likely it is; the likeliest first.

    In our own words, not the recogniser's: it spells the same word this way and that. A reading
    in another unit than the job's, `unit`, and the likeliest's is named second only where it was
    clearly heard.
    """
    found = [
        (other.command, other.words, other.probability)
        for other in heard.alternatives
        if other.command is not None
    ]
    # The unit of the likeliest was heard, whatever the job uses.
    used = {unit, None, *(_unit_of(one[0]) for one in found[:1])}
    rivals = [
        one
        for one in found[1:]
        if one[2] >= (WORTH_NAMING if unit is None or _unit_of(one[0]) in used else CLEARLY)
    ]
    named = found[:1] + rivals[: OFFERED - 1]
    spoken = spoken or Spoken()
    return [
        (Choice(command, words_for(command, spoken) or " ".join(plain_words(words))), chance)
        for command, words, chance in named
    ]


def _goes_without_saying(wanted: TakeReading | CorrectReading, unit: str) -> bool:
    """Whether the ears take a reading without its unit: see :func:`hear_readings_in`."""
    return wanted.reading.unit == unit == "mm"


def _unit_of(command: Command) -> str | None:
    reading = getattr(command, "reading", None)
    return reading.unit if isinstance(reading, Reading) else None


def _readings_at_one_point(job: Job, choices: Sequence[Choice]) -> tuple[str, list[Reading]] | None:
    """Two readings that differ in nothing but their height; None where it is anything else."""
    found: list[tuple[type[Command], str, Reading]] = []
    for choice in choices:
        try:
            command = resolve(job, choice.command)
        except Refusal:
            return None
        if not isinstance(command, TakeReading | CorrectReading) or command.point is None:
            return None
        found.append((type(command), command.point, command.reading))
    if len(found) != OFFERED or found[0][:2] != found[1][:2]:
        return None
    return found[0][1], [reading for _, _, reading in found]


def _miss_of(heard: Heard, time: datetime) -> Miss:
    """What to keep of an utterance."""
    forms = tuple(other.canonical for other in heard.alternatives if other.canonical)
    return Miss(time, heard.text, heard.tier, forms, heard.snr_db)
