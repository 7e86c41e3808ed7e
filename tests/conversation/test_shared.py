"""Several talk to one job: the keyboard, and devices whose lines wait in a queue."""

from __future__ import annotations

import json
from concurrent.futures import Future
from pathlib import Path
from typing import Any

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.shared import (
    ANSWERS_KEPT,
    MOST_WAITING,
    SentLine,
    SharedTalk,
)
from assistant.errors import LeadsmanError
from assistant.handover.tables import log
from assistant.handover.whole_job import job_json
from assistant.record.journal import Journal
from assistant.record.places import Folders
from assistant.record.sent_lines import Sender
from assistant.record.table import HeaderMark
from assistant.reply.replies import Turn
from assistant.wiring import converse, gather_cards

READY = ("room 12 by 8 metres", "grid 2 metres")


class Site:
    """A job that several talk to."""

    def __init__(self, journal: Journal) -> None:
        self.journal = journal
        assert journal.path is not None
        folders = Folders(journal.path.parent)
        self.talk: Conversation = converse(
            journal, gather_cards(None, ())[0], folders, remembers=False
        )
        self.shared = SharedTalk(self.talk, journal)
        self.ids = 0

    def line(self, text: str, *, device: str = "phone 1", id: str = "", seen: str = "") -> SentLine:
        self.ids += 1
        made = id or f"{self.journal.last_utterance()}-line-of-a-device-{self.ids}"
        return SentLine(device, made, text, seen or self.shared.standing.mark)

    def send(self, text: str, **told: str) -> Turn:
        """What a device gets for a line."""
        sent = self.shared.send(self.line(text, **told))
        while self.shared.take_next() is not None:
            pass
        return sent.result(0)

    def headline(self, text: str, **told: str) -> str:
        return self.send(text, **told).reply.headline


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "floor.leadsman"


@pytest.fixture
def site(path: Path) -> Any:
    with Journal.open(path) as journal:
        made = Site(journal)
        for line in READY:
            assert made.talk.hear(line).ok
        yield made


def test_a_line_is_on_record_with_the_device_that_said_it(site: Site) -> None:
    assert site.send("-12").recorded == ("reading-taken",)
    site.talk.hear("-14")
    assert [(each.said, each.device) for each in site.journal.entries()[2:]] == [
        ("-12", "phone 1"),
        ("-14", ""),
    ]
    job = site.talk.job
    assert [row[-1] for row in log(job).rows] == [None, None, "phone 1", None]
    assert [each["device"] for each in json.loads(job_json(job, "floor"))["record"]] == [
        None, None, "phone 1", None,
    ]  # fmt: skip
    site.talk.hear("undo")
    assert site.talk.job.history[2].device == "phone 1", "a record read anew says so too"


def test_a_line_sent_again_counts_once_and_gets_its_answer_again(site: Site) -> None:
    line = site.line("-12")
    first = site.shared.send(line)
    assert site.shared.send(line) is first, "sent again before it was heard"
    site.shared.take_next()
    assert site.shared.take_next() is None
    assert site.shared.send(line) is first
    assert first.result(0).reply.headline.startswith("A1")
    assert site.journal.last_utterance() == 3
    with pytest.raises(LeadsmanError, match="Another line"):
        site.shared.send(site.line("-99", id=line.id))


def test_a_line_is_known_again_after_the_program_was_started_anew(path: Path, site: Site) -> None:
    old = site.shared.standing.mark
    assert site.send("-12", id="the-line-before-it-ended").ok
    site.journal.close()
    with Journal.open(path) as journal:
        again = Site(journal)
        told = again.send("-12", id="the-line-before-it-ended", device="phone 2", seen=old)
        assert told.ok
        assert told.reply.headline.startswith("On record already: alfa one")
        assert journal.last_utterance() == 3
        other = again.headline("-14", id="a-line-that-never-came-in", seen=old)
        assert "started again" in other, "what was shown then may not hold now"
        assert journal.last_utterance() == 3
        assert again.shared.new_name() == "phone 2", "a name means one device"


def test_what_hangs_on_a_page_that_is_behind_is_not_heard(site: Site) -> None:
    seen = site.shared.standing.mark
    site.talk.hear("A1 -12")
    for line in ("-14", "undo", "batch", "confirm", "finish 3 mm above zero", "it is all fine"):
        told = site.send(line, seen=seen)
        assert not told.ok, line
        assert told.reply.headline.startswith("Meanwhile keyboard: A1 -12. So this was not"), line
    assert site.journal.last_utterance() == 3
    assert site.send("tally", seen=seen).ok, "a question changes nothing"
    assert site.send("B1 -14", seen=seen).ok, "a reading with its point is what it is"
    assert site.send("-15").reply.headline.startswith("C1"), "once the page was told"


def test_ones_own_lines_and_looks_of_others_put_nobody_behind(site: Site) -> None:
    seen = site.shared.standing.mark
    site.send("-12", seen=seen)
    site.talk.hear("tally")
    assert site.send("-14", seen=seen).reply.headline.startswith("B1")
    assert not site.send("-15", seen=seen, device="phone 2").ok


def test_a_question_waits_for_all_and_its_answer_may_come_from_any(site: Site) -> None:
    site.send("18")
    standing = site.shared.standing
    assert standing.question == "A1, 18 mm: below or above?"
    assert standing.answers == ("below", "above", "cancel that")
    assert site.talk.pending is not None
    site.send("below", device="phone 2")
    assert [each.device for each in site.journal.entries()[2:]] == ["phone 2"]
    site.talk.hear("-910")
    assert site.shared.standing.answers[-2:] == ("confirm", "cancel that")
    behind = site.shared.standing.mark
    site.talk.hear("cancel that")
    site.talk.hear("-600")
    assert not site.send("confirm", seen=behind).ok, "it was for another question"
    assert site.send("confirm").recorded


def test_all_are_told_what_anybody_says(site: Site) -> None:
    mark = site.shared.standing.mark
    site.send("-12")
    site.talk.hear("tally")
    told = site.shared.told_since(mark)
    assert [(each.who, each.turn.text, each.changed) for each in told] == [
        ("phone 1", "-12", True),
        ("keyboard", "tally", False),
    ]
    assert site.shared.told_since(site.shared.standing.mark) == []
    assert len(site.shared.told_since("another run-7")) == len(READY) + 2
    standing = site.shared.standing
    assert (standing.next_point, standing.read, standing.points) == ("B1", 1, 24)


def test_the_program_and_its_files_are_for_its_own_keyboard(site: Site) -> None:
    for line in ("quit", "Bye", "/board off", "/anything"):
        assert "for the keyboard" in site.headline(line), line
    for line in ("report", "export", "rename job to x", "copy job to y", "put away"):
        told = site.send(line)
        assert not told.ok, line
        assert not told.recorded, line
    there = {each.name for each in Path(site.journal.path or "").parent.iterdir()}
    assert there <= {"floor.leadsman", "floor.leadsman-journal"}


def test_no_more_wait_than_one_can_mean(site: Site) -> None:
    sent = [site.shared.send(site.line(f"A{n} -12")) for n in range(1, MOST_WAITING + 1)]
    with pytest.raises(LeadsmanError, match="wait already"):
        site.shared.send(site.line("B1 -12"))
    site.shared.send(site.line("B2 -13", device="phone 2"))
    site.shared.close()
    for each in sent:
        with pytest.raises(LeadsmanError, match="has ended; nothing recorded"):
            each.result(0)
    with pytest.raises(LeadsmanError, match="has ended"):
        site.shared.send(site.line("B3 -12"))
    assert site.journal.last_utterance() == 2


def test_answers_are_not_kept_for_ever(site: Site) -> None:
    first = site.line("A1 -12")
    site.send(first.text, id=first.id)
    for n in range(ANSWERS_KEPT + 10):
        site.shared._answers[f"{n}"] = (first, _done())
    site.send("A2 -12")
    assert len(site.shared._answers) <= ANSWERS_KEPT + 1
    assert site.headline(first.text, id=first.id).startswith("On record already"), "not twice"


def _done() -> Future[Turn]:
    future: Future[Turn] = Future()
    future.cancel()
    return future


def test_a_line_that_was_stopped_in_the_middle_is_looked_up(
    site: Site, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = site.line("-12")
    sent = site.shared.send(line)
    hear = site.talk.hear

    def stopped(text: str, sender: Sender | None = None) -> Any:
        hear(text, sender)
        raise KeyboardInterrupt

    with monkeypatch.context() as during:
        during.setattr(site.talk, "hear", stopped)
        with pytest.raises(KeyboardInterrupt):
            site.shared.take_next()
    with pytest.raises(LeadsmanError, match="Send it again"):
        sent.result(0)
    assert site.headline(line.text, id=line.id).startswith("On record already: alfa one")
    assert site.journal.last_utterance() == 3


def test_a_job_that_no_device_spoke_to_is_as_older_programs_read_it(path: Path) -> None:
    with Journal.open(path) as journal:
        journal.append("B3 -18", [])
        assert _version(journal) == 3
        assert journal.devices() == frozenset()
        journal.append("B4 -18", [], sender=Sender("phone 3", "an-id"))
        assert _version(journal) == 5
        assert journal.recorded_as("an-id") == 2
    with Journal.open(path) as journal:
        assert journal.recorded_as("an-id") == 2
        assert journal.recorded_as("another") is None
        assert [each.device for each in journal.entries()] == ["", "phone 3"]


def test_an_id_can_be_recorded_once_only(path: Path) -> None:
    with Journal.open(path) as journal:
        journal.append("B3 -18", [], sender=Sender("phone 1", "an-id"))
        with pytest.raises(LeadsmanError, match="Nothing was recorded"):
            journal.append("B3 -18", [], sender=Sender("phone 1", "an-id"))
        assert journal.last_utterance() == 1


def _version(journal: Journal) -> int:
    (stored,) = journal._connection.execute("PRAGMA user_version").fetchone()
    return HeaderMark.from_stored(stored).version
