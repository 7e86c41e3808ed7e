"""
Make the weights of ``grammar/likely.npz`` from what people say who mean a row.

``python -m tests.paraphrases.fit`` reads the ``.txt`` files beside it: a row in its short form in
brackets, and under it a line each; ``[]`` is what is meant for no row. The developed lists of
``tests/benchmarks/talk`` and sentences of the phrase table itself are added. A linear classifier
for each row against the others (scikit-learn's ``LinearSVC``) gives the weights; small ones are
left out. How sure a score is (``grammar/confidence.py``) is learned from lines left out of the
weights, a quarter at a time. Takes some four minutes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import sha256
from multiprocessing import Pool
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import NamedTuple
from unittest.mock import patch

import numpy as np

from grammar import Misunderstood, understand
from grammar.confidence import KINDS, Evidence
from grammar.contractions import in_full
from grammar.gist import gist
from grammar.likely import NO_ROW, WEIGHTS, features, learned, row_name, row_of
from grammar.likely_meant import Weighed
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence
from grammar.values_said import values_said
from grammar.words import split_words
from tests.benchmarks.talk.table import LISTS, table

HERE = Path(__file__).parent
OF_THE_TABLE = 12
"""Sentences of each row's own ways."""
SAID_WEIGHT = 2.0
"""What people said counts so much more than what the table would take."""
SMALLEST = 0.05
"""Weights nearer to zero are left out."""
PENALTY = 0.7
FOLDS = 4
LEFT_OUT = 2500
"""Lines of each fold that are looked at."""


class Example(NamedTuple):
    """A line, the row that it means, and how much it counts."""

    line: str
    row: str
    weight: float = SAID_WEIGHT


def paraphrases() -> Iterator[Example]:
    """What stands in the files."""
    for path in sorted(HERE.glob("*.txt")):
        row = NO_ROW
        for line in map(str.strip, path.read_text(encoding="utf-8").splitlines()):
            if line.startswith("["):
                form = line[1:].partition("]")[0]
                row = row_of(understand(form)[0]) if form else NO_ROW
            elif line:
                yield Example(line, row)


def of_the_lists() -> Iterator[Example]:
    """What was said in the lists that the language is developed on, by what it should come to."""
    for name in LISTS:
        for said in table(name):
            for form in said.commands:
                try:
                    meant = understand(form)
                except Misunderstood:
                    continue
                if said.do in ("take", "ask") and meant:
                    yield Example(said.phrase, row_of(meant[0]))


def of_the_table() -> Iterator[Example]:
    """Sentences that the phrase table takes."""
    random = Random(1)
    for phrase in PHRASES:
        for _ in range(OF_THE_TABLE):
            yield Example(random_sentence(phrase, random).text, row_name(phrase), 1.0)


def features_of(line: str) -> list[str]:
    """As they are found in a line that is heard."""
    words = split_words(line)
    words = list(in_full(words) or words)
    return list(features(words, values_said(words)[0]))


def digest() -> str:
    """Of all files that hold paraphrases."""
    return sha256(b"".join(path.read_bytes() for path in sorted(HERE.glob("*.txt")))).hexdigest()


def fit(examples: list[Example]) -> dict[str, np.ndarray]:
    """The arrays of the file of weights."""
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.svm import LinearSVC

    vectors = TfidfVectorizer(analyzer=features_of, sublinear_tf=True)
    found = vectors.fit_transform([example.line for example in examples])
    model = LinearSVC(C=PENALTY, random_state=0).fit(
        found,
        [example.row for example in examples],
        sample_weight=[example.weight for example in examples],
    )
    weights = np.where(np.abs(model.coef_) < SMALLEST, 0.0, model.coef_).T
    step = np.abs(weights).max() / 127
    held = np.round(weights / step).astype(np.int8)
    kept = np.flatnonzero(held.any(axis=1))
    held = held[kept]
    terms = vectors.get_feature_names_out()[kept]
    meant = {
        feature
        for example in examples
        if example.row != NO_ROW
        for feature in features_of(example.line)
    }
    at, rows = np.nonzero(held)
    return {
        "names": _text(model.classes_),
        "features": _text(terms),
        "meant": np.array([term in meant for term in terms]),
        "idf": vectors.idf_[kept].astype(np.float32),
        "intercepts": model.intercept_.astype(np.float32),
        "starts": np.searchsorted(at, np.arange(len(kept) + 1)).astype(np.uint32),
        "rows": rows.astype(np.uint16),
        "weights": held[at, rows],
        "step": np.float32(step),
        "digest": _text([digest()]),
    }


class Weighing(NamedTuple):
    """What a line that was left out came to, and whether that was meant."""

    kind: str
    evidence: Evidence
    right: bool


def weighings(examples: Sequence[Example]) -> Iterator[Weighing]:
    """What becomes of lines by weights that were made without them."""
    lines = list(examples)
    Random(1).shuffle(lines)
    more = [*of_the_lists(), *of_the_table()]
    for fold in range(FOLDS):
        rest = [one for at, one in enumerate(lines) if at % FOLDS != fold]
        with TemporaryDirectory() as folder:
            file = Path(folder) / "weights.npz"
            np.savez(file, **fit([*rest, *more]))  # type: ignore[arg-type]
            with patch("grammar.likely.WEIGHTS", file):
                learned.cache_clear()
                learned()
        with Pool() as workers:
            held = lines[fold::FOLDS][:LEFT_OUT]
            yield from filter(None, workers.map(_weighing, held, chunksize=50))
    learned.cache_clear()


def _weighing(example: Example) -> Weighing | None:
    """What a line comes to; None where it does not depend on the weights."""
    try:
        if understand(example.line):
            return None
    except Misunderstood:
        pass
    with patch("grammar.likely_meant.likely_meant", return_value=None) as asked:
        found = gist(example.line)
    if found is not None or not asked.called:
        return None
    weighed: Weighed = asked.call_args.args[0]
    if not weighed.found:
        return None
    first = weighed.found[0]
    return Weighing(first.kind, weighed.evidence, first.row == example.row)


def coefficients(found: Sequence[Weighing]) -> np.ndarray:
    """Of each kind, one for each piece of evidence and the intercept."""
    from sklearn.linear_model import LogisticRegression

    rows = []
    for kind in KINDS:
        of_kind = [one for one in found if one.kind == kind]
        model = LogisticRegression(max_iter=2000).fit(
            [one.evidence for one in of_kind], [one.right for one in of_kind]
        )
        rows.append([*model.coef_[0], *model.intercept_])
    return np.array(rows, dtype=np.float32)


def _text(lines: object) -> np.ndarray:
    return np.frombuffer("\n".join(lines).encode(), dtype=np.uint8)  # type: ignore[arg-type]


def main() -> int:
    """Write the file."""
    examples = [*paraphrases(), *of_the_lists(), *of_the_table()]
    arrays = fit(examples)
    arrays["confidence"] = coefficients(list(weighings(list(paraphrases()))))
    with WEIGHTS.open("wb") as file:
        np.savez_compressed(file, **arrays)  # type: ignore[arg-type]
    size = WEIGHTS.stat().st_size / 1000
    print(f"{len(examples)} lines, {len(arrays['weights'])} weights, {size:.0f} kB")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
