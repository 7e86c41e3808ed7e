"""Cards written by answering, in the units on the bag, and cards looked at.

Factors: 1 lb is 0.45359237 kg, 1 in is 25.4 mm (international yard and pound, 1959), 1 US gallon
is 231 in³, 3.785411784 L (NIST SP 811), a quart is a quarter of it.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from assistant.command_line.new_card import new_card
from assistant.command_line.parser import run
from assistant.errors import CardError
from assistant.products.card_file import write_card
from assistant.products.card_keys import KEYS, all_faults
from assistant.products.cards import Card, card_from_dict, load_card
from assistant.products.key_help import CARD_UNITS, KEY_HELP, keys_told
from assistant.products.on_the_bag import QUANTITIES, in_card_unit, printed

ON_THE_BAG = {
    "Name": "Harbour fine", "Least": "1/8 in", "Greatest depth without": "1 1/4 in",
    "Greatest depth with": "2-1/2 inches", "Most aggregate": "50 %", "Density of the stones": "",
    "Mass": "50 lb", "Mix water": "4.75 to 5.25 qt", "What one bag makes": "0.45 ft³",
    "How long a bag": "3 min", "How long a mix": "2 min", "Spread": "5 1/2 to 6 in",
    "Working": "20 minutes", "Walked": "4 hours", "Covered": "2 days",
    "Heating": "7 days",
    "How it flows": "free", "Widest": "8 ft", "Slab and air": "50 to 90 F",
    "What primer": "250 sq. ft. per gallon", "Coats": "1", "The primer dries": "1 to 3 h",
    "Most relative": "75", "Most moisture": "5 lb", "pH": "7 to 10", "Bags": "56", "A remark": "",
    "Write it": "yes",
}  # fmt: skip


@pytest.fixture
def cards(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path))
    return tmp_path / "cards"


def answering(answers: dict[str, str | list[str]]) -> Callable[[str], str]:
    """Answers a question by how it begins; each of a list in turn."""
    left: dict[str, Iterator[str]] = {
        begins: iter([said] if isinstance(said, str) else said) for begins, said in answers.items()
    }

    def ask(question: str) -> str:
        # The longest beginning: "Most" is many.
        begins = max((b for b in left if question.startswith(b)), key=len, default=None)
        assert begins is not None, question
        said = next(left[begins], None)
        assert said is not None, f"asked once more: {question}"
        return said

    return ask


def made(**instead: str | list[str]) -> int:
    answers: dict[str, str | list[str]] = {**ON_THE_BAG}
    answers.update({begins.replace("_", " "): said for begins, said in instead.items()})
    return new_card(argparse.Namespace(), answering(answers))


def card(cards: Path) -> Card:
    return load_card(cards / "harbour_fine.toml")


def test_a_card_in_the_units_on_the_bag(cards: Path) -> None:
    assert made() == 0
    found = card(cards)
    assert found.name == "Harbour fine"
    assert (found.min_mm, found.max_mm) == (3.175, 31.75)
    assert found.max_with_aggregate_mm == 63.5
    assert found.bag_kg == pytest.approx(50 * 0.45359237, abs=1e-4)
    quart = 3.785411784 / 4
    assert found.water_l == pytest.approx((4.75 * quart, 5.25 * quart), abs=1e-4)
    assert found.yield_l == pytest.approx(0.45 * 28.316846592, abs=1e-4)
    assert found.own_pin_spacing_m == pytest.approx(8 * 0.3048)
    assert found.temperature_c == pytest.approx((10, 32.2222))
    assert found.primer_m2_per_l == pytest.approx(250 * 0.3048**2 / 3.785411784, abs=1e-4)
    assert (found.covering_h, found.primer_drying_min) == (48, (60, 180))
    assert (found.slaking_min, found.flow_mm, found.heating_h) == (2, (139.7, 152.4), 168)
    assert found.max_slab_humidity_percent == 75
    text = (cards / "harbour_fine.toml").read_text("utf-8")
    assert "# 50 lb" in text
    assert "# 1/8 in" in text


def test_every_answer_is_taken_or_says_what_would_be_right(
    cards: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made(
        Least=["3", "three mm", "3 kg", "1/0 in", "900 mm", "3 mm"],
        Mass=["", "50 lb"],
        Coats=["1.5", "1"],
        Slab_and_air=["10 C to 30 C"],
        Mix_water=["4,75 to 5,25 qt", "4.75-5.25 qt"],
        Name=["harbour 5", "Harbour fine"],
    )
    shown = capsys.readouterr().out
    for told in (
        "in which unit, mm, cm, m, in or ft?", "“three mm”: that takes a number and its unit",
        "“kg”: that takes mm, cm, m, in or ft.", "“1/0” divides by nothing.",
        "min_mm is 900, but must be", "That one is needed.", "must be a whole number",
        "write a decimal with a point", "letters and spaces only",
    ):  # fmt: skip
        assert told in shown, told
    assert card(cards).min_mm == 3
    assert card(cards).temperature_c == (10, 30)


def test_back_goes_back_and_idle_questions_are_left_out(cards: Path) -> None:
    assert made(
        Greatest_depth_without=["20 mm", "30 mm"],
        Greatest_depth_with=["back", ""],
        Most_aggregate=[],
        Density_of_the_stones=[],
        What_primer="",
        Coats=[],
        The_primer_dries=[],
    ) == 0  # fmt: skip
    found = card(cards)
    assert (found.max_mm, found.max_with_aggregate_mm, found.primer_m2_per_l) == (30, None, None)


def test_what_does_not_go_together_is_asked_again(
    cards: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made(
        Least=["40 mm", "3 mm"],
        Greatest_depth_without=["30 mm", "30 mm"],
        What_one_bag_makes=["4 L", "13 L"],
    )
    shown = capsys.readouterr().out
    assert "min_mm is more than max_mm" in shown
    assert "yield_l makes a wet mix of" in shown
    assert (card(cards).min_mm, card(cards).yield_l) == (3, 13)


def test_no_file_is_written_over(cards: Path) -> None:
    cards.mkdir(parents=True)
    there = cards / "harbour_fine.toml"
    there.write_text("mine", "utf-8")
    made(Name=["harbour fine", "harbour finer"])
    assert there.read_text("utf-8") == "mine"
    assert load_card(cards / "harbour_finer.toml").name == "harbour finer"
    with pytest.raises(CardError, match="left as it is"):
        write_card(there, "theirs")
    assert sorted(path.name for path in cards.iterdir()) == [
        "harbour_fine.toml", "harbour_finer.toml",
    ]  # fmt: skip


@pytest.mark.parametrize("end", ["stop", EOFError, KeyboardInterrupt])
@pytest.mark.parametrize("at", ["Name", "Mass", "Write it"])
def test_broken_off_nothing_is_written(cards: Path, end: str | type, at: str) -> None:
    ask = answering({**ON_THE_BAG})

    def broken(question: str) -> str:
        if not question.startswith(at):
            return ask(question)
        if isinstance(end, str):
            return end
        raise end

    assert new_card(argparse.Namespace(), broken) == 1
    assert not cards.exists() or not list(cards.iterdir())


def test_a_card_that_cannot_be_written_whole_is_not_there(
    cards: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("assistant.products.card_file.os.fsync", full)
    with pytest.raises(CardError, match="No space left"):
        made()
    assert not list(cards.iterdir())


def test_where_a_file_has_no_second_name_it_is_still_never_written_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr("assistant.products.card_file.os.link", no_links)
    path = tmp_path / "a.toml"
    write_card(path, "first")
    with pytest.raises(CardError, match="left as it is"):
        write_card(path, "second")
    assert path.read_text("utf-8") == "first"
    assert [each.name for each in tmp_path.iterdir()] == ["a.toml"]


# --- what the keys say of themselves -------------------------------------------------------


def test_every_key_is_explained() -> None:
    assert KEY_HELP.keys() == KEYS.keys()
    told = keys_told()
    assert all(f"{key} = " in told for key in KEYS)
    assert max(map(len, told.splitlines())) <= 80


def test_the_examples_of_the_keys_make_a_card() -> None:
    import tomllib

    lines = [f"{key} = {help.example}" for key, help in KEY_HELP.items() if key != "yield_l"]
    assert not all_faults(tomllib.loads("\n".join(lines)))


@pytest.mark.parametrize("key", [key for key, help in KEY_HELP.items() if help.on_the_bag])
def test_the_examples_of_an_answer_are_taken(key: str) -> None:
    help = KEY_HELP[key]
    for example in help.on_the_bag.split(";")[0].split(", "):
        found = printed(example, help.quantity)
        in_card_unit(found.low, found.unit, help.quantity, CARD_UNITS[help.unit])


def test_products_help_shows_every_key(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        run(["products", "--help"])
    assert keys_told() in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "quantity", "found"),
    [
        ("50lb", "mass", (50, 50, "lb")),
        ("50 pounds", "mass", (50, 50, "lb")),
        ("1 1/2 in.", "length", (Fraction(3, 2), Fraction(3, 2), "in")),
        ('1/8"', "length", (Fraction(1, 8), Fraction(1, 8), "in")),
        ("1/8-1/4 in", "length", (Fraction(1, 8), Fraction(1, 4), "in")),
        ("5 qt to 5.5 qt", "volume", (5, Fraction(11, 2), "qt")),
        ("1.25 US gallons", "volume", (Fraction(5, 4), Fraction(5, 4), "gal")),
        ("0.45 cu. ft.", "volume", (Fraction(9, 20), Fraction(9, 20), "ft³")),
        ("125 lbs/ft3", "density", (125, 125, "lb/ft³")),
        ("250 square feet per gallon", "coverage", (250, 250, "ft²/gal")),
        ("50 to 90 degrees F", "temperature", (50, 90, "F")),
        ("75 percent", "share", (75, 75, "%")),
        ("7 to 10", "pH", (7, 10, "")),
    ],
)
def test_how_bags_print_things(text: str, quantity: str, found: tuple[object, ...]) -> None:
    read = printed(text, quantity)
    assert (read.low, read.high, read.unit) == found


def test_every_unit_is_one_of_its_quantity() -> None:
    """pint converts each to the unit of a card."""
    for help in KEY_HELP.values():
        for unit, name in QUANTITIES.get(help.quantity, {}).items():
            if name:
                assert in_card_unit(Fraction(1), unit, help.quantity, CARD_UNITS[help.unit]) > 0


# --- all faults at once -----------------------------------------------------------------------

FAULTY = """\
name = "harbour 5"
min_mm = 30
max_mm = 3
max_with_aggregate_mm = 60
bag_kg = 25000
water_l = [5.25, 4.75]
wet_density_kg_m3 = 2.0
yield_l = 15
flow = "runny"
tempreature_c = [10, 30]
working_time_min = "20"
"""
SAID = (
    "tempreature_c is not a key", "foot_traffic_h is missing", "temperature_c is missing",
    "name must be letters", "bag_kg is 25000", "water_l has the lower number last",
    "wet_density_kg_m3 is 2,", "working_time_min must be a number", "flow is 'runny'",
    "wet_density_kg_m3 and yield_l: one", "max_aggregate_percent is missing",
    "min_mm is more than max_mm",
)  # fmt: skip


def test_a_check_names_all_faults_at_once(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "faulty.toml"
    path.write_text(FAULTY, "utf-8")
    assert run(["products", "check", str(path)]) == 1
    shown = capsys.readouterr().out
    assert f"{path}: {len(SAID)} faults." in shown
    for told in SAID:
        assert told in shown, told


def test_a_check_of_a_sound_card_says_so(cards: Path, capsys: pytest.CaptureFixture[str]) -> None:
    made()
    capsys.readouterr()
    assert run(["products", "check", str(cards / "harbour_fine.toml")]) == 0
    assert "no fault. Harbour fine can be used." in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "told"), [("name = ", "is not a TOML file"), (None, "there is no such file")]
)
def test_a_check_of_what_is_no_card(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str | None, told: str
) -> None:
    path = tmp_path / "odd.toml"
    if text is not None:
        path.write_text(text, "utf-8")
    assert run(["products", "check", str(path)]) == 1
    assert told in capsys.readouterr().out


def test_a_card_in_use_says_how_many_more_faults_there_are() -> None:
    import tomllib

    with pytest.raises(CardError, match=r"11 more: leadsman products check"):
        card_from_dict(tomllib.loads(FAULTY), "faulty.toml")
