"""What a line is about, by the concepts it evokes and the frames of the rows."""

from __future__ import annotations

import pytest

from grammar import frames
from grammar.commands import Change
from grammar.concepts import CONCEPTS
from grammar.frame_table import FRAMES
from grammar.frames import SUPPOSE, EvokedLine, Frame, Match, matches, read_frame, read_line, root
from grammar.gist import gist
from grammar.language import short_form
from grammar.phrases import PHRASES
from grammar.words import split_words


def first(line: str) -> str:
    return matches(read_line(split_words(line), frozenset()))[0].phrase.template


@pytest.mark.parametrize(
    ("word", "stem"),
    [
        ("measures", "measur"), ("measuring", "measur"), ("running", "run"), ("glass", "glass"),
        ("bus", "bus"), ("poured", "pour"), ("laid", "laid"), ("dried", "dri"), ("dry", "dry"),
        ("boxes", "box"), ("can't", "can't"), ("primer's", "primer"), ("falling", "fall"),
        # A note is no "not", and what is supposed to be is not supposed.
        ("noted", "note"), ("not", "not"), ("supposed", "supposed"), ("suppose", "suppos"),
        # Short words keep what might be an ending: three letters, or two before "ing" and "ed".
        ("gas", "gas"), ("bags", "bag"), ("lies", "lie"), ("axes", "axe"), ("dries", "dri"),
        ("die", "die"), ("gone", "gon"), ("bay", "bay"), ("clay", "clai"), ("this", "this"),
        ("doing", "doing"), ("laying", "lay"), ("used", "used"), ("cured", "cur"),
        # One of two alike goes, but not where the word itself ends in two.
        ("planned", "plan"), ("pressed", "press"), ("filling", "fill"), ("fleeing", "fle"),
        ("boards", "board"), ("washes", "wash"), ("walls'", "walls'"), ("o'clock", "o'clock"),
    ],
)  # fmt: skip
def test_a_word_is_known_by_its_root(word: str, stem: str) -> None:
    assert root(word) == stem


def test_each_frame_is_of_a_row_and_needs_something() -> None:
    templates = {phrase.template for phrase in PHRASES}
    for template, texts in FRAMES.items():
        assert template in templates
        for text in texts:
            frame = read_frame(text)
            assert frame.needed, (template, text)
            assert not {term for terms in frame.needed for term in terms} & set(frame.never)


def test_each_concept_is_used_and_none_is_named_twice() -> None:
    used = {
        term
        for frames in FRAMES.values()
        for frame in map(read_frame, frames)
        for terms in (*frame.needed, frame.beside, frame.never)
        for term in terms
    }
    assert set(CONCEPTS) - used <= {SUPPOSE}
    for concept, words in CONCEPTS.items():
        assert len(words.split()) == len(set(words.split())), concept


@pytest.mark.parametrize(
    ("line", "template"),
    [
        ("how long does the stuff stay runny after stirring", "working time"),
        ("which places stick up the most", "high spots"),
        ("what amount of primer should be fetched", "how much primer"),
        # Words of one term, with others between.
        ("stop going on and take that awful shot back", "undo [that]"),
    ],
)
def test_the_row_that_most_was_said_of_comes_first(line: str, template: str) -> None:
    assert first(line) == template


def test_one_word_never_counts_for_two_concepts() -> None:
    # "Door" and "step" are both needed of a door's step.
    assert "doors" not in [
        m.phrase.template for m in matches(read_line(split_words("door"), frozenset()))
    ]


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("the customer wants it two mil higher", "raise finish 2 mil"),
        ("shave two mil off the finish", "lower finish 2 mm"),
        ("I reckon the lad moved the tripod", "reference moved"),
        ("tell me about the step at door 1", "how is door 1"),
        ("what depth 2 metres along and 3 metres up", "how deep at 2 by 3 m"),
        ("on door 2 the right side is 7 down and the left is 4 down", "door 2 left -4 right -7"),
        ("say we go four mil up, what then", "what if raise finish 4 mm"),
        ("the load's fine because the engineer signed it off",
         "accept weight because the engineer signed it off"),
        ("I'm working in inches", "readings in inches"),
        ("it's a wooden floor underneath", "floor is timber"),
        ("18 sacks in the van, is that enough", "are 18 bags enough"),
        ("bags are 22 euros each", "bag costs 22 euros"),
    ],
)  # fmt: skip
def test_values_go_where_they_belong(line: str, meant: str) -> None:
    found = gist(line)
    assert found is not None
    assert found.command is not None
    assert short_form(found.command) == meant.replace("mil", "mm")


@pytest.mark.parametrize(
    "line",
    [
        "they told me the primer was down",
        "we could have gone 3 mm higher",
        "we won't be going 3 mm higher",
        "he said shave two mil off the finish",
        "what would 3 mm higher look like, was it",
    ],
)
def test_what_is_only_told_changes_nothing(line: str) -> None:
    found = gist(line)
    assert found is None or not isinstance(found.command, Change)


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("end up the note", "end of note"),
        ("bring this job back up", "bring back job"),
    ],
)
def test_a_row_without_a_frame_is_known_by_its_own_words(line: str, meant: str) -> None:
    assert meant not in FRAMES
    found = gist(line)
    assert found is not None
    assert found.command is not None
    assert short_form(found.command) == meant


# --- how much a line says of a row -------------------------------------------------------------

LOW = next(phrase for phrase in PHRASES if phrase.template == "low spots")


def places(*each: int) -> frozenset[int]:
    return frozenset(each)


def line_of(*weights: float, roots: str = "", **evoked: tuple[frozenset[int], ...]) -> EvokedLine:
    """A line as it is read: what its words weigh, and where it evokes what."""
    words = tuple(roots.split() or [f"w{at}" for at in range(len(weights))])
    return EvokedLine(words, words, frozenset(), evoked, weights)


def matched(
    monkeypatch: pytest.MonkeyPatch, frame: str, line: EvokedLine, **tells: float
) -> Match | None:
    """What a frame finds in a line, where each word tells so much; those not named, a half."""
    monkeypatch.setattr(frames, "_weight_of", lambda words: tells.get("_".join(words), 0.5))
    return frames._match(LOW, read_frame(frame), line)


def test_what_was_said_of_a_row_counts_for_it_and_the_rest_against_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    line = line_of(0.5, 0.2, 0.4, 0.0, a=(places(0),), b=(places(1),))
    for frame, score, share, used in (
        # What is needed counts in full, what may stand beside it six tenths, the rest is taken off
        ("a", 0.5 - 0.6 * 0.6, 0.5 / 1.1, {0}),
        ("a ~b", 0.5 + 0.6 * 0.2 - 0.6 * 0.4, 0.7 / 1.1, {0, 1}),
        ("a b", 1.0 - 0.6 * 0.4, 0.7 / 1.1, {0, 1}),
        ("a/c b", 1.0 - 0.6 * 0.4, 0.7 / 1.1, {0, 1}),
    ):  # fmt: skip
        found = matched(monkeypatch, frame, line)
        assert found is not None
        assert (found.score, found.share) == pytest.approx((score, share)), frame
        assert found.used == used
        assert not found.strange
    assert matched(monkeypatch, "a !b", line) is None
    assert matched(monkeypatch, "a c", line) is None


def test_a_word_that_weighs_nothing_is_a_fifth_of_a_word_where_it_is_needed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for weights, share in (((0.0, 0.3), 0.2 / 0.5), ((0.1, 0.3), 0.1 / 0.4), ((0.0, 0.0), 1.0)):
        found = matched(monkeypatch, "a", line_of(*weights, a=(places(0),)))
        assert found is not None
        assert found.share == pytest.approx(share), weights


def test_a_concept_that_tells_a_row_from_most_is_counted(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    line = line_of(0.5, 0.5, roots="x y", a=(places(0),), b=(places(1),))
    for tells, telling in ((0.3, 2), (0.29, 1)):
        found = matched(monkeypatch, "a b", line, x=0.3, y=tells)
        assert found is not None
        assert found.telling == telling
    # two words together tell more than one
    found = matched(monkeypatch, "a", line_of(1, 1, roots="x y", a=(places(0, 1),)), x_y=0.15)
    assert found is not None
    assert found.telling == 1
    assert found.score == pytest.approx(0.15 + 0.15)


def test_a_word_that_no_frame_knows_is_strange_beside_what_is_meant(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for weights, strange in (((0.5, 0.45), True), ((0.45, 0.5), False), ((0.5, 0.44), False)):
        found = matched(monkeypatch, "a", line_of(*weights, a=(places(0),)))
        assert found is not None
        assert found.strange is strange, weights


def test_each_concept_has_words_of_its_own() -> None:
    one, two, both = places(0), places(1), places(0, 1)
    for choices, apart in (
        ([[one], [two]], [one, two]), ([[one], [one]], None), ([[one, two], [one]], [two, one]),
        # The longest first,
        ([[one, both]], [both]),
        # unless it leaves none for another.
        ([[one, both], [two]], [one, two]), ([[both], [two]], None), ([], []),
    ):  # fmt: skip
        assert frames._apart(choices) == apart, choices


def test_the_fewer_rows_a_word_is_about_the_more_it_tells(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Of a hundred rows: in one 1, in ten a half, in all of them, by the logarithm, nothing."""
    monkeypatch.setattr(frames, "_rows", lambda: (None,) * 100)
    index = {"a": ((("a",), "t"), (("a", "b"), "u")), "c": ((("c",), "t"), (("c",), "u"))}
    monkeypatch.setattr(frames, "_index", lambda: index)
    for words, counts, tells in (
        (("a",), {"t": 1, "u": 1}, 1.0), (("a",), {"t": 10, "u": 1}, 0.5),
        (("a",), {"t": 50}, 0.15051), (("a",), {"t": 60}, 0.15), (("a",), {"t": 900}, 0.15),
        (("a", "b"), {"t": 1, "u": 10}, 0.5), (("c",), {"t": 5, "u": 5}, 0.5),
        (("z",), {"t": 1}, 0.45), (("a",), {}, 0.45),
    ):  # fmt: skip
        monkeypatch.setattr(frames, "_rows_of", lambda counts=counts: counts)
        assert frames._weight_of.__wrapped__(words) == pytest.approx(tells, abs=1e-5), words


def test_a_slip_in_a_root_is_mended_where_one_is_near(monkeypatch: pytest.MonkeyPatch) -> None:
    known = ("primer", "pour", "waste", "floors", "bag", "grain", "grout", "depth", "lift")
    two = ("grains", "graint")
    monkeypatch.setattr(frames, "_index", lambda: dict.fromkeys((*known, *two), ()))
    monkeypatch.setattr(frames, "_known_roots", lambda: known)
    for said, root_of in (
        ("pour", "pour"), ("primmer", "primer"), ("brimer", "brimer"), ("prmier", "primer"),
        ("primmmer", "primmmer"),  # two slips
        # A short one has its letters turned round, or one too many or too few for a longer word.
        ("puor", "pour"), ("poun", "poun"), ("poor", "poor"), ("dpeth", "depth"),
        ("wast", "wast"),  # a word of every day
        ("wate", "waste"), ("dept", "depth"), ("lif", "lif"), ("liift", "liift"), ("lifs", "lifs"),
        ("depht", "depth"), ("depts", "depts"), ("bagg", "bagg"),
        ("floord", "floors"), ("grainn", "grain"), ("grant", "grant"),
        ("gra1n", "gra1n"), ("bags", "bags"),
    ):  # fmt: skip
        monkeypatch.setattr(frames, "_EVERY_DAY", frozenset(("wast",)))
        assert frames._mended.__wrapped__(said) == root_of, said
    monkeypatch.setattr(frames, "_known_roots", lambda: two)
    assert frames._mended.__wrapped__("grainz") == "grainz"
    # Of two that mean the same either will do.
    same = {each: [((each,), "corn")] for each in two}
    monkeypatch.setattr(frames, "_index", lambda: same)
    assert frames._mended.__wrapped__("grainz") == "grains"


def test_two_words_may_stand_between_those_of_one_term() -> None:
    roots = "put x x back x x x back".split()
    for at, entry, found in (
        (0, ("put", "back"), places(0, 3)), (3, ("back", "back"), None),
        (0, ("put", "x"), places(0, 1)),
        (0, ("put",), places(0)), (1, ("x", "back"), places(1, 3)), (4, ("x", "back", "x"), None),
        (6, ("x", "back"), places(6, 7)), (0, ("put", "x", "back"), places(0, 1, 3)),
    ):  # fmt: skip
        assert frames._places(roots, at, entry) == found, (at, entry)


def test_rows_without_a_frame_are_known_by_two_words_or_not_at_all(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(frames, "FRAMES", {})
    for template, words in (
        ("end line", ["end", "line"]), ("edge strip in place", ["edge", "strip", "place"]),
        ("batch", []), ("confirm", []), ("cancel that", []), ("stop pour", ["stop", "pour"]),
        ("joint along (column | row) <line:grid_line>", ["joint", "along", "column"]),
        ("hollow at [point] <point>", []), ("end of note", ["end", "note"]),
    ):  # fmt: skip
        (phrase,) = (each for each in PHRASES if each.template == template)
        wanted = (Frame(tuple((word,) for word in words), (), ()),) if words else ()
        assert frames._frames_of(phrase) == wanted, template


def test_what_each_word_of_a_line_weighs() -> None:
    for line, values, weights in (
        ("please give us it", (), [0.0, 0.0, 0.0]),
        ("quux quux", (1,), [0.45, 0.0]),
        ("customer mm quux", (), [0.0, 0.0, 0.45]),
        ("what if quux", (), [0.0, 0.0, 0.45]),
    ):  # fmt: skip
        found = read_line(split_words(line), frozenset(values)).weights
        assert list(found) == weights, line
    # a word that says little weighs little, whatever it may be about
    slight = read_line(split_words("start stuff low"), frozenset()).weights
    assert slight[0] <= 0.15
    assert slight[1] <= 0.15
    assert slight[2] > 0.45
    # a value is about nothing, but its place may be in a term of two words
    assert read_line(split_words("low"), frozenset((0,))).evoked == {}


def test_of_the_frames_of_a_row_the_likeliest_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    high = next(phrase for phrase in PHRASES if phrase.template == "high spots")
    rows = (
        frames._Row(LOW, (read_frame("a"), read_frame("a b"))),
        frames._Row(high, (read_frame("b"), read_frame("b c"))),
    )
    monkeypatch.setattr(frames, "_rows", lambda: rows)
    monkeypatch.setattr(frames, "_weight_of", lambda _: 0.5)
    line = line_of(0.5, 0.5, a=(places(0),), b=(places(1),))
    found = [(match.phrase.template, round(match.score, 6)) for match in matches(line)]
    assert found == [("low spots", 1.0), ("high spots", 0.2)]
    alone = line_of(0.5, 0.9, a=(places(0),), b=(places(1),))
    monkeypatch.setattr(frames, "_weight_of", lambda words: 0.9 if words == ("w1",) else 0.1)
    rows = (frames._Row(LOW, (read_frame("a"),)), rows[1])
    assert [match.phrase.template for match in matches(alone)] == ["high spots", "low spots"]


def test_a_word_tells_as_much_as_the_concept_it_evokes_and_no_more() -> None:
    line = read_line(split_words("what is the depth at the door"), frozenset())
    weights = dict(zip(line.words, line.weights, strict=True))
    assert weights["depth"] == pytest.approx(frames._weight_of(("depth",)))
    assert 0.15 < weights["depth"] < 1
