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
            "(oops | whoops | no) (undo | undo that | take that (off | out | back))",
            "(rub | cross) (that | it) out",
            "(delete | forget | scrap | drop) what i said",
            "(that's | that is) not right (undo it | take it back | undo that)",
            "go back undo [that]",
            "(scrap | bin | wipe | lose) (it | that) [last one]",
            "(scrap | bin | wipe | lose | strike) [that] last (one | reading | thing)",
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
            "[yes | yeah | yep | yup | aye] (that's | that is) (right | correct | it)",
            "(yes | yeah | yep | ok) (correct | right | yes | yeah | sure | fine)",
            "[yes | yeah | yep | aye] (do it | do that | go ahead | keep it | i'm sure | i am "
            "sure | it is | go on | go on then | go for it | i do | i did | that's it | of course)",
            "(course | of course | fine | that's fine | sounds good | sounds right | sure thing | "
            "yup | yes sir | that's what i (said | meant) | good | great | perfect)",
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
            "(no | nope | nah | naw | nae | wrong | cancel)",
            "[no | nope | nah] (that's | that is | it's | it is) (wrong | not right | not it)",
            "(not right | stop no | no no | no stop | absolutely not | definitely not)",
            "[no | nah | nope] (leave it | forget it | never mind | not that | don't | drop it | "
            "leave it (as it (is | was) | alone | be) | don't do (it | that) | thank you | not "
            "now | better not | rather not | not really | i don't | don't bother | no way | scrap "
            "(it | that) | cancel (it | that) | forget that | drop that | hold on)",
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
            "(yes | yeah | aye | no) but make it <reading:signed_reading>",
            "no [sorry] (it's | it is | that's | that is | make it | make that) "
            "<reading:signed_reading>",
            "[no] (it | that | this | last one) should [have] (be | been | read) "
            "<reading:signed_reading>",
            "[no] (change | make) (it | that | last one) [to] <reading:signed_reading>",
            "[no] [sorry] I said <reading:signed_reading>",
            "[no] (it | that) was [meant to be | supposed to be | actually] "
            "<reading:signed_reading>",
            "<reading:signed_reading> (I mean | I meant | it should be | it should have been)",
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
            "[no] (it's | it is | it was | that's | that was | I said | I meant) "
            "<reading:signed_reading> not [minus | plus] <was:loose>",
            "no <reading:signed_reading> not [minus | plus] <was:loose>",
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
            "(be | keep it) (brief | short | snappy)",
            "(less chat | less chatter | too wordy | too much talk | cut chat | cut waffle)",
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
        ways=("speak slower", "[a bit] slower", "slow down [a bit]", "more slowly"),
    ),
    Phrase(
        "faster",
        AdjustVoice,
        "the voice speaks faster",
        ("faster",),
        _TALK,
        fixed=(("word", "faster"),),
        ways=("speak faster", "[a bit] (faster | quicker)", "(speed | hurry) up"),
    ),
    Phrase(
        "softer",
        AdjustVoice,
        "the voice is less loud",
        ("softer",),
        _TALK,
        fixed=(("word", "softer"),),
        ways=(
            "speak (softer | quieter)",
            "[a bit] (softer | quieter)",
            "[you are | it is] too loud",
            "(turn it | turn volume | turn | volume) down [a bit]",
            "(keep it | keep your voice) down",
        ),
    ),
    Phrase(
        "louder",
        AdjustVoice,
        "the voice is louder",
        ("louder",),
        _TALK,
        fixed=(("word", "louder"),),
        ways=(
            "speak louder",
            "[a bit] louder",
            "(turn it | turn volume | volume) up [a bit]",
            "[i] can't hear you",
            "[you are | it is] too quiet",
        ),
    ),
    Phrase(
        "quiet",
        AdjustVoice,
        "nothing is said aloud but a STOP",
        ("quiet",),
        _TALK,
        fixed=(("word", "quiet"),),
        ways=(
            "(shut up | mute | hush | shush | silence | stop talking | be silent | zip it | no "
            "more "
            "talking | stop speaking)",
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
        ways=(
            "speak (again | up)",
            "(unmute | start talking | voice on | sound on | you can (speak | talk))",
            "(start | go on) (talking | speaking) [again]",
        ),
    ),
    Phrase(
        "help",
        AskPhrases,
        "this list",
        ("help",),
        _TALK,
        ways=(
            "what can (i | we) (say | ask | type) [now | you | to you]",
            "(commands | examples | list commands | what commands are there)",
            "how do (i | we) (use | work | talk to) (it | this | you)",
            "how does it work",
            "what do you (understand | know)",
        ),
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
