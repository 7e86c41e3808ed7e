"""Phrases: whose job it is, and what becomes of its file."""

from __future__ import annotations

from grammar.commands.jobs import (
    AskJob,
    AskJobs,
    BringJobBack,
    CopyJob,
    PutJobAway,
    RenameJob,
    SetAddress,
    SetClient,
)
from grammar.phrase import Phrase

_TOPIC = "jobs"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "jobs",
        AskJobs,
        "the jobs on this machine, each with where it stands",
        ("jobs",),
        _TOPIC,
        spoken="list jobs",
        ways=(
            "(show | list | all | my | other) [me] [all | my | other] jobs",
            "(which | what) [other] jobs (are there | do (i | we) have | have (i | we) got)",
            "(start | begin | open | make) [a] (new | another) job",
            "(switch | change) (job | jobs)",
            "(open | go to | switch to) another job",
        ),
    ),
    Phrase(
        "job",
        AskJob,
        "what job this is: name, client, address, file, and where it stands",
        ("job", "which job is this"),
        _TOPIC,
        spoken="which job is this",
        ways=(
            "(which | what) job is (this | it | open)",
            "(what is | what's) (this | this job | job | name of [this] job | job name | job "
            "called)",
            "(show | about) [this] job",
            "(who is | who's) (it for | this for | client | customer)",
            "(who am i | who are we) doing (this | it) for",
            "(what is | what's | where is) [this] (client | address | job)",
            "(which | what) (file | job) am i in",
        ),
    ),
    Phrase(
        "client <name:title>",
        SetClient,
        "for whom the floor is made",
        ("client Smith",),
        _TOPIC,
        speakable=False,
        ways=("customer <name:title>",),
    ),
    Phrase(
        "address <words:title>",
        SetAddress,
        "where the floor is",
        ("address 12 Mill Lane",),
        _TOPIC,
        speakable=False,
    ),
    Phrase(
        "rename job to <name:sentence>",
        RenameJob,
        "the job, and its file, get another name",
        ("rename job to boat shed",),
        _TOPIC,
        speakable=False,
        ways=(
            "rename this job to <name:sentence>",
            "rename this to <name:sentence>",
            "(name | call) [this] job <name:sentence>",
            "change [this] job name to <name:sentence>",
            "change name of job to <name:sentence>",
        ),
    ),
    Phrase(
        "copy job to <name:sentence>",
        CopyJob,
        "a whole copy of the job under another name; this one stays open",
        ("copy job to boat shed upstairs",),
        _TOPIC,
        speakable=False,
        ways=(
            "copy this job to <name:sentence>",
            "copy (job | this job) as <name:sentence>",
            "save job as <name:sentence>",
            "save a copy as <name:sentence>",
            "duplicate job as <name:sentence>",
        ),
    ),
    Phrase(
        "put job away",
        PutJobAway,
        "out of the list, into the folder “away” beside it; nothing is deleted",
        ("put job away",),
        _TOPIC,
        speakable=False,
        ways=(
            "put (this job away | this away | away job | away this job)",
            "(archive | file away | stow) [this] job",
        ),
    ),
    Phrase(
        "bring back job <name:sentence>",
        BringJobBack,
        "a job that was put away comes back into the list",
        ("bring back job boat shed",),
        _TOPIC,
        speakable=False,
        ways=("take out job <name:sentence>",),
    ),
    Phrase(
        "bring back job",
        BringJobBack,
        "the same for this one, while it is still open",
        ("bring back job",),
        _TOPIC,
        speakable=False,
        ways=("bring (job | this job) back", "bring back this job"),
    ),
)
