"""Phrases: the conversation itself: undo and redo, answers to questions, what if."""

from __future__ import annotations

from grammar.commands.talk import (
    AdjustVoice,
    AskPhrases,
    BringBack,
    CancelThat,
    ChooseSide,
    ChooseUnit,
    Confirm,
    SayAgain,
    SayInstead,
    SetEarsClosed,
    SetEarsOpen,
    TakeBack,
    WhatIf,
)
from grammar.phrase import Phrase

_READINGS = "readings"
_TALK = "the conversation"
_QUESTIONS = "questions"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "undo [that]",
        TakeBack,
        "undo the last thing recorded; said again, the one before it",
        ("undo", "take that back"),
        _READINGS,
        spoken="take that back",
        ways=(
            "undo [that] last (one | reading | thing | bit | entry)",
            "(cancel | delete | remove | forget) [that] last (one | reading | thing | entry)",
            "(cancel | undo) it",
            "(oops | take that back | take it back | undo last | delete "
            "that | delete last | forget that | remove that | "
            "never mind that one | strike that | take that off | take that out)",
            "(that's | that is | that was) wrong (undo it | take it back | undo that)",
        ),
    ),
    Phrase(
        "undo [last] <steps:whole>",
        TakeBack,
        "undo so many things, the last first",
        ("undo 3", "undo the last three"),
        _READINGS,
        speakable=False,
        ways=(
            "undo last <steps:whole> (readings | things | lines | steps | ones)",
            "take back [last] <steps:whole> [readings | things | steps | ones]",
        ),
    ),
    Phrase(
        "redo [that]",
        BringBack,
        "redo what was undone last; something new said ends it",
        ("redo", "bring that back"),
        _READINGS,
        spoken="bring that back",
        ways=(
            "(put | bring | get) (it | that) back",
            "redo it",
        ),
    ),
    Phrase(
        "redo [last] <steps:whole>",
        BringBack,
        "redo so many things",
        ("redo 2",),
        _READINGS,
        speakable=False,
    ),
    Phrase(
        "<side>",
        ChooseSide,
        'answers "below or above?"',
        ("below", "above", "minus", "low"),
        _TALK,
        speakable=False,
    ),
    Phrase(
        "[yes | no] [in] <unit:reading_unit>",
        ChooseUnit,
        'answers "3/8 of an inch?"',
        ("inches", "millimetres", "yes inches", "no millimetres"),
        _TALK,
        speakable=False,
    ),
    Phrase(
        "what if <change>",
        WhatIf,
        "what a change would do; nothing is recorded",
        (
            "what if raise finish 3 millimetres",
            "what if product example standard",
            "what if B3 minus 25",
            "what if strike C4",
            "what if waste 10 percent",
        ),
        _QUESTIONS,
    ),
    Phrase(
        "what if <change,also:changes>",
        WhatIf,
        "what several changes would do together",
        (
            "what if lower finish 2 millimetres and waste 10 percent",
            "what if finish +4 mm, product example standard and at most 12 mm",
        ),
        _QUESTIONS,
        speakable=False,
    ),
    Phrase(
        "confirm",
        Confirm,
        "yes to the question that waits",
        ("confirm", "yes", "ok"),
        _TALK,
        # Noise and talk are easily heard as a short yes.
        ways=(
            "(yes | yeah | yep | yup | aye | ok | okay | correct | right | exactly)",
            "[yes | yeah] (that's | that is) (right | correct | it)",
            "[yes | yeah] (do it | go ahead | keep it | i'm sure | i am sure | it is)",
            "(affirmative | confirmed | sure | definitely | absolutely | indeed)",
        ),
    ),
    Phrase(
        "cancel that",
        CancelThat,
        "no to the question that waits",
        ("cancel that", "no"),
        _TALK,
        ways=(
            "(no | nope | nah | wrong | cancel)",
            "[no] (that's | that is) (wrong | not right | not it)",
            "[no] (leave it | forget it | never mind | not that | don't | drop it)",
        ),
    ),
    Phrase(
        "no <reading:signed_reading>",
        SayInstead,
        "another value, for the reading that is asked about or was taken last",
        ("no, minus 10", "I meant minus 10"),
        _TALK,
        speakable=False,
        ways=(
            "[no] [sorry] I (meant | mean) <reading:signed_reading>",
            "(sorry | correction | wrong | nope | wait | actually | rather | instead) "
            "<reading:signed_reading>",
            "[no] should [have] (be | been) <reading:signed_reading>",
            "no [sorry] (it's | it is | that's | that is | make it | make that) "
            "<reading:signed_reading>",
            "[no] (it | that) should [have] (be | been) <reading:signed_reading>",
        ),
    ),
    Phrase(
        "not <was:loose> <reading:signed_reading>",
        SayInstead,
        "the same, with what it was taken for",
        ("not 9, 10", "not 9 but minus 10"),
        _TALK,
        speakable=False,
        ways=(
            "[no] [I said] not <was:loose> but <reading:signed_reading>",
            "[no] (it's | it is | that's | that is) not <was:loose> [but | it's | it is] "
            "<reading:signed_reading>",
        ),
    ),
    Phrase(
        "say again",
        SayAgain,
        "the last reply, or the question that waits",
        ("say again",),
        _TALK,
        ways=(
            "(repeat | repeat that | what | pardon | sorry | come again | again | say that "
            "again | what did you say | didn't catch that | didn't hear that)",
        ),
    ),
    Phrase(
        "ears open",
        SetEarsOpen,
        "take all that is said, without a key for each",
        ("ears open",),
        _TALK,
    ),
    Phrase(
        "ears closed",
        SetEarsClosed,
        "take nothing that is said but “ears open”; the key and typing still count",
        ("ears closed",),
        _TALK,
    ),
    Phrase(
        "shorter",
        AdjustVoice,
        "replies aloud say no more than they have to",
        ("shorter",),
        _TALK,
        fixed=(("word", "shorter"),),
        ways=(
            "(short answers | less talk | say number only | keep it short | shorter "
            "answers | say less | say number)",
        ),
    ),
    Phrase(
        "longer",
        AdjustVoice,
        "replies aloud say more",
        ("longer",),
        _TALK,
        # One vowel from "louder", and taken for it.
        spoken="longer answers",
        fixed=(("word", "longer"),),
        ways=("(long answers | longer answers | say more | more talk)",),
    ),
    Phrase(
        "slower",
        AdjustVoice,
        "the voice speaks slower",
        ("slower",),
        _TALK,
        fixed=(("word", "slower"),),
        ways=("speak slower",),
    ),
    Phrase(
        "faster",
        AdjustVoice,
        "the voice speaks faster",
        ("faster",),
        _TALK,
        fixed=(("word", "faster"),),
        ways=("speak faster",),
    ),
    Phrase(
        "softer",
        AdjustVoice,
        "the voice is less loud",
        ("softer",),
        _TALK,
        fixed=(("word", "softer"),),
        ways=("speak softer",),
    ),
    Phrase(
        "louder",
        AdjustVoice,
        "the voice is louder",
        ("louder",),
        _TALK,
        fixed=(("word", "louder"),),
        ways=("speak louder",),
    ),
    Phrase(
        "quiet",
        AdjustVoice,
        "nothing is said aloud but a STOP",
        ("quiet",),
        _TALK,
        fixed=(("word", "quiet"),),
        ways=(
            "(shut up | mute | hush | stop talking | be silent)",
            "[be] (quiet | silent)",
            "stop talking",
        ),
    ),
    Phrase(
        "speak",
        AdjustVoice,
        "replies are said aloud again",
        ("speak",),
        _TALK,
        fixed=(("word", "speak"),),
        ways=("speak (again | up)",),
    ),
    Phrase(
        "help",
        AskPhrases,
        "this list",
        ("help",),
        _TALK,
        ways=("what can (i | we) say [now]",),
    ),
    Phrase(
        "help <about:sentence>",
        AskPhrases,
        "what can be said about a topic",
        ("help doors", "help clocks"),
        _TALK,
        speakable=False,
    ),
)
