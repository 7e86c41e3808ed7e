"""``leadsman products new`` and ``check``: a card written by answering, and one looked at."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Mapping
from shutil import get_terminal_size
from textwrap import fill
from typing import Any

from assistant.command_line.parts import ALL_TAKEN, SOME_NOT_TAKEN, tell
from assistant.errors import CardError
from assistant.products.card_file import card_text, file_for, write_card
from assistant.products.card_keys import KEYS, Text, all_faults, value_checked
from assistant.products.cards import card_from_dict, toml_values
from assistant.products.key_help import CARD_UNITS, KEY_HELP, KeyHelp, is_range
from assistant.products.on_the_bag import Printed, in_card_unit, printed
from assistant.record.places import user_folders
from grammar.frozen import frozen

ABOUT = (
    "Answer from the bag and its data sheet, every number with its unit as it is printed there: "
    "50 lb, 1/8 in, 5 to 5.5 qt, 250 ft²/gal. Enter alone leaves out what may be left out, “back” "
    "goes to the question before, “stop” ends; nothing is written before you say yes at the end."
)

_BACK, _STOP = "back", "stop"
Answers = dict[str, "KeyAnswer"]


@frozen
class KeyAnswer:
    """What a key is to hold; None where it was left out."""

    value: Any = None
    printed: str = ""
    """As it was answered."""


class Stopped(Exception):
    """Whoever answers has had enough."""


def new_card(_options: argparse.Namespace, ask: Callable[[str], str] | None = None) -> int:
    """Ask for every key of a card, and write it in the folder of one's own cards."""
    ask = ask or _asked
    print(fill(ABOUT, width=min(get_terminal_size().columns, 80)))
    try:
        answers = _answers(ask)
        values = _given(answers)
        path = file_for(user_folders().cards, values["name"])
        text = card_text(values, {key: answers[key].printed for key in values})
        print(f"\n{text}\nIt would be {path}")
        if not _is_yes(ask("Write it? yes or no: ")):
            raise Stopped
        write_card(path, text)
    except (Stopped, EOFError, KeyboardInterrupt) as end:
        if not isinstance(end, Stopped):
            print()  # the question stands on the line still
        tell("No card was written.")
        return SOME_NOT_TAKEN
    print(f"Written: {path}\nIn the chat: product {values['name']}")
    return ALL_TAKEN


def check_cards(options: argparse.Namespace) -> int:
    """Look at card files, and name every fault of each at once."""
    faulty = 0
    for path in options.files:
        try:
            values = toml_values(path)
            faults: list[str] = [fault.text for fault in all_faults(values)]
        except CardError as fault:
            faults = [str(fault).removeprefix(f"{path}: ")]
            values = {}
        if not faults:
            print(f"{path}: no fault. {card_from_dict(values, str(path)).name} can be used.")
            continue
        faulty += 1
        counted = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
        print(f"{path}: {counted}.", *(f"  {each}" for each in faults), sep="\n")
    return SOME_NOT_TAKEN if faulty else ALL_TAKEN


# --- the questions -----------------------------------------------------------------------


def _answers(ask: Callable[[str], str]) -> Answers:
    """All answers; those that do not go together are asked for again."""
    answers: Answers = {}
    _ask_all(list(KEY_HELP), answers, ask)
    while faults := list(all_faults(_given(answers))):
        again = [key for key in KEY_HELP if any(key in fault.keys for fault in faults)]
        print("\nThese do not go together:", *(f"  {fault.text}" for fault in faults), sep="\n")
        for key in again:
            answers.pop(key, None)
        _ask_all(again, answers, ask)
    return answers


def _ask_all(keys: list[str], answers: Answers, ask: Callable[[str], str]) -> None:
    at = 0
    while at < len(keys):
        key = keys[at]
        if not _is_asked(key, answers):
            answers[key] = KeyAnswer()
            at += 1
            continue
        said = ask(_question(key)).strip()
        if said.casefold() == _STOP:
            raise Stopped
        if said.casefold() == _BACK:
            at = _one_before(keys, at, answers)
            continue
        try:
            answers[key] = _taken(key, said)
        except CardError as fault:
            print(f"  {fault}")
        else:
            at += 1


def _one_before(keys: list[str], at: int, answers: Answers) -> int:
    """The question before, but for those that answers before it have made idle."""
    at -= 1
    while at > 0 and not _is_asked(keys[at], answers):
        at -= 1
    return max(at, 0)


def _is_asked(key: str, answers: Answers) -> bool:
    """Whether a question makes sense after the answers so far."""
    needs = {
        "max_aggregate_percent": "max_with_aggregate_mm",
        "aggregate_density_kg_m3": "max_with_aggregate_mm",
        "primer_coats": "primer_m2_per_l",
        "primer_drying_min": "primer_m2_per_l",
    }
    if key == "wet_density_kg_m3":
        return answers.get("yield_l", KeyAnswer()).value is None
    return key not in needs or answers.get(needs[key], KeyAnswer()).value is not None


def _may_be_left_out(key: str) -> bool:
    # Where these are asked for, something before has made them needed.
    return not KEYS[key].required and key not in ("wet_density_kg_m3", "max_aggregate_percent")


def _question(key: str) -> str:
    help = KEY_HELP[key]
    example = f" ({help.on_the_bag})" if help.on_the_bag else ""
    left_out = ", or Enter" if _may_be_left_out(key) else ""
    return f"{help.asked}{example}{left_out}: "


def _taken(key: str, said: str) -> KeyAnswer:
    """An answer, checked as the card will be; raises CardError with what would be right."""
    help = KEY_HELP[key]
    if not said:
        if _may_be_left_out(key):
            return KeyAnswer()
        raise CardError("That one is needed.")
    if isinstance(KEYS[key], Text):
        value = value_checked(key, said)
        if key == "name" and file_for(user_folders().cards, value).exists():
            raise CardError(f"There is a card file for {value!r} already; another name, please.")
        return KeyAnswer(value)
    found = printed(said, help.quantity)
    value = value_checked(key, _value(key, found, help))
    told = said if found.unit != CARD_UNITS[help.unit] else ""
    if told:
        print(f"  {told} is {_shown(value)} {help.unit}.")
    return KeyAnswer(value, told)


def _value(key: str, found: Printed, help: KeyHelp) -> Any:
    low, high = (
        in_card_unit(number, found.unit, help.quantity, CARD_UNITS[help.unit])
        for number in (found.low, found.high)
    )
    if is_range(key):
        return [low, high]
    if found.is_range:
        raise CardError("That takes one number, not two.")
    return low


def _shown(value: Any) -> str:
    if isinstance(value, tuple):
        return " to ".join(f"{each:g}" for each in value)
    return f"{value:g}"


def _given(answers: Mapping[str, KeyAnswer]) -> dict[str, Any]:
    return {
        key: list(answer.value) if isinstance(answer.value, tuple) else answer.value
        for key, answer in answers.items()
        if answer.value is not None
    }


def _is_yes(said: str) -> bool:
    return said.strip().casefold() in ("y", "yes", "yes please", "ok")


def _asked(question: str) -> str:
    """What is typed; from a pipe, the question is shown with its answer."""
    said = input(question)
    if sys.stdin is None or not sys.stdin.isatty():
        print(said)
    return said
