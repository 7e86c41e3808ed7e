"""The spoken chat: typed and spoken lines in one session, one writer to the screen.

All that happens is handed to :class:`ListenChat` in one thread: lines as they are typed,
utterances as they end, notices of the microphone, and the time now and then.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from typing import Protocol

from assistant.decide import Question
from assistant.errors import LeadsmanError
from assistant.job import Job
from assistant.listening.hearing_files import show_heard
from assistant.listening.listening import Listening, Taken
from assistant.listening.open_ears import Arrival, HeardOne, Inbox, Notice, OpenEars, SpeechBegan
from assistant.listening.spoken_reply import sayable_text, spoken_reply
from assistant.record.journal import utc_now
from assistant.reply.manner import Manner
from assistant.reply.replies import Reply, Turn
from assistant.sound.kept_audio import KeptAudio
from assistant.terminal.opening import Opening
from assistant.terminal.screen import Screen
from assistant.voice.speaker import Speaker
from grammar.commands.talk import AdjustVoice, SetEarsClosed, SetEarsOpen

ASK_AGAIN_S = 8.0
"""Silence after which a waiting question is said once more."""
LAPSE_S = 20.0
"""Further silence after which the question lapses and nothing is done. Shorter loses a reading of
somebody who puts the staff down first; longer takes an answer that was meant for something else."""

SAID_OVER = 2
"""Times in a row it is said aloud that a reply was spoken over; after that it is only shown.
Where the program's own voice is taken for somebody's, this stops it from answering itself."""


class Adjust(Protocol):
    """Makes the mouth sound so; `speaks` where it was silent until now."""

    def __call__(self, manner: Manner, *, speaks: bool) -> str: ...


def no_mouth(manner: Manner, *, speaks: bool) -> str:  # noqa: ARG001
    """For a chat that has none to adjust."""
    return ""


NOTHING_HEARD = Reply("Nothing heard; nothing recorded.", "Nothing heard.")


class ListenChat:
    """
    Handles all that is typed and heard.

    Parameters
    ----------
    opening : Opening
        Of the conversation.
    screen : Screen
    speaker : Speaker
        Says the replies; silence where nothing is to be said.
    listening : callable
        Makes what takes heard utterances to the conversation, once that is open.
    ears : OpenEars, optional
        None for a chat that only speaks.
    kept : KeptAudio, optional
        Where utterances are kept as sound.
    clock : callable
        Seconds that only go forward.
    adjust : callable
        Makes the mouth faster, slower, louder or softer.
    """

    def __init__(
        self,
        opening: Opening,
        screen: Screen,
        speaker: Speaker,
        listening: Callable[[], Listening],
        ears: OpenEars | None = None,
        kept: KeptAudio | None = None,
        clock: Callable[[], float] = time.monotonic,
        now: Callable[[], datetime] = utc_now,
        adjust: Adjust = no_mouth,
    ) -> None:
        self._adjust = adjust
        self._opening = opening
        self._screen = screen
        self._speaker = speaker
        self._make_listening = listening
        self._listening: Listening | None = None
        self._ears = ears
        self._kept = kept
        self._clock = clock
        self._now = now
        self._asked: Question | None = None
        self._asked_at = 0.0
        self._asked_again = False
        self._held: list[str] = []
        self._spoken_over = 0

    # --- keys -----------------------------------------------------------------------

    def key(self) -> None:
        """A key was pressed: any key stops the voice."""
        self._speaker.stop()

    def press(self) -> None:
        """The talk key: begins an utterance, or ends it."""
        self._speaker.stop()
        if self._ears is not None:
            self._ears.press()

    def status(self) -> str:
        """For the foot of the prompt: the state of the recogniser."""
        if self._ears is None:
            return ""
        if self._ears.away and not self._ears.gone:
            return "the microphone is away: type, or plug it in"
        if self.noting:
            return "● a note is being said: “end of note” keeps it"
        if self._ears.mode == "hushed" and self._ears.state == "ready":
            return "ears closed: say “ears open”, or space to talk"
        return {
            "off": "no ears",
            "listening": "● listening",
            "ready": "space or F2 to talk",
        }[self._ears.state]

    @property
    def noting(self) -> str:
        """What was said so far of a note that has no end yet; a few dots where nothing was."""
        note = self._listening.note if self._listening is not None else None
        return (note.words or "…") if note is not None and note.is_open else ""

    # --- what happens -----------------------------------------------------------------

    @property
    def opening(self) -> Opening:
        """The conversation's opening."""
        return self._opening

    def typed(self, text: str, ask: bool = True) -> None:
        """A line that was typed; the question that then waits is shown with it where asked for."""
        self._speaker.stop()
        before = self._opening.conversation.job
        turn = self._about_ears(self._opening.conversation.hear(text))
        self._answer(turn, before, ask=ask)
        pending = self._opening.conversation.pending
        if pending is not self._asked:
            # A question shown at the typed line never lapses: it stands there to be seen.
            self._asked, self._asked_at = pending, float("inf")
        else:
            self._asked_at = max(self._asked_at, self._clock())

    def arrived(self, item: Arrival) -> None:
        """Something came from the recogniser."""
        if isinstance(item, SpeechBegan):
            self._speaker.stop()
            self._asked_at = max(self._asked_at, self._clock())
        elif isinstance(item, Notice):
            self._screen.say(item.text)
            if item.ears_gone:
                self._say("I hear nothing any more.")
        else:
            self._heard(item)

    def take_all(self, inbox: Inbox) -> None:
        """Handle everything that has come from the recogniser by now."""
        while (item := inbox.take()) is not None:
            try:
                self.arrived(item)
            except KeyboardInterrupt:
                self._screen.say("Stopped. “Tally” or “readings” shows what is on record.")

    def tell(self, reply: Reply) -> None:
        """Show and say what a clock has to say."""
        self._screen.show_reply(reply)
        self._say(reply.say)

    def tick(self) -> bool:
        """Check the waiting question; True where something is to be shown about it."""
        if self._held and not self._is_spoken_to:
            self._say("")
        if not self._opening.opened:
            return False
        pending = self._opening.conversation.pending
        if pending is None or pending is not self._asked:
            return False
        if self._speaker.speaking or self._is_spoken_to:
            self._asked_at = max(self._asked_at, self._clock())
        waited = self._clock() - self._asked_at
        if not self._asked_again and waited >= ASK_AGAIN_S:
            self._asked_again = True
            self._asked_at = self._clock()
            self._say(pending.spoken)
            return False
        return self._asked_again and waited >= LAPSE_S

    def lapse(self) -> None:
        """Nobody answered the question, so nothing is done."""
        reply = self._opening.conversation.let_lapse()
        self._asked = None
        if self._ears is not None:
            self._ears.expect({})
        if reply is not None:
            self.tell(reply)

    # --- an utterance ----------------------------------------------------------------------

    def _heard(self, item: HeardOne) -> None:
        if self._is_hushed(item):
            return
        conversation = self._opening.conversation
        before = conversation.job
        taken = self._listener().take(item.heard, whole=item.whole, beginning=item.beginning)
        self._spoken_over = self._spoken_over + 1 if item.beginning == "missed" else 0
        self._keep(item, taken)
        if taken.turn is None:
            if item.by_key:
                self._show_heard(taken, Turn("", False, None, None, (), NOTHING_HEARD), before)
            return
        self._show_heard(taken, self._about_ears(taken.turn), before)
        if conversation.pending is not None and conversation.pending is not self._asked:
            self._asked, self._asked_again = conversation.pending, False
        if conversation.pending is not None:
            self._asked_at = self._clock()

    def _is_hushed(self, item: HeardOne) -> bool:
        """Whether all is ignored but the words that make it listen again."""
        if self._ears is None or self._ears.mode != "hushed" or item.by_key:
            return False
        heard = item.heard
        return heard.tier != "sure" or not isinstance(heard.command, SetEarsOpen)

    def _show_heard(self, taken: Taken, turn: Turn, before: Job) -> None:
        if taken.heard.text:
            show_heard(self._screen, taken.heard, taken.tier)
        self._answer(turn, before)

    def _answer(self, turn: Turn, before: Job, *, ask: bool = True) -> None:
        conversation = self._opening.conversation
        if turn.command == AdjustVoice.__name__:
            speaks = turn.reply.data.get("voice") == "speak"
            if cannot := self._adjust(conversation.manner, speaks=speaks):
                turn = replace(turn, reply=replace(turn.reply, headline=cannot, spoken=cannot))
        self._screen.show(turn, ask=ask)
        if self._spoken_over <= SAID_OVER:
            spoken = spoken_reply(turn, before, conversation.job, conversation.pending)
            self._say(spoken, stops=turn.reply.stops)
        if conversation.pending is None:
            self._asked = None
        if self._ears is not None:
            self._ears.expect(conversation.expected)

    @property
    def _is_spoken_to(self) -> bool:
        return self._ears is not None and self._ears.busy

    def _say(self, words: str, *, stops: bool = False) -> None:
        """Say it aloud; while somebody speaks only afterwards, as speaking stops the recogniser."""
        if not self._is_quiet or stops:
            self._held.append(sayable_text(words))
        if not self._is_spoken_to:
            held, self._held = self._held, []
            self._speaker.say(" ".join(filter(None, held)))

    @property
    def _is_quiet(self) -> bool:
        """Whether nothing is to be said but what stops the work."""
        return self._opening.opened and self._opening.conversation.manner.quiet

    def _listener(self) -> Listening:
        if self._listening is None:
            self._listening = self._make_listening()
        return self._listening

    def _about_ears(self, turn: Turn) -> Turn:
        """ "Ears open" and "ears closed" are for us; the conversation has no ears."""
        if self._ears is None or self._ears.gone:
            return turn
        if turn.command == SetEarsOpen.__name__:
            self._ears.listen_freely()
            reply = Reply("Listening to all that is said. “Ears closed” ends it.", "Listening.")
        elif turn.command == SetEarsClosed.__name__:
            self._ears.hush()
            reply = Reply("Not listening. The talk key still works.", "Not listening.")
        else:
            return turn
        return replace(turn, reply=replace(reply, ask=turn.reply.ask))

    def _keep(self, item: HeardOne, taken: Taken) -> None:
        if self._kept is None or item.sound is None:
            return
        try:
            self._kept.keep(item.sound, taken.tier, self._now())
        except LeadsmanError as fault:
            self._screen.say(f"{fault} No more is kept.")
            self._kept = None
