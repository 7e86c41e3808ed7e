"""Product cards: what a file may say, the error where it says something else, and finding one."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from assistant.products.cards import (
    Card,
    CardError,
    card_from_dict,
    cards_in,
    find_card,
    load_card,
    readable_cards,
    shipped_folder,
)

GOOD = {
    "name": "test mix",
    "min_mm": "3",
    "max_mm": "30",
    "max_with_aggregate_mm": "60",
    "max_aggregate_percent": "50",
    "bag_kg": "25",
    "water_l": "[4.75, 5.25]",
    "wet_density_kg_m3": "2000",
    "working_time_min": "20",
    "foot_traffic_h": "4",
    "flow": '"free"',
    "temperature_c": "[10, 30]",
    "primer_m2_per_l": "8",
    "primer_coats": "2",
    "bags_per_pallet": "42",
}


def card_text(**changes: str | None) -> str:
    """The good card with some values as TOML changed, or left out where None."""
    values: dict[str, str | None] = {**GOOD, "name": '"test mix"', **changes}
    return "".join(f"{key} = {value}\n" for key, value in values.items() if value is not None)


def written(folder: Path, text: str | bytes, name: str = "card.toml") -> Path:
    path = folder / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def test_a_good_card(tmp_path: Path) -> None:
    card = load_card(written(tmp_path, card_text()))
    assert (card.name, card.min_mm, card.max_mm, card.water_l) == ("test mix", 3, 30, (4.75, 5.25))
    assert card.pin_spacing_m == 3.0  # one maker's advice
    # exact arithmetic: 25 kg + 5.0 L at 2000 kg/m³ is 15 L; 3 m² at 5 mm
    assert card.bag_yield_m3() == pytest.approx(0.015)
    assert card.mix().wet_density_kg_m3 == pytest.approx(2000)
    # more water makes the bag larger by that water
    assert card.bag_yield_m3(5.25) == pytest.approx(0.01525)
    # exact arithmetic: 12.5 kg of 2650 kg/m³ more
    extended = card.mix(50)
    assert extended.aggregate_kg == 12.5
    assert extended.yield_m3 * 1000 == pytest.approx(19.717, abs=5e-4)
    assert extended.wet_density_kg_m3 == pytest.approx(2155.5, abs=0.05)


def test_yield_and_density_follow_from_each_other(tmp_path: Path) -> None:
    by_yield = load_card(written(tmp_path, card_text(wet_density_kg_m3=None, yield_l="15.0")))
    assert by_yield.bag_yield_m3() == pytest.approx(0.015)
    assert by_yield.mix().wet_density_kg_m3 == pytest.approx(2000)


def test_own_pin_spacing_comes_first(tmp_path: Path) -> None:
    stiff = load_card(written(tmp_path, card_text(flow='"stiff"')))
    own = load_card(written(tmp_path, card_text(flow='"stiff"', pin_spacing_m="0.9")))
    # 3 to 4 ft where it has to be helped: common practice, no source
    assert (stiff.pin_spacing_m, own.pin_spacing_m) == (1.2, 0.9)


@pytest.mark.parametrize("changes", [{}, {"wet_density_kg_m3": None, "yield_l": "15"}])
@pytest.mark.parametrize(
    "more", [{}, {"pin_spacing_m": "0.9", "note": '"as on the bag"', "min_mm": "2.7"}]
)
def test_a_card_survives_the_record(
    tmp_path: Path, changes: dict[str, str | None], more: dict[str, str]
) -> None:
    card = load_card(written(tmp_path, card_text(**changes, **more)))
    assert card_from_dict(json.loads(json.dumps(card.as_dict()))) == card


@pytest.mark.parametrize(
    ("changes", "key", "told"),
    [
        ({"bag_kg": None}, "bag_kg", "is missing; it must be the mass of a full bag in kilograms"),
        ({"bag_kg": '"25"'}, "bag_kg", "a number without quotes"),
        ({"bag_kg": "true"}, "bag_kg", "a number without quotes"),
        ({"bag_kg": "25000"}, "bag_kg", "25000 grams would be 25"),
        ({"bag_kg": "-25"}, "bag_kg", "from 1 to 1500"),
        ({"bag_kg": "nan"}, "bag_kg", "not a number that can be used"),
        ({"bag_kg": "inf"}, "bag_kg", "not a number that can be used"),
        ({"bag_kg": "9" * 400}, "bag_kg", "not a number that can be used"),
        ({"bag_kg": "0x" + "f" * 9000}, "bag_kg", "not a number that can be used"),
        ({"min_mm": "40"}, "min_mm", "is more than max_mm (30)"),
        ({"max_mm": "0.03"}, "max_mm", "0.03 metres would be 30"),
        ({"water_l": "[5.25, 4.75]"}, "water_l", "write [4.75, 5.25]"),
        ({"water_l": "5"}, "water_l", "two numbers"),
        ({"water_l": "[5]"}, "water_l", "two numbers"),
        ({"water_l": '[5, "six"]'}, "water_l", "a number without quotes"),
        ({"water_l": "[4750, 5250]"}, "water_l", "4750 millilitres would be 4.75"),
        ({"water_l": "[0.19, 0.21]"}, "water_l", "it must be litres for one bag"),
        ({"wet_density_kg_m3": "2.0"}, "wet_density_kg_m3", "kilograms a litre would be 2000"),
        ({"wet_density_kg_m3": None}, "wet_density_kg_m3", "one of the two must be given"),
        ({"yield_l": "15"}, "wet_density_kg_m3", "and not both"),
        ({"wet_density_kg_m3": "2500"}, "wet_density_kg_m3", "between 800 and"),
        ({"wet_density_kg_m3": None, "yield_l": "150"}, "yield_l", "between 800 and"),
        ({"wet_density_kg_m3": None, "yield_l": "0.015"}, "yield_l", "cubic metres would be 15"),
        ({"max_aggregate_percent": None}, "max_aggregate_percent", "max_with_aggregate_mm"),
        ({"max_with_aggregate_mm": "20"}, "max_with_aggregate_mm", "is less than max_mm"),
        ({"temperature_c": "[50, 90]"}, "temperature_c", "90 degrees Fahrenheit would be 32"),
        ({"foot_traffic_h": "240"}, "foot_traffic_h", "240 minutes would be 4"),
        ({"flow": '"fast"'}, "flow", "'fast', but must be free or stiff"),
        ({"primer_coats": "1.5"}, "primer_coats", "whole number"),
        ({"bags_per_pallet": "0"}, "bags_per_pallet", "from 1 to 500"),
        ({"name": '""'}, "name", "is empty"),
        ({"name": "7"}, "name", "words in quotes"),
        ({"name": '"mix 40"'}, "name", "letters and spaces only"),
        ({"name": f'"{"a" * 61}"'}, "name", "too long"),
        ({"note": r'"bell\u0007"'}, "note", "cannot be shown"),
        ({"bag_mass_kg": "25"}, "bag_mass_kg", "bag_kg was perhaps meant"),
        ({"zzz": "1"}, "zzz", "The keys are name,"),
        ({r'"\u001b[2J"': "1"}, "?[2J", "is not a key"),
    ],
)
def test_a_slip_is_told_by_file_and_key(
    tmp_path: Path, changes: dict[str, str | None], key: str, told: str
) -> None:
    path = written(tmp_path, card_text(**changes))
    with pytest.raises(CardError) as refusal:
        load_card(path)
    text = str(refusal.value)
    assert text.startswith(f"{path}: {key} ")
    assert told in text
    assert text.isprintable()
    assert len(text) < 700


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "name is missing"),
        (b"name = ", "not a TOML file"),
        (b"name = 'a'\nname = 'b'", "not a TOML file"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b"# " + b"x" * 70_000, "too big"),
        (b"a = " + b"[" * 60_000, "not a TOML file"),
        (b"bag_kg = " + b"9" * 6_000, "not a TOML file"),
        (b"\x00", "not a TOML file"),
    ],
)
def test_files_that_are_no_cards(tmp_path: Path, content: bytes, told: str) -> None:
    with pytest.raises(CardError, match=told):
        load_card(written(tmp_path, content))


def test_things_that_are_no_files(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    loop = tmp_path / "loop.toml"
    loop.symlink_to(loop)
    for path in (tmp_path, tmp_path / "none.toml", pipe, loop, Path("nul\0.toml"), Path("x" * 999)):
        with pytest.raises(CardError):
            load_card(path)


def test_a_file_saved_with_a_mark_at_its_start(tmp_path: Path) -> None:
    assert load_card(written(tmp_path, b"\xef\xbb\xbf" + card_text().encode())).name == "test mix"


# --- the shipped ones ----------------------------------------------------------


def test_shipped_cards_say_that_they_are_invented() -> None:
    cards = cards_in(shipped_folder())
    assert set(cards) == {
        "example standard",
        "example deep fill",
        "example thin skim",
        "example gypsum",
    }
    for card in cards.values():
        assert card.name.startswith("example ")
        assert "Invented" in card.note
        assert "data sheet" in card.note


def test_shipped_cards_lie_in_the_usual_ranges() -> None:
    # common practice, no source
    for card in cards_in(shipped_folder()).values():
        density = card.mix().wet_density_kg_m3
        usual = (1600, 1900) if card.name == "example gypsum" else (1800, 2100)
        assert usual[0] <= density <= usual[1]
        assert 0.18 <= card.water_l[0] / card.bag_kg <= card.water_l[1] / card.bag_kg <= 0.25
        assert card.primer_m2_per_l is not None
        assert 5 <= card.primer_m2_per_l <= 10
        assert (card.max_aggregate_percent or 30) in range(30, 101)


# --- folders and names -----------------------------------------------------------


def test_an_own_card_stands_before_a_shipped_one(tmp_path: Path) -> None:
    written(tmp_path, card_text(name='"Example  Standard"', bag_kg="20", water_l="[4, 4.2]"))
    cards = cards_in(shipped_folder(), tmp_path, tmp_path / "not there")
    assert cards["example standard"].bag_kg == 20
    assert len(cards) == 4


def test_one_bad_card_does_not_hide_the_others(tmp_path: Path) -> None:
    written(tmp_path, card_text(), "a.toml")
    bad = written(tmp_path, card_text(name='"other mix"', bag_kg="0"), "b.toml")
    twice = written(tmp_path, card_text(name='"TEST mix"'), "c.toml")
    cards, faults = readable_cards(tmp_path)
    assert list(cards) == ["test mix"]
    assert [str(fault).split(": ")[0] for fault in faults] == [str(bad), str(twice)]
    with pytest.raises(CardError, match="bag_kg"):
        cards_in(tmp_path)


@pytest.fixture(scope="module")
def shipped() -> dict[str, Card]:
    return cards_in(shipped_folder())


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("example standard", "example standard"),
        ("  Example   STANDARD ", "example standard"),
        ("deep fill", "example deep fill"),
        ("fill deep", "example deep fill"),
        ("gypsum", "example gypsum"),
    ],
)
def test_names_that_find_a_card(shipped: dict[str, Card], said: str, found: str) -> None:
    assert find_card(said, shipped).name == found


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("example", "More than one card has 'example' in its name"),
        ("exmple standart", "Did you mean 'example standard'?"),
        ("deep", None),
        ("deep pour", "There is no card 'deep pour'"),
        ("stand", "There is no card 'stand'"),
        ("", "There is no card"),
        ("x" * 100_000, "There is no card"),
        ("\0", "There is no card"),
    ],
)
def test_names_are_never_guessed(shipped: dict[str, Card], said: str, told: str | None) -> None:
    if told is None:
        assert find_card(said, shipped).name == "example deep fill"
        return
    with pytest.raises(CardError) as refusal:
        find_card(said, shipped)
    assert told in str(refusal.value)
    assert "example gypsum" in str(refusal.value)  # the error always lists what there is
    assert len(str(refusal.value)) < 300


def test_the_whole_name_wins_over_part_of_another(tmp_path: Path) -> None:
    written(tmp_path, card_text(name='"deep"'), "a.toml")
    written(tmp_path, card_text(name='"deep fill"'), "b.toml")
    assert find_card("deep", cards_in(tmp_path)).name == "deep"


def test_no_cards_at_all() -> None:
    with pytest.raises(CardError, match="no product cards"):
        find_card("anything", {})
