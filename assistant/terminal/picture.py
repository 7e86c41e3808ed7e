"""A picture of a session: what a screen shows, as an SVG that loads nothing from elsewhere."""

from __future__ import annotations

import io
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from rich.console import Console
from rich.terminal_theme import SVG_EXPORT_THEME

from assistant.errors import LeadsmanError
from assistant.terminal.rich_output import RichOutput
from assistant.terminal.screen import WIDEST, Screen

SUFFIX = ".svg"

# rich's own frame fetches a font from the web, and draws the window of a system that is not ours.
_FRAME = """\
<svg viewBox="0 0 {width} {height}" xmlns="http://www.w3.org/2000/svg">
<style>
.{unique_id}-matrix {{ font-family: monospace; font-size: {char_height}px; }}
{styles}
</style>
<defs>
<clipPath id="{unique_id}-clip-terminal">
<rect x="0" y="0" width="{terminal_width}" height="{terminal_height}"/>
</clipPath>
{lines}
</defs>
<rect width="100%" height="100%" rx="8" fill="BACKGROUND"/>
<g transform="translate({terminal_x}, {terminal_y})" clip-path="url(#{unique_id}-clip-terminal)">
{backgrounds}
<g class="{unique_id}-matrix" xml:space="preserve">
{matrix}
</g>
</g>
</svg>
""".replace("BACKGROUND", SVG_EXPORT_THEME.background_color.hex)


class ScreenPicture:
    """A screen in full colour and full width, whatever the terminal at hand can show."""

    def __init__(self) -> None:
        self._console = Console(
            file=io.StringIO(),
            record=True,
            width=WIDEST,
            force_terminal=True,
            legacy_windows=False,
            color_system="truecolor",
            no_color=False,
            emoji=False,
        )
        self.screen = Screen(RichOutput(console=self._console))

    def svg(self) -> str:
        """All that was shown so far."""
        return self._console.export_svg(
            title="", clear=False, code_format=_FRAME, unique_id="session", theme=SVG_EXPORT_THEME
        )


@contextmanager
def picture_in(path: Path) -> Iterator[ScreenPicture]:
    """
    A picture that is written to its file once all was shown; LeadsmanError where it can't be.

    Whether it can be is checked before anything is played, and an older picture stays until
    the new one is complete.
    """
    _check(path)
    picture, beside = ScreenPicture(), _begun_beside(path)
    try:
        yield picture
        try:
            beside.write_text(picture.svg(), encoding="utf-8", newline="\n")
            beside.chmod(0o666 & ~_umask())
            beside.replace(path)
        except OSError as fault:
            raise _unwritten(path, fault) from fault
    finally:
        beside.unlink(missing_ok=True)


def _begun_beside(path: Path) -> Path:
    try:
        handle, name = tempfile.mkstemp(SUFFIX, f".{path.stem}-", path.parent)
    except OSError as fault:
        raise _unwritten(path, fault) from fault
    os.close(handle)
    return Path(name)


def _unwritten(path: Path, fault: OSError) -> LeadsmanError:
    return LeadsmanError(f"The picture {path} cannot be written: {fault.strerror}.")


def _check(path: Path) -> None:
    """Refuse to overwrite a job or a file of lines because of a slip in the command."""
    if path.suffix.lower() != SUFFIX:
        raise LeadsmanError(
            f"--svg {path}: the name of a picture ends in {SUFFIX}, such as {path.stem}{SUFFIX}."
        )
    if path.is_dir():
        raise LeadsmanError(f"{path} is a folder. Name the picture in it: {path / 'job.svg'}")
    if path.exists() and b"<svg" not in _start_of(path):
        raise LeadsmanError(f"{path} is there already and is no picture, so it was left as it was.")


def _start_of(path: Path) -> bytes:
    try:
        with path.open("rb") as stream:
            return stream.read(1000)
    except OSError as fault:
        raise LeadsmanError(f"{path} cannot be read: {fault.strerror}.") from fault


def _umask() -> int:
    """The process's umask, which Python can only read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
