"""The file of what a floor can be held to: read to the letter, each fault named."""

from __future__ import annotations

import pytest

from assistant.limits.specs import (
    SPECS_FILE,
    SpecError,
    apart_specs,
    formula_row,
    named_apart,
    read_specs,
    specs,
    specs_named,
)
from tests.job.conftest import Site

TEXT = SPECS_FILE.read_text("utf-8")


def test_every_row_has_a_source_and_how_surely_it_is_known() -> None:
    assert len(specs()) > 10
    for spec in specs():
        assert spec.source, spec.name
        assert spec.known, spec.name
        assert spec.told_source.endswith(")"), spec.name
    assert "from memory" in formula_row().source
    assert "licensed text governs" in formula_row().source


def test_constants_of_the_formula_stand_in_one_row() -> None:
    """From memory: 4.57 and 12.5 inches; exact arithmetic for millimetres."""
    assert (formula_row().ff_mm, formula_row().fl_mm) == pytest.approx((116.078, 317.5))


def test_gap_limits_of_din_rows_are_their_columns_at_two_metres() -> None:
    for spec in specs():
        for limit in spec.limits:
            if spec.name.startswith("DIN") and limit.test == "gap":
                (columns,) = {each.columns for each in spec.limits if each.columns}
                assert limit.limit == columns.at(2.0), spec.name


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("din 18202 row 3", ["DIN 18202 row 3"]),
        ("row 4", ["DIN 18202 row 4"]),
        ("sr 2", ["BS 8204 SR2"]),
        ("bs sr1", ["BS 8204 SR1"]),
        ("f710", ["ASTM F710"]),
        ("f 710", ["ASTM F710"]),
        ("tile substrate", ["tile substrate"]),
        ("very flat", ["ACI 117 very flat"]),
        ("aci 117 flat", ["ACI 117 flat"]),
        ("sr", ["BS 8204 SR1", "BS 8204 SR2", "BS 8204 SR3"]),
        ("sr 9", []),
        ("", []),
    ],
)
def test_names(said: str, names: list[str]) -> None:
    assert [spec.name for spec in specs_named(said)] == names


def test_a_name_of_several_gives_all() -> None:
    assert len(specs_named("din row")) == 4


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        ('known = "read"', 'known = "hearsay"', "known is one of"),
        ('test = "gap", length_m = "2", limit_mm = "17"', 'test = "gap"', "gap has length_m"),
        ('length_m = "4" }', "length_m = 4 }", "in quotes above zero"),
        ('test = "three points"', 'test = "by eye"', "test is one of"),
        ('name = "DIN 18202 row 1"', 'name = "DIN 18202 row 2"', "two specifications"),
        ('use = "unfinished slab tops"', 'used = "slabs"', "used is not a key"),
        ('[["0.1", 10], ["1", 15]', '[["1", 15], ["0.1", 10]', "columns go on"),
        ("ff = 4.57\n", "", "ff, fl and source"),
        ("[e1155]", "[e1155", "not a TOML file"),
        ("\n[[apart]]", "\n[[beside]]", r"\[\[apart\]\] tables"),
        ('says = "5, 10', 'tells = "5, 10', "apart 1: has known, name, says, why"),
    ],
)
def test_a_fault_is_named(was: str, becomes: str, told: str) -> None:
    assert was in TEXT
    with pytest.raises(SpecError, match=told):
        read_specs(TEXT.replace(was, becomes, 1), "specs.toml")


def test_of_any_part_three_fifths_of_the_overall() -> None:
    """Minimum local F-numbers, 3/5 of the overall: ACI 117-10, an excerpt."""
    aci = [spec for spec in specs() if spec.name.startswith("ACI")]
    assert len(aci) == 5
    for spec in aci:
        by_test = {limit.test: limit.limit for limit in spec.limits}
        for test in ("ff", "fl"):
            overall, of_part = by_test[test], by_test[f"{test} local"]
            assert overall is not None
            assert of_part == overall * 3 / 5, spec.name


def test_what_a_floor_is_not_held_to_here_says_why() -> None:
    """Rows 5 and 6 of DIN 18202 are for walls; other limits we know from memory only."""
    assert [each.name for each in named_apart("row 5")] == ["DIN 18202 row 5"]
    assert [each.name for each in named_apart("aci 117 straightedge")] == ["ACI 117 straightedge"]
    assert named_apart("row 9") == named_apart("") == ()
    for each in apart_specs():
        assert specs_named(each.name) == (), each.name
        refused = Site("room 6 by 4 metres").refused(f"spec {each.name}")
        assert refused == each.in_words
    # Base columns in two sources; numbers only, the licensed text governs.
    assert "5, 10, 15, 25 and 30 mm at 0.1, 1, 4, 10 and 15 m" in apart_specs()[0].in_words
    assert "DIN 18202 row 5" in Site("room 6 by 4 metres").told("specs").details[0]
