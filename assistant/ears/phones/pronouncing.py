"""From words to their phones."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from importlib import import_module
from pathlib import Path

from assistant.ears.phones.model import DICTIONARY
from assistant.sound.voice_parts import voice_part
from grammar.numbers import in_words
from grammar.spoken import Manner, plain_words

Phones = tuple[str, ...]
Ways = tuple[Phones, ...]
"""The ways to say one word."""

_OWN = {
    "alfa": ("AE L F AH",),
    "centimetre": ("S EH N T AH M IY T ER",),
    "centimetres": ("S EH N T AH M IY T ER Z",),
    "juliett": ("JH UW L IY EH T", "JH UW L IY EH T AH"),
    "levelling": ("L EH V AH L IH NG",),
    "kilo": ("K IY L OW",),
    "lima": ("L IY M AH",),
    "litres": ("L IY T ER Z",),
    "metre": ("M IY T ER",),
    "metres": ("M IY T ER Z",),
    "millimetre": ("M IH L AH M IY T ER", "M IH L IH M IY T ER"),
    "millimetres": ("M IH L AH M IY T ER Z", "M IH L IH M IY T ER Z"),
    "ph": ("P IY EY CH",),
    "quebec": ("K W AH B EH K", "K AH B EH K"),
    "repeatability": ("R IH P IY T AH B IH L IH T IY",),
    "xray": ("EH K S R EY",),
}
"""Words that the dictionary lacks, spells differently, or has with another meaning."""
_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth"}
_NUMBER = re.compile(r"([0-9]+)(?:\.([0-9]+))?")
_FRACTION = re.compile(r"([0-9]+)/([0-9]+)")


class Pronouncing:
    """
    A dictionary of pronunciations.

    A word that is not in it, usually a product's name, is pronounced by the speaking voice's
    rules.
    """

    def __init__(self, folder: Path) -> None:
        # The ways to say a word are on successive lines: "lima" and "lima(2)".
        self._text = f"\n{(folder / DICTIONARY).read_text(encoding='utf-8')}\n"
        self._known: dict[str, Ways] = {}
        self._plain: dict[str, Phones] = {}

    def ways(self, word: str) -> Ways:
        """The ways to say a word; an empty one where it has no sound."""
        if word not in self._known:
            own = tuple(tuple(way.split()) for way in _OWN.get(word, ()))
            found = own or tuple(self._in_dictionary(word)) or (sounded_out(word),)
            self._known[word] = with_accents(found)
            self._plain[word] = found[0]
        return self._known[word]

    def sentence(self, words: str, manner: Manner | None = None) -> tuple[Ways, ...]:
        """The ways to say each word of a sentence; numbers in either manner for None."""
        said = (ways for word in plain_words(words) for ways in self._words(word, manner))
        return tuple(ways for ways in said if any(ways))

    def _words(self, word: str, manner: Manner | None) -> Iterator[Ways]:
        """A word, or those of a number in figures."""
        numbers = number_ways(word, manner) if word[:1].isdigit() else ()
        if len(numbers) > 1:
            # "A hundred five" and "one hundred and five" are of different lengths.
            yield tuple(dict.fromkeys(way for said in numbers for way in self._as_one(said)))
        elif numbers:
            yield from map(self.ways, numbers[0].split())
        else:
            yield self.ways(word)

    def _as_one(self, words: str) -> Iterator[Phones]:
        """Words as if they were one, in one accent throughout: mixed, there would be hundreds."""
        said = words.split()
        for word in said:
            self.ways(word)
        accents = [in_accents(self._plain[word]) for word in said]
        for ways in zip(*accents, strict=True):
            yield tuple(phone for way in ways for phone in way)

    def _in_dictionary(self, word: str) -> Iterator[Phones]:
        start = self._text.find(f"\n{word} ") + 1
        while start and (entry := self._line(start))[0].partition("(")[0] == word:
            yield tuple(entry[1:])
            start = self._text.find("\n", start) + 1

    def _line(self, start: int) -> list[str]:
        return self._text[start : self._text.index("\n", start)].split() or [""]


def with_accents(ways: Ways) -> Ways:
    """
    The ways with those of accents that the dictionary, which is American, lacks.

    Most of Britain drops an r that no vowel follows. In Ireland and the Caribbean "thirty" may be
    "tirty" or "torty", in London "firty"; in the Caribbean "ten" is nearly "tin", in Birmingham
    "six" nearly "seeks" and "nine" nearly "noin", in Scotland "map" nearly "mop" (Wells, Accents
    of English, 1982, from memory). An unexpected accent is heard as another word: with
    the dictionary alone the second model chose right in 85 of 100 commands in quiet, with the
    accents in 90 (tests.benchmarks.speech.second_model … --every 8).

    >>> with_accents((("F", "AO", "R"),))
    (('F', 'AO', 'R'), ('F', 'AO'))
    >>> with_accents((("N", "AY", "N"),))
    (('N', 'AY', 'N'), ('N', 'OY', 'N'))
    >>> with_accents((("TH", "R", "IY"),))
    (('TH', 'R', 'IY'), ('T', 'R', 'IY'), ('F', 'R', 'IY'))
    """
    found = [*ways, *map(_without_r, ways)]
    found += [said for way in ways for said in in_accents(way)]
    found += [_said_with(_STOPPED, way) for way in found]
    return tuple(dict.fromkeys(found))


def in_accents(way: Phones) -> tuple[Phones, ...]:
    """One way to say a word in every accent, always in the same order; often the same."""
    dropped = _without_r(way)
    british = (_said_with(accent, dropped) for accent in _WITHOUT_R)
    stopped = (_said_with(accent, dropped) for accent in (_TORTY, _LONDON))
    return (way, dropped, *british, _said_with(_SCOTTISH, way), *stopped)


_WITHOUT_R = (
    {"ER": "AH"},
    {"ER": "AH", "OW": "AH"},
    {"ER": "AH", "IH": "IY", "EH": "IH", "AY": "OY"},
    {"ER": "AH", "IH": "IY", "EH": "EY"},
)
"""The model's phone that is nearest to an accent of southern England, its upper class, Birmingham
or the Caribbean. Each was chosen on the tuning half."""
_SCOTTISH = {"ER": "AH", "AE": "AA"}
_STOPPED, _TORTY, _LONDON = {"TH": "T", "DH": "D"}, {"TH": "T", "ER": "AO"}, {"TH": "F"}
"""Accents with th as t; also with the vowel of "forty" in "thirty"; with th as f."""


def _said_with(accent: Mapping[str, str], way: Phones) -> Phones:
    return tuple(accent.get(phone, phone) for phone in way)


def _without_r(way: Phones) -> Phones:
    around = zip(("", *way), way, (*way[1:], ""), strict=False)
    return tuple(
        phone
        for before, phone, after in around
        if phone != "R" or before not in _VOWELS or after in _VOWELS
    )


_VOWELS = frozenset("AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW".split())


def number_ways(figures: str, manner: Manner | None = None) -> tuple[str, ...]:
    """
    The ways to say a number in figures; empty where it is no number.

    >>> number_ways("15"), number_ways("15", "digits"), number_ways("3/8"), number_ways("1.5")
    (('fifteen', 'one five'), ('one five',), ('three eighths',), ('one point five',))
    >>> number_ways("105", "words")
    ('one hundred and five', 'one hundred five', 'a hundred and five', 'a hundred five')
    """
    if found := _FRACTION.fullmatch(figures):
        top, bottom = map(int, found.groups())
        if bottom not in _PARTS or not 0 < top < bottom:
            return ()
        return (f"{in_words(top)} {_PARTS[bottom]}{'s' if top > 1 else ''}",)
    if not (found := _NUMBER.fullmatch(figures)) or len(found[1]) > 4:
        return ()
    whole = int(found[1])
    ways = [] if manner == "digits" else [in_words(whole)]
    if ways and whole >= 100:
        ways = _with_less(ways[0])
    if manner != "words":
        ways.append(spelled_out(found[1]))
    decimals = f" point {spelled_out(found[2])}" if found[2] else ""
    return tuple(dict.fromkeys(way + decimals for way in ways))


def _with_less(words: str) -> list[str]:
    """The ways without "and", and with "a" for "one"."""
    ways = [words, words.replace(" and ", " ")]
    if words.startswith("one hundred"):
        ways += [way.replace("one", "a", 1) for way in ways]
    return ways


def spelled_out(figures: str) -> str:
    """
    The words of figures, one by one.

    >>> spelled_out("07")
    'zero seven'
    """
    return " ".join(in_words(int(figure)) for figure in figures)


def sounded_out(word: str) -> Phones:
    """
    The phones of a word, such as a product's name, by the speaking voice's rules.

    Empty for what has no sound. Takes half a second the first time.
    """
    said = _rules()(word)
    # Pairs of signs that make one phone come first.
    return tuple(phone for sign in _SIGN.findall(said) for phone in _PHONES[sign].split())


@cache
def _rules() -> Callable[[str], str]:
    voice_part("hibari")
    rules: Callable[[str], str] = import_module("hibari.g2p").G2P(british=False)
    return rules


_PHONES = {
    "A": "EY", "I": "AY", "O": "OW", "W": "AW", "Y": "OY", "T": "T", "a": "AA", "b": "B",
    "d": "D", "e": "EH", "f": "F", "h": "HH", "i": "IY", "j": "Y", "k": "K", "l": "L",
    "m": "M", "n": "N", "o": "OW", "p": "P", "s": "S", "t": "T", "u": "UW", "v": "V",
    "w": "W", "z": "Z", "ð": "DH", "ŋ": "NG", "ɑ": "AA", "ɐ": "AH", "ɒ": "AA", "ɔ": "AO",
    "ə": "AH", "ɚ": "ER", "ɛ": "EH", "ɜ": "ER", "ɜɹ": "ER", "əɹ": "ER", "ɡ": "G", "ɪ": "IH",
    "ɹ": "R", "ɾ": "T", "ʃ": "SH", "ʊ": "UH", "ʌ": "AH", "ʒ": "ZH", "ʤ": "JH", "ʧ": "CH",
    "θ": "TH", "æ": "AE", "ᵊ": "AH", "ᵻ": "IH",
}  # fmt: skip
"""The voice's signs: those of the phonetic alphabet, and capitals for diphthongs."""
_SIGN = re.compile("|".join(sorted(_PHONES, key=len, reverse=True)))
