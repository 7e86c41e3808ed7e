"""Finds the files of a model in a package, without loading any of the package's code."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import metadata
from pathlib import Path

from assistant.errors import EarsError


def packaged_folder(
    package: str, inside: str, wanted: Sequence[str], how_to_get: str, otherwise: str
) -> Path:
    """
    The folder of a package that holds the files.

    Raises :class:`EarsError`: with ``how_to_get`` where the package is not there, with which file
    is missing and ``otherwise`` where it is there without them.
    """
    try:
        found = metadata.distribution(package)
    except metadata.PackageNotFoundError:
        raise EarsError(how_to_get) from None
    folder = Path(str(found.locate_file(inside)))
    missing = [name for name in wanted if not (folder / name).is_file()]
    if missing:
        lacks = Path(missing[0]).name
        raise EarsError(
            f"{package} {found.version} carries no speech model ({lacks} is missing). {otherwise}"
        )
    return folder
