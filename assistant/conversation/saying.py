"""Replies about the conversation itself: misunderstood lines, waiting and lapsed questions."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from assistant.conversation.instead import LastReading
from assistant.decide import Question
from assistant.decide.reading_repeated import ReadingAsked
from assistant.errors import JournalError, Refusal
from assistant.job.clocks import Ringing
from assistant.record.news import FileNews
from assistant.reply import wording
from assistant.reply.replies import Reply
from assistant.reply.times import shown_away, spoken_away
from assistant.units.kinds import what_kind
from grammar import GrammarError, Misunderstood, short_form, understand
from grammar.commands.proof import TakeLineValues

LENGTHS = "mm, cm, m, in or ft"


def refusal_reply(why: Exception, unit: str) -> Reply:
    """Why the job cannot take it, and what it would take, in the units of its readings."""
    if isinstance(why, Refusal):
        told, spoken = why.worded(unit), why.spoken
    else:
        told, spoken = str(why), "That does not work out. The screen says why."
    return Reply(told, spoken, data={"refused": told})


def explain_misunderstood(
    miss: Misunderstood, unit: str = "mm", question: str = "", nearest: str | None = None
) -> Reply:
    """
    Says where a line stopped making sense, and what would have worked.

    ``question`` asks for what is missing, where that is all that is wrong; ``nearest`` is what
    was most likely meant and cannot be offered now.
    """
    # What is known by its look tells more than that a word in it is no unit of this.
    told = question or (None if miss.is_known else _unit_explained(miss)) or miss.explain(unit)
    return Reply(
        f"{told} Nearest: {nearest}" if nearest else told,
        question or _explained_aloud(miss),
        data={
            "misunderstood": {
                "position": miss.position,
                "found": miss.found,
                "accepted": list(miss.accepted),
                "nearest": nearest,
            }
        },
    )


LONGEST_FOUND = 20
"""Characters of a word that is said back; more is no word."""


def _explained_aloud(miss: Misunderstood) -> str:
    """That it was not understood, and the word where it stopped making sense."""
    if miss.at_end:
        return "That is not finished."
    if miss.found.isalpha() and len(miss.found) <= LONGEST_FOUND:
        return f"Not understood: {miss.found}."
    return "Not understood."


def _unit_explained(miss: Misunderstood) -> str | None:
    """The explanation for a unit of the wrong kind: "degrees" is no length."""
    kind = what_kind(miss.found)
    if kind is None or kind == "a length":
        return None
    if kind == "a length not used here":
        told = f"“{miss.found}” is no unit for this"
    else:
        told = f"“{miss.found}” is {kind}, not a length"
    return f"{told}. Lengths are in {LENGTHS}.{_without_it(miss)} Nothing recorded."


def _without_it(miss: Misunderstood) -> str:
    """The way on, where the line is whole but for the unit: with the numbers that were said."""
    end = miss.position + len(miss.found)
    line = f"{miss.text[: miss.position]} {miss.text[end:]}"
    try:
        meant = understand(line)
        return f" Without that word: {short_form(meant[0])}." if len(meant) == 1 else ""
    except (GrammarError, ValueError):
        return ""


def too_long(characters: int, longest: int) -> Reply:
    """The line is longer than anyone speaks in one breath."""
    return Reply(
        f"That line has {characters:,} characters; nothing longer than {longest:,} is read. "
        "One thing a line, please. Nothing recorded.",
        spoken="That was too long. One thing at a time, please. Nothing recorded.",
    )


def nothing_recorded(fault: JournalError) -> Reply:
    """Says that the disk could not be written, so that nothing was recorded."""
    told = str(fault)
    if not told.startswith("Nothing was recorded"):
        told = f"Nothing was recorded: {told}"
    return Reply(
        told,
        spoken="Nothing was recorded. The job file could not be written.",
        details=("The job stands as it was.",),
    )


def fault_reply(fault: Exception, on_disk: Sequence[str], where: str) -> Reply:
    """Something is wrong with the program, not with what was said."""
    kept = "It was recorded and is on disk" if on_disk else "Nothing was recorded by it"
    return Reply(
        f"The program made a mistake over that line. {kept}; everything before it is safe.",
        details=(f"{type(fault).__name__}; noted in {where}",),
        spoken=f"The program made a mistake. {kept}.",
    )


def still_asked(question: Question) -> Reply:
    """The waiting question once more."""
    return Reply(question.text, question.spoken, ask=question.text, data=dict(question.data))


def whose_value(question: Question) -> Reply:
    """A value without a point while the reading of one is open: asks whose value it is."""
    if isinstance(question.command, TakeLineValues):
        return _line_waits(question.command)
    about = question_subject(question)
    if not isinstance(question.command, ReadingAsked):
        return _of_which_look(short_form(question.command))
    spoken = wording.spoken_name(about) if len(about) < 5 else about
    return Reply(
        f"Which point is that for? {about} is still open, so nothing was recorded. Say the point "
        f"with its value; for {about} also confirm, or cancel that.",
        f"Which point? {spoken} is still open. Say the point with its value.",
        data={"open": about},
    )


def _of_which_look(about: str) -> Reply:
    """A value alone while a look at a benchmark, a zero or a tie is open."""
    return Reply(
        f"Which is that for? “{about}” is still open, so nothing was recorded. Say the point with "
        "its value, or the whole of what is open with what it shows now; also confirm, or cancel "
        "that.",
        "Which is that for? The last look is still open. Say the whole line.",
        data={"open": about},
    )


def _line_waits(asked: TakeLineValues) -> Reply:
    """A value for a line while one before it is asked about: neither is taken."""
    name = f"line {asked.line}"
    return Reply(
        f"What was said of {name} is still asked about, so nothing was recorded of it. Answer "
        f"that first (confirm, or cancel that), or say the values anew: {name} values -1, 0.",
        f"Line {wording.spoken_number(asked.line or 0)} still waits. Confirm, or cancel that.",
        data={"open": name},
    )


def no_such_reading(last: LastReading | None) -> Reply:
    """There is no last reading to put right, or it is another one than was said."""
    if last is None:
        return Reply("No reading was taken yet; nothing recorded.")
    height = f"{last.point}, {wording.said_height(last.reading)}"
    return Reply(
        f"The last reading was {height}. To put another right, name its point.",
        "The last reading was another one. Name the point.",
    )


def left_alone(question: Question) -> Reply:
    """Says that what was asked about is left as it was."""
    about = question_subject(question)
    return Reply(f"{about}: left as it was, nothing recorded.")


def undone_before_it_was_done(question: Question) -> Reply:
    """The thing said last, which undo takes back, is what was asked about and not yet recorded."""
    left = left_alone(question)
    once_more = "To take back what was recorded before it: undo once more."
    return Reply(f"{left.headline} {once_more}", left.headline)


def nobody_answered(question: Question) -> Reply:
    """The question lapsed, as nobody answered yes or no."""
    about = question_subject(question)
    return Reply(
        f"{about}: no answer, so it is not done and nothing is recorded.",
        f"No answer. {wording.spoken_name(about)} not done.",
    )


def with_lapse(reply: Reply, lapsed: Question | None) -> Reply:
    """The reply with a note that a question was dropped unanswered."""
    if lapsed is None:
        return reply
    told = f"question about {question_subject(lapsed)} lapsed, nothing recorded for it"
    return reply.adding(f"(the {told})", spoken=f"The {told}.")


def with_news(reply: Reply, news: Sequence[FileNews]) -> Reply:
    """The reply with a message about the job file."""
    for each in news:
        reply = reply.adding(each.text, spoken=each.spoken, data=each.data)
    return reply


def at_opening(was_open: Reply | None, news: Sequence[FileNews]) -> Reply | None:
    """What to say when a job is opened, about a waiting question and the file."""
    if was_open is None and news:
        first, *news = news
        was_open = Reply(first.text, first.spoken, data=first.data)
    return with_news(was_open, news) if was_open is not None else None


def with_standing(was_open: Reply, stands: Reply | None) -> Reply:
    """Where the job stands, and what was open; what became of its file goes before both."""
    if stands is None:
        return was_open
    if "was_open" not in was_open.data:
        return was_open.adding(stands.headline, spoken=stands.sentences, data=stands.data)
    return stands.adding(
        was_open.headline, *was_open.details, spoken=was_open.sentences, data=was_open.data
    )


def with_was_open(reply: Reply, was_open: Reply | None) -> Reply:
    """The reply with what was to be said at the opening of the job."""
    if was_open is None:
        return reply
    return reply.adding(
        f"When the job was opened: {was_open.headline}",
        *was_open.details,
        spoken=was_open.sentences,
        data=was_open.data,
    )


def with_clock_behind(reply: Reply, behind: timedelta) -> Reply:
    """The reply with a note that the clock is behind the record, given once."""
    if not behind:
        return reply
    note = clock_behind_reply(behind)
    return reply.adding(note.headline, spoken=note.sentences, data=note.data)


def clock_behind_reply(behind: timedelta) -> Reply:
    """That the clock is behind the record, and what is counted by it."""
    away = shown_away(behind)
    told = (
        f"The clock is {away} behind what it read when the last thing was recorded; one of the two "
        "is wrong. It counts as it goes now, and what was running is counted from now at the "
        "latest: go by your own watch."
    )
    return Reply(
        told,
        f"The clock is {spoken_away(behind)} behind the record. Go by your own watch.",
        data={"clock_behind_s": round(behind.total_seconds())},
    )


def with_rung(reply: Reply, rung: Sequence[Ringing]) -> Reply:
    """The reply with what clocks had to say; the answer first, as somebody waits for it."""
    if not rung:
        return reply
    return reply.adding(
        *(f"Clock: {each.text}" for each in rung),
        spoken=tuple(each.spoken for each in rung),
        data={"rung": _rung_data(rung)},
    )


def rung_reply(rung: Sequence[Ringing]) -> Reply:
    """What clocks have to say, without any line to answer."""
    texts = [f"Clock: {each.text}" for each in rung]
    return Reply(
        texts[0],
        tuple(each.spoken for each in rung),
        tuple(texts[1:]),
        data={"rung": _rung_data(rung)},
    )


def _rung_data(rung: Sequence[Ringing]) -> list[dict[str, str]]:
    return [{"clock": each.clock, "time": each.time.isoformat()} for each in rung]


def question_subject(question: Question) -> str:
    """The subject of a question, in few words."""
    point = getattr(question.command, "point", None)
    return str(point) if point else short_form(question.command)
