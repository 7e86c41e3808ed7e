"""What a run of the benchmark came to, in the terms it is judged by."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import median

from assistant.ears.hearing import Tier


@dataclass(frozen=True, slots=True)
class Row:
    """One clip, what was said in it and what was heard."""

    text: str
    truth: str | None
    """The command that was said, in its short form; None for talk."""
    kind: str
    """``reading``, ``command``, ``plain``, ``near`` or ``cut``."""
    voice: str
    setting: str
    """The noise, as in tables: "mixer 10 dB"."""
    tier: Tier
    offered: tuple[str, ...] = ()
    """Alternatives in their short form, likeliest first."""
    seconds: float = 0.0
    """Engine time after the end of speech."""
    probability: float = 0.0
    """Of the likeliest alternative."""
    fit: float | None = None
    """How much like a command it sounded."""
    snr_db: float | None = None
    whole: bool = True
    """Whether the end-of-speech detector gave it as one whole utterance."""
    evidence: Mapping[str, float] = field(default_factory=dict)
    """What it was judged by, so that thresholds can be tried without hearing it again."""

    @property
    def heard(self) -> str | None:
        """The likeliest command."""
        return self.offered[0] if self.offered else None

    @property
    def sure_and_right(self) -> bool:
        """Recorded without asking, and so it should be."""
        return self.tier == "sure" and self.truth is not None and self.heard == self.truth

    @property
    def sure_and_wrong(self) -> bool:
        """Recorded without asking, and it should not have been."""
        return self.tier == "sure" and not self.sure_and_right

    @property
    def asked_with_truth(self) -> bool:
        """Asked, and the truth is one of the two that were offered."""
        return self.tier == "ask" and self.truth is not None and self.truth in self.offered[:2]

    @property
    def right(self) -> bool:
        """Ends up right in the record: taken and right, or asked with the truth on offer."""
        return self.sure_and_right or self.asked_with_truth


@dataclass(frozen=True, slots=True)
class Score:
    """Of some rows. Parts are 0 to 1, None where there was nothing to take a part of."""

    commands: int
    right: float | None
    sure: float | None
    """Taken without asking."""
    sure_wrong: float | None
    """Taken without asking and wrong, of all commands: the one that must not happen."""
    asked: float | None
    asked_truth: float | None
    """Of those asked, the truth among the two."""
    again: float | None
    """Neither taken nor asked."""
    talk: int
    talk_sure: float | None
    """Talk taken for a command without asking."""
    talk_asked: float | None
    seconds_median: float | None
    seconds_95: float | None
    first_right: float | None = field(default=None)
    """The likeliest alternative is the truth, whatever was done with it."""


def score(rows: Iterable[Row]) -> Score:
    """What some rows come to."""
    rows = list(rows)
    said = [row for row in rows if row.truth is not None]
    talk = [row for row in rows if row.truth is None]
    asked = [row for row in said if row.tier == "ask"]
    seconds = sorted(row.seconds for row in rows)
    return Score(
        commands=len(said),
        right=_part(said, lambda row: row.right),
        sure=_part(said, lambda row: row.tier == "sure"),
        sure_wrong=_part(said, lambda row: row.sure_and_wrong),
        asked=_part(said, lambda row: row.tier == "ask"),
        asked_truth=_part(asked, lambda row: row.asked_with_truth),
        again=_part(said, lambda row: row.tier in ("again", "none")),
        talk=len(talk),
        talk_sure=_part(talk, lambda row: row.sure_and_wrong),
        talk_asked=_part(talk, lambda row: row.tier == "ask"),
        seconds_median=median(seconds) if seconds else None,
        seconds_95=_percentile(seconds, 95),
        first_right=_part(said, lambda row: row.heard == row.truth),
    )


def _part(rows: Sequence[Row], holds: Callable[[Row], bool]) -> float | None:
    return sum(map(holds, rows)) / len(rows) if rows else None


def _percentile(ordered: Sequence[float], percent: int) -> float | None:
    """
    The value that so many percent do not pass.

    >>> _percentile([1, 2, 3, 4], 95), _percentile([1, 2, 3, 4], 50)
    (4, 2)
    """
    if not ordered:
        return None
    return ordered[max(0, -(-len(ordered) * percent // 100) - 1)]


# --- tables -----------------------------------------------------------------------------

_HEAD = (
    "commands", "right %", "wrong and sure %", "sure %", "asked %", "truth among the two %",
    "say again %", "talk", "talk sure %", "talk asked %", "median s", "95th s",
)  # fmt: skip


def table(rows: Iterable[Row], by: Callable[[Row], str], title: str) -> str:
    """
    A markdown table, a line for each group in the order they first come, and one for all.

    `by` names a row's group: ``lambda row: row.setting``.
    """
    rows = list(rows)
    groups: dict[str, list[Row]] = {}
    for row in rows:
        groups.setdefault(by(row), []).append(row)
    if len(groups) > 1:
        groups["all"] = rows
    lines = [_line((title, *_HEAD)), _line(["---"] + ["---:"] * len(_HEAD))]
    lines += [_line((name, *_cells(score(group)))) for name, group in groups.items()]
    return "\n".join(lines)


def report(rows: Iterable[Row]) -> str:
    """By noise, by voice in each noise kind, and what talk was taken for: markdown."""
    rows = list(rows)
    parts = [
        table(rows, lambda row: row.setting, "noise"),
        table(rows, lambda row: row.voice, "voice, all noises"),
        table([row for row in rows if row.setting == "clean"], lambda row: row.voice,
              "voice, clean"),
        table([row for row in rows if row.truth is None], lambda row: row.kind, "kind of talk"),
        wrongs(rows),
    ]  # fmt: skip
    return "\n\n".join(part for part in parts if part.count("\n") > 1)


def wrongs(rows: Iterable[Row]) -> str:
    """Every one that was taken and wrong, to be looked at one by one."""
    lines = [_line(("said", "taken for", "noise", "voice")), _line(["---"] * 4)]
    lines += [
        _line((row.text, row.heard or "", row.setting, row.voice))
        for row in rows
        if row.sure_and_wrong
    ]
    return "\n".join(lines)


def _line(cells: Iterable[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _cells(found: Score) -> tuple[str, ...]:
    return (
        str(found.commands),
        _percent(found.right),
        _percent(found.sure_wrong),
        _percent(found.sure),
        _percent(found.asked),
        _percent(found.asked_truth),
        _percent(found.again),
        str(found.talk),
        _percent(found.talk_sure),
        _percent(found.talk_asked),
        _seconds(found.seconds_median),
        _seconds(found.seconds_95),
    )


def _percent(part: float | None) -> str:
    return "" if part is None else f"{100 * part:.1f}"


def _seconds(value: float | None) -> str:
    return "" if value is None else f"{value:.2f}"


# --- goals -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Goal:
    """A bound on one figure."""

    what: str
    reached: float | None
    bound: float
    at_least: bool = False

    @property
    def met(self) -> bool:
        """Whether it holds; what was not measured does not."""
        if self.reached is None:
            return False
        return self.reached >= self.bound if self.at_least else self.reached <= self.bound


def goals(rows: Iterable[Row]) -> tuple[Goal, ...]:
    """What the program set out to reach, and what it did."""
    rows = list(rows)
    clean = score(row for row in rows if row.setting == "clean")
    loud = score(row for row in rows if row.setting == "mixer 10 dB")
    talk = score(row for row in rows if row.truth is None)
    every = score(rows)
    return (
        Goal("clean, right", clean.right, 0.98, at_least=True),
        Goal("clean, wrong and sure", clean.sure_wrong, 0.005),
        Goal("clean, asked", clean.asked, 0.10),
        Goal("mixer 10 dB, right", loud.right, 0.90, at_least=True),
        Goal("mixer 10 dB, wrong and sure", loud.sure_wrong, 0.01),
        Goal("mixer 10 dB, asked", loud.asked, 0.40),
        Goal("talk taken as sure", talk.talk_sure, 0.005),
        Goal("seconds after end of speech, median", every.seconds_median, 0.4),
        Goal("seconds after end of speech, 95th percentile", every.seconds_95, 0.8),
    )


def goals_table(rows: Iterable[Row]) -> str:
    """The goals as markdown."""
    lines = [_line(("goal", "bound", "reached", "")), _line(["---", "---:", "---:", "---"])]
    for goal in goals(rows):
        show = _seconds if goal.what.startswith("seconds") else _percent
        sign = "≥" if goal.at_least else "≤"
        told = show(goal.reached) or "not measured"
        lines.append(
            _line((goal.what, f"{sign} {show(goal.bound)}", told, "met" if goal.met else "not met"))
        )
    return "\n".join(lines)
