"""Writes files for others: each whole or not at all, and over nothing unless that was asked for."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from assistant.errors import LeadsmanError
from grammar.frozen import frozen


@frozen
class Written:
    """What became of some files."""

    new: tuple[Path, ...]
    unchanged: tuple[Path, ...]
    """Those that were there with the same content."""

    @property
    def paths(self) -> tuple[Path, ...]:
        """All of them, in the order of their names."""
        return tuple(sorted((*self.new, *self.unchanged)))


def write_files(folder: Path, files: Mapping[str, bytes], *, replace: bool = False) -> Written:
    """
    Write files into a folder, which is made where it is not there.

    Parameters
    ----------
    folder : Path
    files : mapping of str to bytes
        Plain names, and what each is to hold.
    replace : bool
        Whether files that are there with other content may be replaced.

    Raises
    ------
    LeadsmanError
        Where one is there and may not be replaced, or cannot be written. In the first case
        nothing has been written; in the second a file stands as it was or as it is to be.
    """
    paths = {folder / name: content for name, content in files.items()}
    with _told(folder):
        folder.mkdir(parents=True, exist_ok=True)
    unchanged = {path for path, content in paths.items() if _holds(path, content)}
    others = [path for path in paths if path not in unchanged and os.path.lexists(path)]
    if others and not replace:
        names = ", ".join(path.name for path in others)
        raise LeadsmanError(
            f"{names}: there already in {folder}, with other content, so nothing was written. "
            "To write over it: --replace; elsewhere: --out FOLDER"
        )
    for path in others:
        if not path.is_file():
            raise LeadsmanError(f"{path} is no file, so it was not written over.")
    for path, content in paths.items():
        if path not in unchanged:
            with _told(path):
                _write(path, content)
    return Written(tuple(p for p in paths if p not in unchanged), tuple(sorted(unchanged)))


def free_name(folder: Path, name: str, content: bytes) -> str:
    """The name, with a number where another file has it that holds something else."""
    stem, ending = os.path.splitext(name)
    count = 1
    while True:
        free = name if count == 1 else f"{stem}-{count}{ending}"
        path = folder / free
        if not os.path.lexists(path) or _holds(path, content):
            return free
        count += 1


def _holds(path: Path, content: bytes) -> bool:
    try:
        return (
            path.is_file()
            and path.stat().st_size == len(content)
            and (path.read_bytes() == content)
        )
    except OSError:
        return False


def _write(path: Path, content: bytes) -> None:
    """Beside it first, and on disk, so that nobody ever finds half a file under its name."""
    handle, beside = tempfile.mkstemp(".part", ".leadsman-", path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(beside, 0o666 & ~_umask())
        os.replace(beside, path)
    except BaseException:
        os.unlink(beside)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


@contextmanager
def _told(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as fault:
        raise LeadsmanError(
            f"{path} cannot be written: {fault.strerror or fault}. Elsewhere: --out FOLDER"
        ) from fault
