"""What the assistant answers, as data.

Screen, voice and JSON are three renderings of one reply; nothing here knows
about colour, width or sound.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from typing import Any

from assistant.reply.wording import sentence
from grammar.frozen import frozen


@frozen
class LimitWarning:
    """Something past a limit, or that needs a look, with where the limit comes from."""

    id: str
    """Stable: the same matter has the same id every time, ``over-maximum:B3``."""
    severity: str
    """``stop``, ``caution`` or ``note``."""
    message: str
    """What is wrong and what to do next."""
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    """Of value and limit."""
    source: str = ""


@frozen
class Caution:
    """The usual safety word where the work meets the danger."""

    id: str
    sentences: tuple[str, ...]
    source: str
    reminder: str = ""
    """Its most important part, for whoever heard all of it earlier today."""

    @property
    def message(self) -> str:
        """All of it."""
        return " ".join(self.sentences)


@frozen
class Table:
    """Rows to show after the answer."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@frozen
class MapSpot:
    """One point on the depth map."""

    point: str
    x_m: float
    y_m: float
    depth_mm: float | None
    """None where it has not been read."""
    flag: str = ""
    """``high`` (above the finish), ``shallow``, ``deep`` or nothing."""
    doubt: str = ""
    """Why its reading is in doubt: ``moved``, ``step``, ``hangs``; nothing where it is not."""
    set_up: int | None = None
    """Which set-up it was read from, counted from 1; None where it has not been read."""


@frozen
class MapThing:
    """Something on the floor, as a map shows it."""

    kind: str
    """``column`` … ``crack``."""
    told: str
    """Its name, size and place."""
    at_m: tuple[tuple[float, float], ...]
    """Its middle, or its ends, metres from the A1 corner."""
    points: tuple[str, ...]
    """Points that it covers, or lies at, or runs through."""
    stands: bool
    """Whether nothing is poured where it is."""


@frozen
class FloorMap:
    """The floor from above: outline and points, metres from the A1 corner."""

    outline: tuple[tuple[float, float], ...]
    spots: tuple[MapSpot, ...]
    unit: str
    """``mm`` or ``in``: what depths are shown in."""
    doors: tuple[tuple[int, float, float], ...] = ()
    """Door number and place."""
    shows: str = "Depth"
    """What the numbers are."""
    things: tuple[MapThing, ...] = ()
    covered: tuple[MapSpot, ...] = ()
    """Points under what stands there, which are not to be read."""


@frozen
class SpokenSentence:
    """
    One sentence to say aloud, short enough for one breath.

    >>> SpokenSentence("depth one two millimetres", brief="depth one two").said(briefly=True)
    'Depth one two.'
    """

    words: str
    """Name first, digits one by one, unit, below or above."""
    brief: str | None = None
    """The same in fewer words, for whoever waits with the next thing to say; nothing where it
    is left out then, None where there are no fewer."""
    needed: bool = False
    """Said however short a reply is to be."""

    def said(self, *, briefly: bool = False) -> str:
        """The words as a sentence."""
        words = self.brief if briefly and self.brief is not None else self.words
        return sentence(words) if words else ""


ToSay = str | tuple[SpokenSentence | str, ...]
"""An answer as sentences to say; one without a shorter form is said as it is."""


def as_sentences(spoken: ToSay) -> tuple[SpokenSentence, ...]:
    """The same, each with its words."""
    parts = (spoken,) if isinstance(spoken, str) else spoken
    return tuple(SpokenSentence(part) if isinstance(part, str) else part for part in parts if part)


@frozen
class Reply:
    """
    One answer, in its parts; screen and voice put them together, each at its own length.
    """

    headline: str
    """The answer itself, in one line."""
    spoken: ToSay = ""
    """The words to say; the headline where empty."""
    details: tuple[str, ...] = ()
    """Short lines under the headline."""
    tables: tuple[Table, ...] = ()
    map: FloorMap | None = None
    warnings: tuple[LimitWarning, ...] = ()
    cautions: tuple[Caution, ...] = ()
    reminders: tuple[Caution, ...] = ()
    """Cautions that were given in full before."""
    ask: str | None = None
    """The question that now waits for an answer."""
    data: dict[str, Any] = field(default_factory=dict)
    """Numbers for programs; JSON types only."""
    also: tuple[SpokenSentence, ...] = ()
    """Said after the answer: what it brought about, what lapsed, what a clock had to say."""
    at_length: tuple[str, ...] = ()
    """Sentences that take long to say, and the cautions after them: said in pieces."""
    goes_on: bool = False
    """Whether "more" goes on with the pieces after something else was asked, too: a list that is
    worked through. Anything that is recorded may change it, and ends it."""
    rest: tuple[ToSay, ...] = ()
    """Pieces that are said one by one, with "more"; screens have all of it at once."""
    floor: str = ""
    """Which of two floors it is about, as ``finished floor``; nothing where there is one."""
    asides: tuple[str, ...] = ()
    """More lines under the headline, which can wait where the work stops."""
    in_a_glance: bool = False
    """Whether somebody waits with the next reading: where the work stops, no more is shown."""
    length: str = "usual"
    """How much of it is said aloud: of ``manner.LENGTHS``."""
    floor_aloud: bool = False
    """Whether the floor is named aloud, too; read back, a reading has to be short."""

    @property
    def first_line(self) -> str:
        """What is read first: the answer, with the floor it is about before it."""
        return f"{self.floor.capitalize()}: {self.headline}" if self.floor else self.headline

    @property
    def sentences(self) -> tuple[SpokenSentence, ...]:
        """All there is to say, in order."""
        floor = (SpokenSentence(self.floor),) if self.floor and self.floor_aloud else ()
        return (*floor, *as_sentences(self.spoken or self.headline), *self.also)

    @property
    def say(self) -> str:
        """What a voice reads out, at its length."""
        if self.length == "short":
            return spoken_text(self.fewest, briefly=True)
        more = as_sentences(self.details) if self.length == "long" and not self.rest else ()
        return spoken_text((*self.sentences, *more))

    @property
    def fewest(self) -> tuple[SpokenSentence, ...]:
        """The answer alone, with those of its consequences that have to be known."""
        own = as_sentences(self.spoken or self.headline)
        return (*own[:1], *(one for one in own[1:] if one.needed), *self.also)

    def adding(
        self,
        *details: str,
        spoken: ToSay = "",
        data: Mapping[str, Any] | None = None,
    ) -> Reply:
        """
        The same reply with more after it: lines to read, sentences to say, numbers.

        >>> Reply("B3, 18 mm: below or above?").adding(spoken="The other question lapsed.").say
        'B3, 18 mm: below or above? The other question lapsed.'
        >>> Reply("61 bags").adding(spoken="Step four is met.").say
        '61 bags. Step four is met.'
        """
        return replace(
            self,
            details=(*self.details, *details),
            also=(*self.also, *as_sentences(spoken)),
            data={**self.data, **(data or {})},
        )

    @property
    def stops(self) -> bool:
        """Whether the work must not go on as it is."""
        return any(warning.severity == "stop" for warning in self.warnings)

    def with_warnings(self, warnings: tuple[LimitWarning, ...]) -> Reply:
        """The same reply with warnings beside it."""
        return replace(self, warnings=warnings)


def spoken_text(sentences: Iterable[SpokenSentence], *, briefly: bool = False) -> str:
    """Sentences one after the other, those left out where it is said briefly among them not."""
    return " ".join(filter(None, (each.said(briefly=briefly) for each in sentences)))


@frozen
class Turn:
    """One line or utterance and what came of it."""

    text: str
    ok: bool
    """Understood, and possible with the job as it stands."""
    command: str | None
    """The command's class name."""
    canonical: str | None
    """The command in its short typed form."""
    recorded: tuple[str, ...]
    """Names of the events now on disk."""
    reply: Reply
    taken_as: str | None = None
    """What it was taken for, in its short typed form, where it was said in no way that is
    listed."""
    lapsed: str | None = None
    """What the question was about that this line left unanswered, so that it is not recorded."""
