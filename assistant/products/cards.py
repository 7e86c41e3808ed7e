"""Product cards: what the bag in the installer's hand allows.

A card is a small TOML file, one key to a line, units in the key's name. Everything on it
is checked when it is read, so that a slip of the pen is named in the error and never becomes a
wrong number of bags. The keys, with what each may hold, stand in ``card_keys.py``.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields
from pathlib import Path
from typing import Any

from assistant.errors import CardError
from assistant.pours.material import Mix, bag_yield_m3, extended_yield_m3
from assistant.products.card_keys import DEFAULT_AGGREGATE_DENSITY, FLOW_CLASSES, check_values
from grammar.frozen import frozen

__all__ = [
    "Card",
    "CardError",
    "card_from_dict",
    "cards_in",
    "find_card",
    "load_card",
    "readable_cards",
    "shipped_folder",
]

# A card is two dozen lines; a file this long is something else.
LARGEST_CARD_BYTES = 64 * 1024
# How like a name must be to be offered, out of 100: lower offers names that only share letters.
NEAR_ENOUGH = 60


@frozen(kw_only=True)
class Card:
    """One product, as its bag and data sheet have it; all numbers checked."""

    name: str
    """As it is said: letters and single spaces."""
    min_mm: float
    max_mm: float
    """Without aggregate."""
    max_with_aggregate_mm: float | None = None
    """None where the product takes no aggregate."""
    max_aggregate_percent: float | None = None
    """By mass of the powder."""
    aggregate_density_kg_m3: float = DEFAULT_AGGREGATE_DENSITY
    """Of the stones themselves, not of the heap."""
    bag_kg: float
    water_l: tuple[float, float]
    """Litres a bag, least and most."""
    wet_density_kg_m3: float | None = None
    """As stated; None where the card states the yield."""
    yield_l: float | None = None
    """Litres that a neat bag makes, as stated; None where the card states the density."""
    working_time_min: float
    foot_traffic_h: float
    mixing_min: float | None = None
    """Minutes that a bag is mixed; None where the card does not say."""
    slaking_min: float | None = None
    """Minutes that it then stands before it is stirred once more; None where it need not."""
    flow_mm: tuple[float, float] | None = None
    """Spread in the flow test of the data sheet, least and most; None where it has none."""
    covering_h: float | None = None
    """Hours until it may be covered, at the least; None where the card does not say."""
    heating_h: float | None = None
    """Hours until heating in the floor may be warmed up; None where the card does not say."""
    flow: str
    """``free`` or ``stiff``."""
    own_pin_spacing_m: float | None = None
    """Where the data sheet has a spacing of its own; see :attr:`pin_spacing_m`."""
    temperature_c: tuple[float, float]
    """Of slab and air, lowest and highest."""
    primer_m2_per_l: float | None = None
    """For one coat."""
    primer_coats: int = 1
    primer_drying_min: tuple[float, float] | None = None
    """Least and most, from the primer's data sheet; None for what is usual."""
    max_slab_humidity_percent: float | None = None
    """The strictest of product, adhesive and covering; None for what is usual."""
    max_emission_lb: float | None = None
    """The same, a thousand square feet in 24 hours."""
    ph: tuple[float, float] | None = None
    """Of the surface, the same."""
    bags_per_pallet: int | None = None
    note: str = ""

    @property
    def pin_spacing_m(self) -> float:
        """The widest spacing of pins: the data sheet's, or the usual one for the flow class."""
        return self.own_pin_spacing_m or FLOW_CLASSES[self.flow]

    @property
    def mean_water_l(self) -> float:
        """The middle of the mix-water range, for one bag."""
        return sum(self.water_l) / 2

    def mix(self, aggregate_percent: float = 0.0) -> Mix:
        """What a bag becomes at the mean mix water, with aggregate by mass of the powder."""
        water_l = self.mean_water_l
        aggregate_kg = self.bag_kg * float(aggregate_percent) / 100
        yield_m3 = self.bag_yield_m3()
        if aggregate_kg:
            yield_m3 = extended_yield_m3(yield_m3, aggregate_kg, self.aggregate_density_kg_m3)
        return Mix(self.bag_kg, water_l, aggregate_kg, yield_m3)

    def bag_yield_m3(self, water_l: float | None = None) -> float:
        """
        Volume of a neat bag, cubic metres.

        The stated density or yield is taken to be that of the mean mix water; other water
        makes the bag larger or smaller by its own volume.
        """
        if self.yield_l is not None:
            at_mean = self.yield_l / 1000
        else:
            assert self.wet_density_kg_m3 is not None  # one of the two, checked on reading
            at_mean = bag_yield_m3(self.bag_kg, self.mean_water_l, self.wet_density_kg_m3)
        return at_mean if water_l is None else at_mean + (water_l - self.mean_water_l) / 1000

    def as_dict(self) -> dict[str, Any]:
        """The card as its file has it, in JSON types; read back by :func:`card_from_dict`."""
        values = {KEY_OF.get(name, name): getattr(self, name) for name in NAMES}
        return {
            key: list(value) if isinstance(value, tuple) else value
            for key, value in values.items()
            if value is not None
        }


NAMES = tuple(f.name for f in fields(Card))
# the file's key is the plain word; the attribute of that name also knows the flow class
KEY_OF = {"own_pin_spacing_m": "pin_spacing_m"}
NAME_OF = {key: name for name, key in KEY_OF.items()}


# --- reading ------------------------------------------------------------------


def card_from_dict(values: Mapping[str, Any], source: str = "the card in the job") -> Card:
    """A card from its keys, checked as a file is; :class:`CardError` names source and key."""
    checked = check_values(values, source)
    return Card(**{NAME_OF.get(key, key): value for key, value in checked.items()})


def load_card(path: Path) -> Card:
    """A card from its file; :class:`CardError` names the file, the key, and what would be right."""
    return card_from_dict(toml_values(path), str(path))


def toml_values(path: Path) -> dict[str, Any]:
    """What the file says, unchecked."""
    try:
        # asked first: opening a pipe or a device would wait for ever
        if not path.is_file():
            raise CardError(f"{path}: there is no such file, or it is not an ordinary one.")
        with path.open("rb") as file:
            content = file.read(LARGEST_CARD_BYTES + 1)
    except OSError as fault:
        raise CardError(f"{path}: cannot be read ({fault.strerror or fault}).") from fault
    if len(content) > LARGEST_CARD_BYTES:
        raise CardError(
            f"{path}: too big for a product card, which has "
            f"at most {LARGEST_CARD_BYTES // 1024} kilobytes."
        )
    try:
        return tomllib.loads(content.decode("utf-8-sig"))
    except UnicodeDecodeError as fault:
        raise CardError(
            f"{path}: is not UTF-8 text (byte {fault.start}); save it as UTF-8."
        ) from fault
    except (ValueError, RecursionError) as fault:
        raise CardError(f"{path}: is not a TOML file: {str(fault)[:120]}.") from fault


def shipped_folder() -> Path:
    """Where the invented example cards lie."""
    return Path(__file__).parent / "shipped"


def cards_in(*folders: Path) -> dict[str, Card]:
    """
    All cards of some folders by their name in lower case; a later folder's card wins.

    Raises :class:`CardError` at the first card that cannot be used, and where two files
    of one folder have the same name; a folder that is not there has no cards.
    """
    cards, faults = readable_cards(*folders)
    if faults:
        raise faults[0]
    return cards


def readable_cards(*folders: Path) -> tuple[dict[str, Card], tuple[CardError, ...]]:
    """As :func:`cards_in`, but the faults beside the cards that can be used."""
    cards: dict[str, Card] = {}
    faults: list[CardError] = []
    for folder in folders:
        seen: dict[str, Path] = {}
        for path in card_files(folder):
            try:
                card = load_card(path)
                key = plain_name(card.name)
                if key in seen:
                    raise CardError(
                        f"{path}: name: {card.name!r} is already the name of {seen[key].name}; "
                        "give one of them another."
                    )
            except CardError as fault:
                faults.append(fault)
            else:
                seen[key] = path
                cards[key] = card
    return cards, tuple(faults)


def card_files(folder: Path) -> Iterator[Path]:
    """The folder's card files, in the order of their names."""
    return iter(sorted(folder.glob("*.toml")) if folder.is_dir() else ())


# --- finding ------------------------------------------------------------------


def find_card(name: str, cards: Mapping[str, Card]) -> Card:
    """
    The card of that name; case and spaces don't matter.

    Part of a name will do where every word said is in it and it is the only such card.
    Anything less is refused with :class:`CardError`, never guessed.
    """
    by_name = {plain_name(card.name): card for card in cards.values()}
    said = plain_name(name)
    if said in by_name:
        return by_name[said]
    words = set(said.split())
    fitting = [known for known in by_name if words and words <= set(known.split())]
    if len(fitting) == 1:
        return by_name[fitting[0]]
    if fitting:
        raise CardError(
            f"More than one card has {shorten_name(said)!r} in its name: {comma_list(fitting)}. "
            "Say the whole name."
        )
    raise CardError(no_such_card(said, by_name))


def no_such_card(said: str, names: Iterable[str]) -> str:
    """The error for a name that no card has, with the names that there are."""
    known = sorted(names)
    if not known:
        return "There are no product cards at hand."
    nearest = nearest_name(said, known)
    offer = f" Did you mean {nearest!r}?" if nearest else ""
    return f"There is no card {shorten_name(said)!r}.{offer} At hand: {comma_list(known)}."


def nearest_name(said: str, known: Iterable[str]) -> str | None:
    """The known name most like what was said, if any is."""
    from rapidfuzz import fuzz, process

    found = process.extractOne(
        shorten_name(said), list(known), scorer=fuzz.WRatio, score_cutoff=NEAR_ENOUGH
    )
    return found[0] if found else None


def plain_name(name: str) -> str:
    """A name with case and extra spaces taken out."""
    return " ".join(name.split()).casefold()


def shorten_name(text: str) -> str:
    """No more of a name than fits in a sentence."""
    return text if len(text) <= 60 else text[:57] + "..."


def comma_list(names: Iterable[str]) -> str:
    """Names, in alphabetical order, with commas."""
    return ", ".join(sorted(names))
