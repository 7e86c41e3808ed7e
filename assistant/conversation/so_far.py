"""What a conversation has said already: the rest of a long answer, and cautions of the day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, tzinfo

from assistant.record.memory import Memory
from assistant.reply.replies import Reply, SpokenSentence, ToSay, Turn
from assistant.reply.speaking_time import in_pieces
from assistant.reply.wording import sentence
from grammar.commands import Command
from grammar.commands.guide import AskMore, AskWhy
from grammar.commands.overview import AskCautions
from grammar.commands.talk import AdjustVoice, SayAgain


class SaidSoFar:
    """
    Keeps track of it, so that nothing long is said at once, or twice.

    Parameters
    ----------
    memory : Memory
        What is remembered from one opening to the next.
    """

    def __init__(self, memory: Memory) -> None:
        self._memory = memory
        self._rest: tuple[ToSay, ...] = ()
        self._goes_on = False
        self._cautions_in_it: tuple[str, ...] = ()

    def more(self, command: Command) -> Reply | None:
        """The next piece of what was too long to be said at once; None where nothing is left."""
        if not self._rest or not isinstance(command, AskMore):
            return None
        piece, *rest = self._rest
        lines = (piece,) if isinstance(piece, str) else piece
        first, *details = [line if isinstance(line, str) else line.words for line in lines]
        return Reply(first, piece, tuple(details), rest=tuple(rest), goes_on=self._goes_on)

    def took(self, turn: Turn, command: Command | None, now: datetime, zone: tzinfo | None) -> Turn:
        """A turn as it is given now, with what it leaves for later kept."""
        if isinstance(command, SayAgain):
            return turn
        reply = turn.reply
        if isinstance(command, AdjustVoice):
            reply = self._adjusted(reply, command)
        elif not self._keeps_on(turn, command):
            self._rest, self._goes_on = reply.rest, reply.goes_on
        day, asked_for = now.astimezone(zone).date(), isinstance(command, AskCautions)
        if reply.at_length:
            reply = self._in_pieces(reply, day, asked_for=asked_for)
        if not self._rest:
            self._memory.gave(self._cautions_in_it, day)
            self._cautions_in_it = ()
        reply = self._with_reminders(reply, day, asked_for=asked_for)
        return replace(turn, reply=replace(reply, length=self._memory.manner.length))

    def _keeps_on(self, turn: Turn, command: Command | None) -> bool:
        """Whether a list that is worked through waits for "more" behind what was said now."""
        reply = turn.reply
        said_more = reply.rest or reply.at_length or isinstance(command, AskMore | AskWhy)
        return self._goes_on and not said_more and not turn.recorded

    def _in_pieces(self, reply: Reply, day: date, *, asked_for: bool) -> Reply:
        """The first piece of something long, its cautions said in full once a day."""
        lines, given = list(reply.at_length), []
        for caution in reply.cautions:
            aloud = f"{caution.id} aloud"
            if asked_for or not self._memory.was_given(aloud, day):
                lines += caution.sentences
                given.append(aloud)
            else:
                lines.append(sentence(caution.reminder))
        first, *rest = (_in_full(piece) for piece in in_pieces(lines))
        self._rest, self._cautions_in_it = tuple(rest), tuple(given)
        self._goes_on = reply.goes_on
        return replace(reply, spoken=first, rest=self._rest)

    def _with_reminders(self, reply: Reply, day: date, *, asked_for: bool) -> Reply:
        """Cautions given in full today are only recalled, unless they were asked for."""
        known = () if asked_for else reply.cautions
        given = tuple(one for one in known if self._memory.was_given(one.id, day))
        left = tuple(one for one in reply.cautions if one not in given)
        if left and not (reply.in_a_glance and reply.stops):
            self._memory.gave([one.id for one in left], day)
        return replace(reply, cautions=left, reminders=(*reply.reminders, *given))

    def _adjusted(self, reply: Reply, command: AdjustVoice) -> Reply:
        kept = self._memory.set_manner(self._memory.manner.adjusted(command.word))
        return reply if kept else reply.adding("For this time; it could not be kept.")


def _in_full(piece: tuple[str, ...]) -> ToSay:
    """What was asked for at length is said at length, however short other replies are to be."""
    return tuple(SpokenSentence(line, needed=True) for line in piece)
