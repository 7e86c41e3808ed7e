"""One conversation that several talk to: the program's own keyboard and ears, and paired devices.

A device's line waits in a queue until the thread that has the conversation takes it, so that one
after the other is heard and there is one writer. What anybody says is shown to all. A line that a
device sends again, because it never got the answer, is not heard twice: it gets its answer once
more, or, where the program was started again meanwhile, is found on record by its id.
"""

from __future__ import annotations

import secrets
import threading
from collections import OrderedDict, deque
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Future
from typing import TYPE_CHECKING, Protocol

from assistant.conversation.from_afar import (
    hangs_on_what_is_shown,
    is_for_the_keyboard,
    left_to_the_keyboard,
    on_record_already,
    other_meanwhile,
    program_ended_reply,
    too_many,
)
from assistant.conversation.lines import utterance_in
from assistant.conversation.turns import made_turn
from assistant.errors import JournalError, LeadsmanError
from assistant.floor.places import places_of
from assistant.floor.walk import next_point, points_missing
from assistant.record.sent_lines import Sender
from assistant.reply.replies import Reply, Turn
from grammar import short_form
from grammar.commands.talk import ChooseSide, Confirm
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.conversation.conversation import Conversation

KEYBOARD = "keyboard"
"""Who says what is typed or said at the program itself."""
MOST_WAITING = 10
"""Lines of one device that may wait for their answers; a page sends one at a time."""
ANSWERS_KEPT = 500
"""Answers that a device may ask for once more; older ones are found on record."""
ANSWERS = {"below": ChooseSide("below"), "above": ChooseSide("above"), "confirm": Confirm()}
TOLD_KEPT = 100
"""How many turns are kept for a page that was away; older ones it does not get."""


@frozen
class SentLine:
    """A line as a device sent it."""

    device: str
    id: str
    text: str
    seen: str
    """The mark of the last turn that the device had seen by then, as :attr:`Standing.mark`."""


@frozen
class Told:
    """A turn, and who it was with."""

    number: int
    who: str
    line: str
    """The id of the device's line; nothing at the keyboard."""
    turn: Turn
    changed: bool
    """Whether something was recorded, or the question that waits is another one now."""


@frozen
class Standing:
    """How the talk stands, for a page."""

    number: int
    """The number of the last turn."""
    mark: str
    """The same for a page: unlike that of any other run of the program."""
    question: str | None
    answers: tuple[str, ...]
    """Words that would answer it."""
    next_point: str | None
    read: int
    points: int


class Records(Protocol):
    """The part of the journal that a shared talk needs."""

    def recorded_as(self, line: str) -> int | None:
        """The number of the utterance sent under this id."""

    def devices(self) -> frozenset[str]:
        """The devices that sent any line on record."""


class SharedTalk:
    """
    The queue of a conversation, and the turns that all who talk are shown.

    Parameters
    ----------
    conversation : Conversation
        Only used by the thread that calls :meth:`take_next`; turns that come to it another way are
        shown to all as well.
    records : Records
        The conversation's own journal.
    """

    def __init__(self, conversation: Conversation, records: Records) -> None:
        self._conversation = conversation
        self._records = records
        self._epoch = secrets.token_hex(4)
        self._lock = threading.Lock()
        self._queue: deque[tuple[SentLine, Future[Turn]] | str] = deque()
        self._answers: OrderedDict[str, tuple[SentLine, Future[Turn]]] = OrderedDict()
        self._told: deque[Told] = deque(maxlen=TOLD_KEPT)
        self._number = 0
        self._taken: SentLine | None = None
        self._named = len(records.devices())
        self._closed = False
        self.wake: Callable[[], None] = lambda: None
        """Called from any thread where something is to be taken."""
        self.standing = self._stands()
        conversation.tell_all = self._tell

    # --- from any thread ----------------------------------------------------------

    def send(self, line: SentLine) -> Future[Turn]:
        """
        Put a line in the queue; gives its answer once there is one.

        A line whose id is known is not queued again. Raises LeadsmanError where it cannot be
        taken: nothing was recorded of it.
        """
        with self._lock:
            known = self._answers.get(line.id)
            if known is not None:
                if (known[0].device, known[0].text) != (line.device, line.text):
                    raise LeadsmanError("Another line was sent under that id; nothing recorded.")
                return known[1]
            if self._closed:
                raise LeadsmanError(program_ended_reply())
            waiting = sum(
                each.device == line.device and not future.done()
                for each, future in self._answers.values()
            )
            if waiting >= MOST_WAITING:
                raise LeadsmanError(too_many(waiting))
            future: Future[Turn] = Future()
            self._answers[line.id] = line, future
            self._forget_old()
            self._queue.append((line, future))
        self.wake()
        return future

    def notice(self, text: str) -> None:
        """Put a sentence for the program's own screen in the queue."""
        with self._lock:
            self._queue.append(text)
        self.wake()

    def new_name(self) -> str:
        """A name for a device more, unlike that of any on record."""
        with self._lock:
            self._named += 1
            return f"phone {self._named}"

    def told_since(self, mark: str) -> Sequence[Told]:
        """
        The turns after a mark, which a page has not seen yet.

        All that are kept, where the mark is of another run of the program.
        """
        after = self._number_of(mark)
        with self._lock:
            return [each for each in self._told if after is None or each.number > after]

    @property
    def is_empty(self) -> bool:
        """Whether no line waits in the queue."""
        return not self._queue

    def close(self) -> None:
        """Take no more lines; whoever waits for an answer hears that the program has ended."""
        with self._lock:
            self._closed = True
            left = [each for each in self._queue if not isinstance(each, str)]
            self._queue.clear()
        for line, future in left:
            self._answers.pop(line.id, None)
            future.set_exception(LeadsmanError(program_ended_reply()))

    # --- from the conversation's thread ---------------------------------------------

    def take_next(self) -> tuple[SentLine, Turn] | str | None:
        """Take what waits longest, a line or a sentence for the screen; None where nothing does."""
        with self._lock:
            if not self._queue:
                return None
            item = self._queue.popleft()
        if isinstance(item, str):
            return item
        line, future = item
        try:
            turn = self._taken_turn(line)
        except BaseException:
            # Stopped in the middle: sent again, it is looked up on record.
            with self._lock:
                self._answers.pop(line.id, None)
            future.set_exception(LeadsmanError("Stopped at the program. Send it again."))
            raise
        future.set_result(turn)
        return line, turn

    def _taken_turn(self, line: SentLine) -> Turn:
        text = utterance_in(line.text)
        found = self._on_record(line.id)
        if found is not None:
            return _not_heard(line, found, ok=True)
        if is_for_the_keyboard(text):
            return _not_heard(line, left_to_the_keyboard())
        meanwhile = self._others_since(line)
        if meanwhile is None or (meanwhile and hangs_on_what_is_shown(text)):
            return _not_heard(line, other_meanwhile(meanwhile or ()))
        self._taken = line
        try:
            return self._conversation.hear(text, Sender(line.device, line.id))
        finally:
            self._taken = None

    def _on_record(self, id: str) -> Reply | None:
        try:
            number = self._records.recorded_as(id)
        except JournalError:
            return None  # the conversation says what is wrong with the disk
        if number is None:
            return None
        events = [each for each in self._conversation.job.history if each.number == number]
        return on_record_already([event.in_words() for each in events for event in each.events])

    def _others_since(self, line: SentLine) -> list[tuple[str, str]] | None:
        """
        Who said what since the turn that the device saw last, where that changed something.

        None where that was in another run of the program.
        """
        after = self._number_of(line.seen)
        if after is None:
            return None
        return [
            (each.who, each.turn.text)
            for each in self.told_since(line.seen)
            if each.changed and each.who != line.device
        ]

    def _number_of(self, mark: str) -> int | None:
        epoch, _, number = mark.partition("-")
        own = epoch == self._epoch and number.isascii() and number.isdigit() and len(number) < 10
        return int(number) if own else None

    def _tell(self, turn: Turn) -> None:
        line = self._taken
        who, id = (line.device, line.id) if line is not None else (KEYBOARD, "")
        changed = bool(turn.recorded) or turn.reply.ask != self.standing.question
        self._number += 1
        with self._lock:
            self._told.append(Told(self._number, who, id, turn, changed))
        self.standing = self._stands()

    def _stands(self) -> Standing:
        job = self._conversation.job
        pending = self._conversation.pending
        points = len(places_of(job.layout).names)
        return Standing(
            self._number,
            f"{self._epoch}-{self._number}",
            pending.text if pending is not None else None,
            self._answers_to_it(),
            next_point(job),
            points - len(points_missing(job)) if points else len(job.readings),
            points,
        )

    def _answers_to_it(self) -> tuple[str, ...]:
        question = self._conversation.pending
        if question is None:
            return ()
        taken = [word for word, given in ANSWERS.items() if question.settled_by_word(given)]
        return (*taken, *map(short_form, question.choices), "cancel that")

    def _forget_old(self) -> None:
        done: Iterable[str] = [id for id, (_, future) in self._answers.items() if future.done()]
        for id in list(done)[: max(len(self._answers) - ANSWERS_KEPT, 0)]:
            del self._answers[id]


def _not_heard(line: SentLine, reply: Reply, *, ok: bool = False) -> Turn:
    """The turn of a line that does not come to the conversation."""
    return made_turn(line.text, ok, None, reply, ())
