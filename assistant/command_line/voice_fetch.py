"""``leadsman voice fetch``: a model for vosk, by vosk's own download, examined before use."""

from __future__ import annotations

import re
import shutil
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from assistant.errors import LeadsmanError
from assistant.sound.voice_parts import voice_part

LANGUAGE = "en-us"
_NEEDED = (("am/final.mdl", "final.mdl"), ("conf/model.conf", "mfcc.conf", "conf/mfcc.conf"))
"""Files every model has, at the first or the other place."""
_LONG = 80
"""Longest error text to show; a longer one is about the library's inside."""

Tell = Callable[[str], None]


def fetch_model(folder: Path, tell: Tell, language: str = LANGUAGE) -> Path:
    """
    Fetch a small model into a folder; where it went.

    It is fetched beside its place, examined and loaded, and only then put there: what is
    in the folder can be used.

    Raises
    ------
    LeadsmanError
        Where there is no network, no such language, no room, or what arrived is no model;
        says what to do instead.
    """
    vosk = voice_part("vosk")
    there = sorted(folder.glob(f"vosk-model*{language}*")) if folder.is_dir() else []
    if there:
        examine_model(vosk, there[0])
        tell(f"There is a model already: {there[0]}")
        return there[0]
    draft = folder / ".fetching"
    shutil.rmtree(draft, ignore_errors=True)
    try:
        draft.mkdir(parents=True)
        tell(f"Fetching a model for {language} …")
        arrived = _downloaded(vosk, draft, language)
        tell("Looking at what arrived …")
        examine_model(vosk, arrived)
        place = folder / arrived.name
        arrived.rename(place)
    except OSError as fault:
        raise LeadsmanError(_not_fetched(_in_short(fault), folder)) from fault
    finally:
        shutil.rmtree(draft, ignore_errors=True)
    tell(f"The model is in {place}")
    return place


def _downloaded(vosk: Any, folder: Path, language: str) -> Path:
    class Download(vosk.Model):  # type: ignore[misc]
        """The download alone: a model object that loads no model."""

        def __init__(self) -> None: ...

        def __del__(self) -> None: ...

    try:
        with _only_folder(vosk, folder):
            return Path(Download().get_model_by_lang(language))
    except SystemExit as fault:
        raise LeadsmanError(f"There is no model for “{language}” to be fetched.") from fault
    except zipfile.BadZipFile as fault:
        raise LeadsmanError(_not_fetched("it arrived damaged.", folder.parent)) from fault
    except (KeyError, ValueError) as fault:
        told = f"the list of models makes no sense ({fault})."
        raise LeadsmanError(_not_fetched(told, folder.parent)) from fault


@contextmanager
def _only_folder(vosk: Any, folder: Path) -> Iterator[None]:
    """Vosk looks for a model in some folders and puts a new one into the last of them."""
    before = vosk.MODEL_DIRS
    vosk.MODEL_DIRS = [folder]
    try:
        yield
    finally:
        vosk.MODEL_DIRS = before


def examine_model(vosk: Any, path: Path) -> None:
    """Raise :class:`LeadsmanError` unless this is a model, whole, that can be loaded."""
    if not path.is_dir():
        raise LeadsmanError(f"{path} is no folder with a model.")
    for places in _NEEDED:
        if not any((path / place).is_file() for place in places):
            raise LeadsmanError(f"{path} is no whole model: {places[0]} is missing in it.")
    quiet = getattr(vosk, "SetLogLevel", lambda _level: None)
    quiet(-1)
    try:
        vosk.Model(str(path))
    except Exception as fault:  # vosk raises plain exceptions
        raise LeadsmanError(f"The model in {path} cannot be loaded: {fault}.") from fault


def _in_short(fault: OSError) -> str:
    """
    The reason at the end of an error's text, without the names of the layers it came through.

    >>> _in_short(OSError("Pool(host='x'): Caused by E('[Errno -2] Name or service not known')"))
    'the network cannot be reached (Name or service not known).'
    """
    if fault.errno is not None:
        return f"{fault}."
    told = str(fault)
    causes = re.findall(r"\[Errno -?\d+\] ([^'\")\]]+)", told)
    short = causes[-1] if causes else told if len(told) < _LONG else type(fault).__name__
    return f"the network cannot be reached ({short})."


def _not_fetched(why: str, folder: Path) -> str:
    return (
        f"No model could be fetched: {why}\n"
        "Without a network: fetch a small English model for vosk on another machine (a zip "
        f"named vosk-model-small-en-us-…), unpack it, and put its folder into {folder}, "
        "or name it: --model FOLDER. The built-in recogniser needs no model."
    )
