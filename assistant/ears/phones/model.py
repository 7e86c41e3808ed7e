"""Reads the phone model's files: Gaussian mixtures of every phone between its neighbours.

They come with the package ``pocketsphinx``; only its files are used, none of its code, which
scores one sentence at a time and takes ten times as long. The files' headers describe their
layout. Names as in the field: a *senone* is the sound of one state; a *triphone* a phone between
two others; a *codebook* the Gaussians that all triphones of a phone share.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np

from assistant.ears.packaged import packaged_folder
from assistant.errors import EarsError
from assistant.sound.ready_made import how_to_get

PACKAGE = "pocketsphinx"
_FOLDER = "pocketsphinx/model/en-us"
DICTIONARY = "cmudict-en-us.dict"
_PARTS = ("means", "variances", "transition_matrices", "sendump", "mdef")
STATES = 3
"""States of a phone, one after the other."""
STREAMS, WIDTH, GAUSSIANS = 3, 13, 128
"""Cepstra, their slope and its slope; numbers in each; Gaussians of a codebook and stream."""
INSIDE, BEGINS, ENDS, ALONE = range(4)
"""The places of a triphone in a word."""
_STEP = 1024 * np.log(1.0001)
"""Nats in one step of a stored mixture weight."""
_PLACES = np.array([256**3, 256**2, 256, 1])
"""Factors that make one key of a triphone's position, middle, left and right."""
_LEAST_VARIANCE = 1e-4
_NEVER = -1e30

HOW_TO_GET = (
    f"The built-in recogniser's second model (inside {PACKAGE}) is not installed. "
    f"{how_to_get(PACKAGE)}"
)
_AGAIN = f"Try: pip install --force-reinstall {PACKAGE}"


def phones_folder() -> Path:
    """
    The folder of the model and its dictionary.

    Raises :class:`EarsError` with what to do where they are missing.
    """
    wanted = (DICTIONARY, *(f"en-us/{part}" for part in _PARTS))
    return packaged_folder(PACKAGE, _FOLDER, wanted, HOW_TO_GET, _AGAIN)


@dataclass(frozen=True)
class PhoneModel:
    """The model of how phones sound."""

    phones: tuple[str, ...]
    """Names; a phone's number is its index here."""
    silence: int
    weights: np.ndarray
    """(3 streams, 26, codebooks × 128) float32: factors of each number and its square."""
    constants: np.ndarray
    """(3 streams, codebooks × 128) float32."""
    mixtures: np.ndarray
    """(3 streams, 128, senones) float32: weight of each Gaussian, not its logarithm."""
    codebook_of: np.ndarray
    """(senones,): the phone whose Gaussians a senone uses."""
    transitions: np.ndarray
    """(phones, 3, 4) log-probabilities from state to state; 3 is the next phone."""
    senones_of: np.ndarray
    """(phones and triphones, 3)."""
    base_of: np.ndarray
    """(phones and triphones,): the phone in the middle."""
    keys: np.ndarray
    """Keys of the triphones, sorted."""
    numbers: np.ndarray
    """Numbers of the triphones, in the order of their keys."""

    @cached_property
    def number_of(self) -> dict[str, int]:
        """A phone's name to its number."""
        return {name: number for number, name in enumerate(self.phones)}

    @cached_property
    def plain(self) -> np.ndarray:
        """(120,) senones of the phones without neighbours, noises left out."""
        heard = [at for at, name in enumerate(self.phones) if not name.startswith("+")]
        return np.unique(self.senones_of[heard])

    def triphone(self, middle: int, left: int, right: int, position: int) -> int:
        """The number of a triphone, or of the nearest one where it is not in the model."""
        for place in (position, *(p for p in (INSIDE, BEGINS, ENDS, ALONE) if p != position)):
            key = int(np.dot((place, middle, left, right), _PLACES))
            at = int(np.searchsorted(self.keys, key))
            if at < len(self.keys) and self.keys[at] == key:
                return int(self.numbers[at])
        return middle


def load_phones(folder: Path) -> PhoneModel:
    """
    The model from its files.

    Raises :class:`EarsError` where they are not as expected.
    """
    try:
        return _loaded(folder / "en-us")
    except (OSError, ValueError, struct.error, IndexError) as fault:
        raise EarsError(
            f"The built-in recogniser's second model in {folder} cannot be read ({fault}). {_AGAIN}"
        ) from fault


def _loaded(folder: Path) -> PhoneModel:
    means = _gaussians(folder / "means")
    variances = np.maximum(_gaussians(folder / "variances"), _LEAST_VARIANCE)
    linear, square = means / variances, -0.5 / variances
    weights = np.concatenate((linear, square), axis=3)
    constants = -0.5 * (np.log(2 * np.pi * variances) + means * linear).sum(axis=3)
    names, silence, numbers, sequences = _definition(folder / "mdef")
    codebooks = len(names)
    base_of = np.where(np.arange(len(numbers)) < codebooks, np.arange(len(numbers)),
                       numbers["attributes"][:, 1])  # fmt: skip
    senones_of = sequences[numbers["sequence"]].astype(np.int64)
    mixtures = _mixtures(folder / "sendump")
    codebook_of = np.zeros(mixtures.shape[2], np.int64)
    codebook_of[senones_of] = base_of[:, None]
    transitions = _transitions(folder / "transition_matrices")
    in_company = numbers["attributes"][codebooks:].astype(np.int64)
    keys = in_company @ _PLACES
    order = np.argsort(keys)
    return PhoneModel(
        phones=names,
        silence=silence,
        weights=weights.transpose(1, 3, 0, 2).reshape(STREAMS, 2 * WIDTH, -1).astype(np.float32),
        constants=constants.transpose(1, 0, 2).reshape(STREAMS, -1).astype(np.float32),
        mixtures=mixtures,
        codebook_of=codebook_of,
        transitions=transitions,
        senones_of=senones_of,
        base_of=base_of,
        keys=keys[order],
        numbers=codebooks + order,
    )


def _numbers_after_header(path: Path) -> bytes:
    """The numbers after the text header and the byte-order mark."""
    held = path.read_bytes()
    end = held.find(b"endhdr\n")
    if not held.startswith(b"s3\n") or end < 0:
        raise ValueError(f"{path.name} has no header")
    return held[end + len(b"endhdr\n") + 4 :]


def _gaussians(path: Path) -> np.ndarray:
    """(codebooks, streams, 128, 13)."""
    held = _numbers_after_header(path)
    codebooks, streams, gaussians, *widths = struct.unpack_from("<6i", held)
    if (streams, gaussians, *widths) != (STREAMS, GAUSSIANS, WIDTH, WIDTH, WIDTH):
        raise ValueError(f"{path.name} is of another kind of model")
    count = codebooks * STREAMS * GAUSSIANS * WIDTH
    values = np.frombuffer(held, "<f4", count, 28).astype(float)
    return values.reshape(codebooks, STREAMS, GAUSSIANS, WIDTH)


def _transitions(path: Path) -> np.ndarray:
    held = _numbers_after_header(path)
    phones, states, onward, count = struct.unpack_from("<4i", held)
    if (states, onward) != (STATES, STATES + 1):
        raise ValueError(f"{path.name} is of another kind of model")
    counts = np.frombuffer(held, "<f4", count, 16).reshape(phones, states, onward).astype(float)
    parts = counts / counts.sum(axis=2, keepdims=True)
    logs: np.ndarray = np.log(parts, out=np.full_like(parts, _NEVER), where=parts > 0)
    return logs


def _mixtures(path: Path) -> np.ndarray:
    """(streams, 128, senones): stored as steps of a logarithm, after texts of given length."""
    held, at = path.read_bytes(), 0
    while length := struct.unpack_from("<i", held, at)[0]:
        at += 4 + length
        if not 0 < length < 1000:
            raise ValueError(f"{path.name} has no header")
    gaussians, senones = struct.unpack_from("<2i", held, at + 4)
    if gaussians != GAUSSIANS:
        raise ValueError(f"{path.name} is of another kind of model")
    steps = np.frombuffer(held, np.uint8, STREAMS * GAUSSIANS * senones, at + 12)
    parts: np.ndarray = np.exp(-_STEP * steps).astype(np.float32)
    return parts.reshape(STREAMS, GAUSSIANS, senones)


_TRIPHONE = np.dtype([("sequence", "<i4"), ("matrix", "<i4"), ("attributes", "u1", 4)])


def _definition(path: Path) -> tuple[tuple[str, ...], int, np.ndarray, np.ndarray]:
    """The phones' names, the silent ones, the table of triphones, senones of each sequence."""
    held = path.read_bytes()
    if not held.startswith(b"BMDF"):
        raise ValueError(f"{path.name} has no header")
    at = 12 + struct.unpack_from("<i", held, 8)[0]
    head = struct.unpack_from("<10i", held, at)
    codebooks, triphones, states, _, _, _, sequences, _, tree, silence = head
    if states != STATES:
        raise ValueError(f"{path.name} is of another kind of model")
    at += 40
    names = held[at : at + 16 * codebooks].split(b"\0")[:codebooks]
    at += sum(len(name) + 1 for name in names)
    # Padded to four bytes; then comes a tree that only the package's own code uses.
    at += -at % 4 + 8 * tree
    table = np.frombuffer(held, _TRIPHONE, triphones, at)
    at += triphones * _TRIPHONE.itemsize + 4
    table_of_senones = np.frombuffer(held, "<i2", sequences * STATES, at)
    told = tuple(name.decode("ascii") for name in names)
    return told, silence, table, table_of_senones.reshape(sequences, STATES)
