"""What a product card may carry for the site, and slips in it."""

from __future__ import annotations

import pytest

from assistant.errors import CardError
from assistant.products.cards import card_from_dict, load_card, shipped_folder

STANDARD = load_card(shipped_folder() / "example_standard.toml").as_dict()
OWN = {
    "primer_drying_min": [30, 60],
    "max_slab_humidity_percent": 85,
    "max_emission_lb": 5,
    "ph": [5, 12],
}


def test_they_are_read_and_kept() -> None:
    card = card_from_dict({**STANDARD, **OWN})
    assert card.primer_drying_min == (30, 60)
    assert (card.max_slab_humidity_percent, card.max_emission_lb, card.ph) == (85, 5, (5, 12))
    assert card_from_dict(card.as_dict()) == card


def test_a_card_without_them_is_as_good() -> None:
    card = card_from_dict({key: STANDARD[key] for key in STANDARD if key not in OWN})
    assert card.primer_drying_min is None
    assert card.ph is None
    assert card.max_emission_lb is None


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("primer_drying_min", 60),
        ("primer_drying_min", [90, 45]),
        ("max_slab_humidity_percent", 0.85),
        ("max_emission_lb", 100),
        ("ph", [7, 15]),
    ],
)
def test_a_slip_is_told(key: str, value: object) -> None:
    with pytest.raises(CardError, match=key):
        card_from_dict({**STANDARD, key: value})
