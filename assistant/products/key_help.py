"""Each key of a product card for whoever writes one: its unit, an example, what the bag prints."""

from __future__ import annotations

from assistant.products.card_keys import KEYS, Range
from grammar.frozen import frozen

__all__ = ["KEY_HELP", "KeyHelp", "keys_told"]


@frozen
class KeyHelp:
    """What to write, and what to ask for it."""

    unit: str
    """Of the number in the file; empty for words and counts."""
    example: str
    """The value as it stands in the file."""
    asked: str
    """What is asked for, by whoever has the bag in their hand."""
    quantity: str = ""
    """Which of :data:`~assistant.products.on_the_bag.QUANTITIES`; empty for words."""
    on_the_bag: str = ""
    """Examples of an answer, as it is printed."""


KEY_HELP: dict[str, KeyHelp] = {
    "name": KeyHelp("", '"harbour fine"', "Name, letters and spaces only, as it is to be said"),
    "min_mm": KeyHelp("mm", "3", "Least depth", "length", "1/8 in, 3 mm; 0 mm for a feather edge"),
    "max_mm": KeyHelp("mm", "30", "Greatest depth without aggregate", "length", "1 1/4 in, 30 mm"),
    "max_with_aggregate_mm": KeyHelp(
        "mm", "60", "Greatest depth with aggregate", "length", "2 1/2 in, 60 mm"
    ),
    "max_aggregate_percent": KeyHelp(
        "%", "50", "Most aggregate, of the powder's mass", "share", "50 %"
    ),
    "aggregate_density_kg_m3": KeyHelp(
        "kg/m³", "2650", "Density of the stones themselves", "density", "165 lb/ft³, 2650 kg/m³"
    ),
    "bag_kg": KeyHelp("kg", "25", "Mass of a full bag", "mass", "50 lb, 25 kg"),
    "water_l": KeyHelp(
        "L a bag", "[4.75, 5.25]", "Mix water for one bag", "volume", "5 to 5.5 qt, 4.75 to 5.25 L"
    ),
    "yield_l": KeyHelp("L a bag", "15", "What one bag makes", "volume", "0.45 ft³, 15 L"),
    "wet_density_kg_m3": KeyHelp(
        "kg/m³", "2000", "Density of the wet mix", "density", "125 lb/ft³, 2000 kg/m³"
    ),
    "mixing_min": KeyHelp("min", "3", "How long a bag is mixed", "time", "3 min"),
    "slaking_min": KeyHelp("min", "2", "How long a mix stands, then stirred", "time", "2 min"),
    "flow_mm": KeyHelp(
        "mm", "[140, 150]", "Spread in its flow test", "length", "5 1/2 to 6 in, 140 to 150 mm"
    ),
    "working_time_min": KeyHelp("min", "20", "Working time", "time", "20 min"),
    "foot_traffic_h": KeyHelp("h", "4", "Walked on after", "time", "4 h"),
    "covering_h": KeyHelp("h", "24", "Covered after, at the least", "time", "24 h, 2 days"),
    "heating_h": KeyHelp("h", "168", "Heating in the floor warmed after", "time", "168 h, 7 days"),
    "flow": KeyHelp("", '"free"', "How it flows: free, or stiff where it is helped along"),
    "pin_spacing_m": KeyHelp("m", "2.5", "Widest spacing of pins", "length", "8 ft, 2.5 m"),
    "temperature_c": KeyHelp(
        "°C", "[10, 30]", "Slab and air, lowest to highest", "temperature", "50 to 90 F, 10 to 30 C"
    ),
    "primer_m2_per_l": KeyHelp(
        "m²/L", "8", "What primer covers in one coat", "coverage", "250 ft²/gal, 8 m²/L"
    ),
    "primer_coats": KeyHelp("", "1", "Coats of primer", "count", "1"),
    "primer_drying_min": KeyHelp(
        "min", "[45, 90]", "The primer dries for", "time", "45 to 90 min, 1 to 3 h"
    ),
    "max_slab_humidity_percent": KeyHelp(
        "% RH", "75", "Most relative humidity in the slab", "share", "75 %"
    ),
    "max_emission_lb": KeyHelp(
        "lb", "5", "Most moisture emission, a thousand square feet in 24 hours", "emission", "5 lb"
    ),
    "ph": KeyHelp("", "[7, 10]", "pH of the surface", "pH", "7 to 10"),
    "bags_per_pallet": KeyHelp("", "42", "Bags on a pallet", "count", "42"),
    "note": KeyHelp("", '"as on the sheet of May"', "A remark"),
}
"""In the order in which a bag is read."""

CARD_UNITS = {
    "mm": "mm", "m": "m", "kg": "kg", "L a bag": "L", "kg/m³": "kg/m³", "min": "min", "h": "h",
    "m²/L": "m²/L", "°C": "C", "%": "%", "% RH": "%", "lb": "lb", "": "",
}  # fmt: skip
"""The unit of a key -> what :mod:`~assistant.products.on_the_bag` calls it."""


def keys_told() -> str:
    """Every key with its unit and an example, a line each; what may be left out is in brackets."""
    lines = []
    for key, help in KEY_HELP.items():
        rule = KEYS[key]
        shown = key if rule.required else f"[{key}]"
        lines.append(f"  {shown:28}{help.unit:9}{key} = {help.example}".rstrip())
    return "\n".join(lines)


def is_range(key: str) -> bool:
    """Whether a key holds two numbers."""
    return isinstance(KEYS[key], Range)
