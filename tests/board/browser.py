"""A real browser without a window, by its driver's own protocol (W3C WebDriver)."""

from __future__ import annotations

import base64
import json
import shutil
import subprocess
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

ARGUMENTS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
LONG_S = 30.0


def is_there() -> bool:
    """Whether there are a browser and its driver."""
    return bool(shutil.which("chromedriver") and shutil.which("chromium"))


class Browser:
    """A page, looked at and touched."""

    def __init__(self, session: str) -> None:
        self._session = session
        self.taps = 0

    def ask(self, method: str, where: str, data: dict[str, Any] | None = None) -> Any:
        return _asked(method, f"{self._session}{where}", data)

    def go(self, address: str) -> None:
        self.ask("POST", "/url", {"url": address})

    def run(self, script: str, *arguments: Any) -> Any:
        return self.ask("POST", "/execute/sync", {"script": script, "args": list(arguments)})

    def element(self, css: str) -> str:
        found = self.ask("POST", "/element", {"using": "css selector", "value": css})
        return str(found[ELEMENT])

    def text(self, css: str) -> str:
        return str(self.ask("GET", f"/element/{self.element(css)}/text"))

    def tap(self, css: str) -> None:
        """Touch what is there, once it may be touched; a tap is counted."""
        element = self.element(css)
        self.until(lambda: bool(self.ask("GET", f"/element/{element}/enabled")), css)
        self.ask("POST", f"/element/{element}/click", {})
        self.taps += 1

    def type(self, css: str, keys: str) -> None:
        self.ask("POST", f"/element/{self.element(css)}/value", {"text": keys})

    def until(self, holds: Any, what: str = "") -> None:
        end = time.monotonic() + LONG_S
        while not holds():
            assert time.monotonic() < end, f"{what}: {self.run('return document.body.innerText')}"
            time.sleep(0.02)

    def picture(self, path: Path) -> None:
        path.write_bytes(base64.b64decode(self.ask("GET", "/screenshot")))

    def console(self) -> list[str]:
        """What the page complained of since the last look."""
        return [each["message"] for each in self.ask("POST", "/se/log", {"type": "browser"})]


def _asked(method: str, address: str, data: dict[str, Any] | None) -> Any:
    body = None if data is None else json.dumps(data).encode()
    request = urllib.request.Request(
        address, body, {"Content-Type": "application/json"}, method=method
    )
    try:
        with urllib.request.urlopen(request, timeout=60) as answer:
            return json.load(answer)["value"]
    except urllib.error.HTTPError as fault:
        told = fault.read().decode(errors="replace")
        fault.close()
        raise AssertionError(f"{method} {address}: {told[:500]}") from None


@contextmanager
def driver() -> Iterator[str]:
    """A driver, and the address it listens at."""
    program = subprocess.Popen(["chromedriver", "--port=0"], stdout=subprocess.PIPE, text=True)
    assert program.stdout is not None
    try:
        for line in program.stdout:
            if "started successfully on port" in line:
                yield f"http://127.0.0.1:{line.split()[-1].rstrip('.')}"
                return
        raise AssertionError("chromedriver did not start")
    finally:
        program.kill()
        program.wait()
        program.stdout.close()


@contextmanager
def browser(at: str, width: int = 390, height: int = 844) -> Iterator[Browser]:
    """A phone's browser."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        options = {
            "args": [*ARGUMENTS, f"--user-data-dir={folder}"],
            "binary": shutil.which("chromium"),
            "mobileEmulation": {
                "deviceMetrics": {"width": width, "height": height, "pixelRatio": 2, "touch": True}
            },
        }
        wanted = {"goog:chromeOptions": options, "goog:loggingPrefs": {"browser": "ALL"}}
        opened = _asked("POST", f"{at}/session", {"capabilities": {"alwaysMatch": wanted}})
        page = Browser(f"{at}/session/{opened['sessionId']}")
        try:
            yield page
        finally:
            page.ask("DELETE", "")
