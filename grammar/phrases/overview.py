"""Phrases: the whole job at a glance: tally, what is missing, warnings, map."""

from __future__ import annotations

from grammar.commands.overview import AskCautions, AskMap, AskMissing, AskTally, AskWarnings
from grammar.phrase import Phrase

_QUESTIONS = "questions"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "tally",
        AskTally,
        "points, depths, volume and bags",
        ("tally",),
        _QUESTIONS,
        ways=(
            "(quick | short) summary",
            "where are we at",
            "sum it up",
            "give (numbers | figures)",
            "(summary | sum up | status | totals | total | overview | how are we doing | "
            "where are we | where do we stand | give totals | how much in all | numbers)",
            "how (is it | are we | am i | is job | are things) (looking | going | getting on | "
            "coming along)",
            "(where are | how are | where do) (i | we | things) (up to | stand | got to | at now "
            "| standing)",
            "(show | read | print) [me] (summary | totals | tally | everything | overview | "
            "numbers | figures | status)",
            "(what is | what's) (tally | summary | total | score | status | state of play | "
            "situation | position)",
            "(run down | rundown | recap | everything | all numbers | all figures | "
            "main numbers | big picture | state of play | progress)",
            "(give | read) (summary | rundown | recap | overview | tally)",
            "(sum up | summarise | summarize | total) (it | everything | job | all)",
        ),
    ),
    Phrase(
        "(what is | what's) missing",
        AskMissing,
        "what the job still lacks",
        ("what is missing", "what's missing"),
        _QUESTIONS,
        ways=(
            "what else (do you need | is needed | do (i | we) need)",
            "what is [still] (to do | left to do | outstanding)",
            "(is that all | am i done | am i finished | are we done | what's left | what "
            "is left | anything missing | what do you still need | what do (i | we) still "
            "need | missing points | missing)",
            "(what | which) (points | readings) are (missing | left)",
            "anything left",
            "what (have (i | we) | did (i | we)) (missed | forgotten | left out | left | not "
            "done | forget | miss | not got)",
            "(what | which) (points | readings | spots) (have (i | we) (missed | left | not "
            "(done | read)) | are (unread | not (done | read) | still to (do | come) | "
            "outstanding | left to do))",
            "(anything | is there anything | what is there) (else | missing | i missed | still "
            "missing | still to do | left to do | i have missed | outstanding | to do still)",
            "what (else | more) (do you (want | need to know) | is (missing | left) | is there | "
            "is there to do | should i (give | tell) you)",
            "(am i | are we | is that) (finished | complete | done) [reading | measuring | yet]",
            "what (do you | does it | does job) (still | need) (need | lack | want | still)",
            "(to do | to do list | still to do | left to do | outstanding | what else)",
        ),
    ),
    Phrase(
        "(what is | what's) missing (on | of) slab",
        AskMissing,
        "what the survey before the pour lacks",
        ("what is missing on the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase(
        "warnings",
        AskWarnings,
        "all that is past a limit or needs a look",
        ("warnings",),
        _QUESTIONS,
        ways=(
            "anything (i | we) should (worry about | know | look at)",
            "(what | anything) to (worry about | watch)",
            "(problems | any problems | any warnings | anything wrong | what's wrong | "
            "what is wrong | list warnings | show warnings | alerts | is anything wrong | "
            "trouble)",
            "(any | are there any | have (i | we) got any | got any) (warnings | problems | "
            "issues | worries | red flags | alerts | concerns | trouble)",
            "(is there | have (i | we) got) (anything wrong | a problem | anything to worry "
            "about | anything i should know | a warning | any problem | anything to look out for)",
            "(anything | what) (not right | looks wrong | look wrong | out of limits | over "
            "limits | past limits | worrying | suspicious | needs looking at | off)",
            "(what are | show | list | read) [all] (warnings | problems | issues | alerts)",
            "(issues | red flags | concerns | worries)",
            "what (should | do) (i | we) (worry about | watch out for | look out for | need to "
            "watch)",
            "is (everything | all) (right | alright | fine | in order | good)",
        ),
    ),
    Phrase(
        "cautions",
        AskCautions,
        "the usual safety words in full; others give each of them once a day",
        ("cautions", "safety words"),
        _QUESTIONS,
        ways=(
            "safety (words | notes | cautions)",
            "(what | anything) (should | do) (i | we) [need to] (be careful (of | about | with) "
            "| watch out for with dust | wear)",
            "(safety | safety advice | safety warnings | safety first | ppe | what ppe | what "
            "should i wear)",
            "(read | show | list) (cautions | safety words | safety notes)",
            "is it (dangerous | safe to handle | harmful)",
        ),
    ),
    Phrase(
        "map",
        AskMap,
        "the floor from above, with depths",
        ("map",),
        _QUESTIONS,
        ways=(
            "(draw | show | print) [me] (map | floor | plan)",
            "(floor plan | plan view | drawing)",
            "(show | draw | print | see | sketch) [me] [a | floor] (map | plan | drawing | "
            "layout | picture | sketch | diagram) [of (floor | room | it)]",
            "(what does (it | floor | room) look like | layout | floor map | sketch | "
            "diagram | bird's eye view | depth map)",
            "(draw | sketch) (it | it up | floor | room)",
            "(map | plan | picture | drawing) of (floor | room | depths)",
        ),
    ),
    Phrase(
        "map of slab",
        AskMap,
        "the same as it was before the pour",
        ("map of the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
)
