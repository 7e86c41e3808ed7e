"""One file that holds a job whole: record, cards, pictures, report and tables, each with a digest.

A zip file, so that anybody can look into it without this program. What comes out of one is held to
names that we give, to sizes, and to the digests in its list of contents: these find what a bad copy
changed, and are no proof of who wrote it.
"""

from __future__ import annotations

import hashlib
import io
import json
import re
import stat
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from assistant.errors import LeadsmanError

SUFFIX = ".leadsman.zip"
SCHEMA = "leadsman-archive/1"
RECORD = "job.leadsman"
_CONTENTS = "contents.json"
_NAME = re.compile(
    r"job\.leadsman|job\.json|(report|brief)\.(html|pdf)|pictures/[a-z-]{1,40}\.svg"
    r"|tables/[a-z]{1,20}\.csv|cards/[a-z0-9-]{1,110}\.toml"
)
"""Every name there may be: so none leads out of a folder, or means something to a system."""
MOST_FILES = 200
LARGEST_MB = 64
"""Of one file; the record of years is a tenth of it. Raising it takes more memory."""
ALL_MB = 256
_MB = 1024 * 1024
_BROKEN = (
    zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, EOFError, ValueError,
    OSError,
)  # fmt: skip
_LONG_AGO = (1980, 1, 1, 0, 0, 0)
"""The earliest time that a zip file can hold: the same content is then the same bytes."""


def packed(files: Mapping[str, bytes], job: str) -> bytes:
    """
    An archive of some files.

    Parameters
    ----------
    files : mapping of str to bytes
        By the names they have in it, the record among them.
    job : str
        What the job is called.
    """
    for name in files:
        if not _NAME.fullmatch(name):
            raise ValueError(f"{name} is no name in an archive")
    contents = {
        "schema": SCHEMA,
        "job": job,
        "files": {
            name: {"bytes": len(files[name]), "sha256": _digest(files[name])}
            for name in sorted(files)
        },
    }
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in (_CONTENTS, *sorted(files)):
            content = json.dumps(contents, indent=1).encode() if name == _CONTENTS else files[name]
            info = zipfile.ZipInfo(name, _LONG_AGO)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = 0o644 << 16
            archive.writestr(info, content)
    return written.getvalue()


def unpacked(path: Path) -> tuple[str, dict[str, bytes]]:
    """
    What the job of an archive is called, and its files by their names; all of them checked.

    Raises LeadsmanError, and says why, where anything in it is not as it was packed.
    """
    try:
        with zipfile.ZipFile(path) as archive:
            infos = archive.infolist()
            _check_infos(infos)
            left = ALL_MB * _MB
            files: dict[str, bytes] = {}
            for info in infos:
                files[info.filename] = _read(archive, info, min(LARGEST_MB * _MB, left))
                left -= len(files[info.filename])
    except LeadsmanError as why:
        raise LeadsmanError(f"{path} was not opened: {why}") from why
    except FileNotFoundError as fault:
        raise LeadsmanError(f"There is no file {path}.") from fault
    except _BROKEN as fault:
        raise LeadsmanError(
            f"{path} was not opened: it is no archive, or a damaged one ({fault})."
        ) from fault
    job = _checked(files, path)
    return job, files


def _check_infos(infos: list[zipfile.ZipInfo]) -> None:
    names = [info.filename for info in infos]
    if len(names) > MOST_FILES or len(set(names)) < len(names):
        raise LeadsmanError("it holds too many files, or one name twice.")
    for info in infos:
        # As it stands in the file: what zipfile makes of a name may look better than it is.
        if info.orig_filename != info.filename or not (
            info.filename == _CONTENTS or _NAME.fullmatch(info.filename)
        ):
            raise LeadsmanError(f"{info.orig_filename!r} is no name that an archive has.")
        kind = stat.S_IFMT(info.external_attr >> 16)
        if kind not in (0, stat.S_IFREG) or info.flag_bits & 1:
            raise LeadsmanError(f"{info.filename} is a link, or locked, and no plain file.")
        if info.file_size > LARGEST_MB * _MB:
            raise LeadsmanError(f"{info.filename} is larger than {LARGEST_MB} MB.")


def _read(archive: zipfile.ZipFile, info: zipfile.ZipInfo, most: int) -> bytes:
    """A file's content, read no further than it may be long, whatever it says of itself."""
    with archive.open(info) as stream:
        content = stream.read(most + 1)
    if len(content) > most:
        raise LeadsmanError(f"it holds more than {ALL_MB} MB, or {LARGEST_MB} MB in one file.")
    return content


def _checked(files: dict[str, bytes], path: Path) -> str:
    """Hold the files to the list of contents, which is taken out; returns the job's name."""
    try:
        contents: Any = json.loads(files.pop(_CONTENTS))
        schema, job, listed = (contents[key] for key in ("schema", "job", "files"))
        digests = {str(name): str(about["sha256"]) for name, about in listed.items()}
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError) as fault:
        raise LeadsmanError(
            f"{path} was not opened: it has no list of contents, or none that can be read."
        ) from fault
    if schema != SCHEMA:
        raise LeadsmanError(
            f"{path} was not opened: it is of another kind ({str(schema)[:40]!r}, not {SCHEMA})."
        )
    wrong = [name for name in files if digests.get(name) != _digest(files[name])]
    wrong += [name for name in digests if name not in files]
    if wrong or RECORD not in files:
        names = ", ".join(sorted(wrong)) or RECORD
        raise LeadsmanError(
            f"{path} was not opened: {names[:200]} is missing, or not as it was packed. Copy it "
            "again from where it came."
        )
    return str(job)


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
