"""
A question without what people put around it: "I was wondering what the mean depth is, roughly".

Only a question may be understood so: what is wondered about, or tagged with "do you think", puts
nothing on record.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from grammar.words import Word

_BEFORE = re.compile(
    r"""(?: (?:
      sorry | pardon(?:\ me)? | excuse\ me | ah | oh | yo | morning | good\ (?:morning|afternoon)
    | quick\ one | one\ (?:more|last|quick)\ (?:thing|question|one) | (?:a|one)\ question
    | (?: would | do ) \ you \ mind \ (?: telling | giving | showing | reminding ) \ (?: me | us )
    | (?: can | could | would | will ) \ (?: you | someone | somebody | anyone ) \ (?: please\ )?
      (?: (?: tell | remind | give | show | read ) (?:\ (?: me | us ))? | confirm | advise (?:\ on)?
      | check | work\ out | find\ out | say | calculate | see | let\ me\ know | look\ up | explain
      | pull\ up | bring\ up | get\ me | list | state | run\ (?: through | thru ) | point\ out )
    | i \ (?: wonder | was\ wondering | am\ wondering | forget | forgot ) (?:\ if)?
    | i'm \ (?: wondering | curious | not\ sure ) | wondering
    | (?: i'd | i\ would | we'd | we\ would ) \ (?: love | like | be\ glad | be\ happy )
      \ (?: to\ (?: know | see | hear | review | ask | find\ out | have ) | a | an )
    | (?: have\ )? (?: you\ )? got \ any \ idea | any \ clue | (?: have | has ) \ anyone \ any\ idea
    | do \ (?: you | we ) \ (?: happen\ to\ )? (?: know | have | reckon | think )
    | (?: may | might | can | could ) \ (?: i | we ) \ (?: see | have | ask | know | get | check )
    | (?: any\ chance | fancy | mind | care | no\ chance ) \ (?: of\ | you\ could\ )?
      (?: telling | showing | giving | tell | show | give | a\ look\ at ) (?:\ (?: me | us ))?
    | (?: the\ )? (?: boss | gaffer | client | customer | foreman | architect | office )
      \ (?: asks | is\ asking | wants\ to\ know | needs\ to\ know | asked | keeps\ asking )
      (?:\ (?: about | for | me ))?
    | (?: tell | show | give | remind | read ) \ (?: me | us ) (?:\ (?: again | about | of ))?
    | gimme | give\ us | lemme \ (?: see | know | have ) | let's \ (?: see | have | hear )
    | (?: i | we ) \ (?: need | want | require | have ) \ (?: to\ know | to\ see | to\ find\ out )
    | (?: i | we ) \ (?: require | need ) (?=\ (?: a | an | list | schedule | total | all )\b )
    | (?: please | kindly ) \ (?: tell | show | list | state | confirm | identify | advise )
    | (?: list | identify | state | advise | confirm ) (?= \ (?: what | which | where | how )\b )
    | for \ (?: the | my ) \ (?: record | file | client | boss | quote | report | books? )
    | for \ (?: record | file | client | boss | quote | report | books? )
    | remind \ (?: me | us ) | work \ out | find \ out | look \ up | pull \ up | bring \ up
    | out \ of \ (?: interest | curiosity ) | by \ the \ way | btw | basically | honestly | roughly
    | in \ (?: total | all ) | overall | all\ told | at\ (?: present | the\ moment | moment )
    | as\ it\ stands | as\ things\ stand | so\ far | currently | today | a | an | and | but | with
    ) (?:\ |$) )+""",
    re.VERBOSE,
)
"""What a question may begin with."""

_AFTER = re.compile(
    r"""(?: (?:^|\ ) (?:
      (?: do | would | did ) \ (?: you | we ) \ (?: think | reckon | say | know | suppose | guess )
    | (?: you | we ) \ (?: think | reckon | say ) | i \ wonder | any \ idea | any \ clue
    | by \ the \ way | btw | if \ you \ (?: know | could | would | please | don't\ mind )
    | if \ (?: possible | you'd\ be\ so\ kind ) | if\ i\ may\ ask | if\ (?: i | we ) \ may
    | at \ (?: present | this\ point | moment | this\ stage | all ) | as \ (?: it | things )
      \ (?: stands? | is | are ) | so \ far | far | currently | today | tonight | tomorrow | yet
    | this \ (?: morning | afternoon | time ) | right\ now | for\ now | presently | still
    | roughly | approximately | about | exactly | precisely | in\ total | in\ all | all\ in
    | all\ told | altogether | overall | again | anyway | though | pal | love | buddy | lads? | guys
    | chief | gaffer | innit | actually | exactly | on\ this\ (?: one | job | floor ) | here
    | in\ here | in\ this\ (?: room | place ) | for \ (?: this | whole | entire )
      \ (?: job | floor | room | one | lot | thing ) | for \ (?: job | floor | room | it | all )
    | on \ (?: this\ )? (?: job | floor | site | file | record | it ) | are\ we\ talking
    | would\ (?: it | that )\ be | is\ (?: it | that | there )
    ) )+$""",
    re.VERBOSE,
)
"""And what with which it may end."""

_OPENS = frozenset("what where when how which who why".split())
_VERBS = frozenset("is are was were".split())


def asked_plainly(words: list[Word]) -> Iterator[list[Word]]:
    """
    The words of a question without what was put around it, and with its verb where it belongs.

    >>> from grammar.words import split_words
    >>> line = split_words("I was wondering what the mean depth is, do you know")
    >>> [" ".join(word.text for word in less) for less in asked_plainly(line)][-1]
    'what is mean depth'
    """
    line = " ".join(word.text for word in words)
    opening, ending = _BEFORE.match(line), _AFTER.search(line)
    first = len(opening.group().split()) if opening else 0
    last = len(words) - (len(ending.group().split()) if ending else 0)
    ends = ((0, len(words)), (first, len(words)), (0, last), (first, last))
    for start, end in dict.fromkeys(ends):
        if end <= start:
            continue
        if (start, end) != (0, len(words)):
            yield words[start:end]
        yield from _verb_first(words[start:end])


def _verb_first(words: list[Word]) -> Iterator[list[Word]]:
    """An indirect question as a direct one: "what the finish is" is "what is the finish"."""
    if len(words) > 2 and words[0].text in _OPENS and words[-1].text in _VERBS:
        at = 2 if words[0].text in ("how", "which") and len(words) > 3 else 1
        yield [*words[:at], words[-1], *words[at:-1]]
