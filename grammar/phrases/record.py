"""Phrases: readings as they were taken, what changed, and the record itself."""

from __future__ import annotations

from grammar.commands.record import AskChanges, AskLastReadings, AskReading, AskRecord
from grammar.phrase import Aloud, Phrase

_TOPIC = "notes and record"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "what was [at | point | read at] <point>",
        AskReading,
        "what was read there, when, and what was read before",
        ("what was B3", "what was read at B3"),
        _TOPIC,
        spoken="what was [point] <point>",
        ways=(
            "what was reading (at | for | of | on) [point] <point>",
            "what (did (i | we) | have (i | we)) (say | read | get | got | put | have) "
            "(for | at | on) [point] <point>",
            "what do (i | we | you) have (for | at | on) [point] <point>",
            "(show | read) [me] [back] [point] <point>",
            "[what is | what's] reading (at | for | of) [point] <point>",
            "when (was | did (i | we) read) [point] <point> [read]",
            "show me [about] [point] <point> [again]",
            "is [point] <point> (done | in | read | recorded | on record | taken | down)",
            "did (i | you | we) (do | get | read | shoot | take | measure | have) [point] <point> "
            "[already | yet]",
            "(have | do) (i | we | you) (got | have | done | read) [point] <point> [already | "
            "yet | "
            "down]",
            "[point] <point> (reading | value)",
            "what is [at | in] [point] <point>",
            "what is (recorded | written | written down | down | on record | noted) (at | for | "
            "on) "
            "[point] <point>",
            "(was | is) [point] <point> (plus or minus | minus or plus | below or above | above or "
            "below | high or low | low or high)",
            "why (is | was) [point] <point> (skipped | struck | missing | left out | not there)",
            "how (low | high) (is | was) [point] <point>",
            "(history of | what changed at) [point] <point>",
        ),
    ),
    Phrase(
        "last reading",
        AskLastReadings,
        "the last reading, and when it was taken",
        ("last reading",),
        _TOPIC,
        ways=(
            "(what was | what is | what's | read [back] | show [me]) last (reading | value | one)",
            "(what was that | what did (i | we) (say | read)) [last]",
            "(last | latest | newest) (value | reading | shot | one)",
            "did you get (that | it)",
            "what did you (get | put | take) [down]",
        ),
    ),
    Phrase(
        "last <count:whole> readings",
        AskLastReadings,
        "the readings taken last, the newest first",
        ("last 5 readings",),
        _TOPIC,
        speakable=False,
        ways=(
            "(what were | read [me] [back | out] | show [me] | list) last <count:whole> "
            "[readings | values | ones | points]",
            "last <count:whole> (values | ones | points | shots)",
        ),
    ),
    Phrase(
        "changes",
        AskChanges,
        "what was recorded last, undone things too",
        ("changes", "what changed"),
        _TOPIC,
        spoken="what changed",
        ways=(
            "(what | what's | what has) (changed | been changed)",
            "what (did (i | we) | have (i | we)) (change | changed | do | done) [last]",
            "(show | list | recent | last | latest | all) changes",
            "(history | log | show (history | log) | last change)",
        ),
    ),
    Phrase(
        "last <count:whole> changes",
        AskChanges,
        "so many of them",
        ("last 5 changes",),
        _TOPIC,
        speakable=False,
        ways=(
            "(show [me] | list | what were) last <count:whole> (changes | entries | lines)",
            "last <count:whole> (entries | lines | things)",
        ),
    ),
    Phrase(
        "changes since <since:clock_time>",
        AskChanges,
        "those from a time of day on",
        ("changes since 10:30", "what changed since 2 pm"),
        _TOPIC,
        speakable=False,
        ways=(
            "(what | what's | what has) (changed | been changed) (since | after) "
            "<since:clock_time>",
            "what (did (i | we) | have (i | we)) (change | changed | do | done) (since | after) "
            "<since:clock_time>",
            "(show | list) changes (since | after) <since:clock_time>",
            "changes after <since:clock_time>",
            "everything (since | after) <since:clock_time>",
        ),
    ),
    Phrase(
        "record",
        AskRecord,
        "how much is on record, since when, in which file, and what waits",
        ("record", "is it saved"),
        _TOPIC,
        spoken="what is on record",
        ways=(
            "(what is | what's) [on] (record | recorded | saved)",
            "(show | check) [me] record",
            "(save | save (it | this | that | job | all | everything))",
            Aloud("is it saved"),
            "is (that | this | everything | all | job | all of it) (saved | recorded | on disk | "
            "on record | stored)",
            "is it (recorded | on disk | on record | stored)",
            "(am i | are we | have you) saved [it | that]",
            "did you (save | record) (it | that | everything)",
            "where (is it | is that | is everything | is job | is it all) (saved | stored | kept)",
            "how many entries [are there]",
            "anything waiting",
        ),
    ),
)
