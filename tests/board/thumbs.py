"""
A whole survey by the buttons of a phone's page, in a real browser: taps counted, pictures kept.

    python -m tests.board.thumbs FOLDER

The room is begun at the keyboard. Then every reading comes by thumb: decimals, a sign forgotten and
asked for, a slip that the floor speaks against, one taken back; the network fails under three of
them. What is on record at the end has to be the floor that was meant, each line of it once.
"""

from __future__ import annotations

import sys
import tempfile
import threading
import time
from decimal import Decimal
from pathlib import Path

from assistant.record.journal import Journal
from tests.board.browser import Browser, browser, driver
from tests.board.test_talk import Served

READY = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
ROWS = (
    ("-12", "-13", "-14.5", "-16", "-15", "-13"),
    ("-14", "-15", "-16", "-17", "-16", "-15"),
    ("-15", "-16", "-18", "-18", "-17", "-16"),
    ("-17", "-18", "-19", "-19.5", "-18", "-17"),
)
SLIP, FORGOTTEN, TAKEN_BACK, CUT = 8, 14, 19, (5, 11, 17)
"""Which readings go wrong at first, from 0."""

CUT_OFF = """
const times = arguments[0], real = window.realFetch || (window.realFetch = window.fetch);
let count = 0;
window.fetch = (...asked) => real(...asked).then((answer) => {
  if (count++ < times) throw new Error("the network went down before the answer");
  return answer;
});
"""


def readings() -> list[str]:
    """In walking order, to and fro."""
    return [each for row, values in enumerate(ROWS) for each in values[:: -1 if row % 2 else 1]]


def meant() -> dict[str, Decimal]:
    """The floor, by its points."""
    return {
        f"{letter}{row}": Decimal(value)
        for row, values in enumerate(ROWS, 1)
        for letter, value in zip("ABCDEF", values, strict=True)
    }


class Thumb:
    """Taps the page, and waits for what it says."""

    def __init__(self, page: Browser) -> None:
        self.page = page

    def keys(self, signs: str) -> None:
        for sign in signs:
            self.page.tap(f'#keys [data-key="{sign}"]')

    def send(self, signs: str) -> None:
        self.keys(signs)
        self.page.tap("#go")
        self.settled()

    def say(self, words: str) -> None:
        self.page.tap(f'[data-say="{words}"]')
        self.settled()

    def settled(self) -> None:
        self.page.until(lambda: self.page.run("return unanswered === null"), "an answer")

    def asks(self, words: str) -> None:
        self.page.until(lambda: words in self.page.text("#asked"), words)


def surveyed(page: Browser, pictures: Path) -> None:
    """All 24 points, with what goes wrong on the way."""
    thumb = Thumb(page)
    for number, value in enumerate(readings()):
        if number in CUT:
            page.run(CUT_OFF, 3 if number == CUT[0] else 1)
            thumb.keys(value)
            page.tap("#go")
            if number == CUT[0]:
                page.until(lambda: not page.run("return document.getElementById('unsent').hidden"))
                page.picture(pictures / "cut.png")
            thumb.settled()
        elif number == SLIP:
            thumb.send("-91")
            thumb.asks("91 mm below")
            page.picture(pictures / "slip.png")
            thumb.say("cancel that")
            thumb.send(value)
        elif number == FORGOTTEN:
            thumb.send(value.lstrip("-"))
            thumb.asks("below or above")
            page.picture(pictures / "sign.png")
            thumb.say("below")
        elif number == TAKEN_BACK:
            thumb.send("-44.5" if value != "-44.5" else "-40")
            if page.run("return !document.getElementById('question').hidden"):
                thumb.say("cancel that")
            else:
                thumb.say("undo")
            thumb.send(value)
        else:
            thumb.send(value)
    thumb.say("next point")
    page.picture(pictures / "end.png")


def main(pictures: Path) -> None:
    """Serve a job, and survey it by thumb."""
    pictures.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, Journal.open(Path(folder) / "shed.leadsman") as j:
        served = Served(j)
        for line in READY:
            served.talk.hear(line)
        done: list[str] = []

        def thumbs() -> None:
            with driver() as at, browser(at) as page:
                begun = time.monotonic()
                page.go(served.board.code)
                page.until(lambda: "Next: A1" in page.text("#where"))
                page.picture(pictures / "begun.png")
                surveyed(page, pictures)
                done.append(f"{page.taps} taps in {time.monotonic() - begun:.0f} s of this machine")
                wide = page.run("return document.documentElement.scrollWidth - innerWidth")
                done.append(f"wider than the screen by {wide}")
                small = page.run(
                    "return [...document.querySelectorAll('button')].filter(b => b.offsetParent && "
                    "Math.min(b.offsetWidth, b.offsetHeight) < 40).length"
                )
                done.append(f"{small} buttons less than 40 points wide or high")
                done.append(f"console: {page.console()}")

        thread = threading.Thread(target=thumbs)
        thread.start()
        while thread.is_alive():
            served.arrived.wait(0.02)
            served.arrived.clear()
            served.take_all()
        thread.join()
        found = {name: each.said.number for name, each in served.talk.job.readings.items()}
        assert found == meant(), {k: (found.get(k), v) for k, v in meant().items()}
        said = [each for each in j.entries() if each.device]
        served.close()
    least = sum(len(each) + 1 for each in readings())
    print(f"24 points as meant, {len(said)} lines on record, all of phone 1: "
          f"{[each.device for each in said].count('phone 1') == len(said)}")  # fmt: skip
    print(f"least for these readings without a slip: {least} taps")
    print("\n".join(done))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
