"""Pictures: what stands on them, and whether it can be read."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest
import shapely

from assistant.errors import LeadsmanError
from assistant.floor.depths import depths_of
from assistant.handover.isolines import band_between, heights_sampled, levels_between, lines_at
from assistant.handover.picture.pen import CHARACTER
from assistant.handover.picture.plan import plan_svg
from assistant.handover.picture.profile import profile_svg
from assistant.handover.picture.scale import LEAST_CONTRAST, colours, contrast, luminance
from assistant.handover.pictures import as_png
from assistant.job import EMPTY, Job
from tests.handover.conftest import l_shaped, read_all
from tests.job.conftest import Site

SVG = "{http://www.w3.org/2000/svg}"


def texts(svg: str) -> list[str]:
    return [text.text or "" for text in ET.fromstring(svg).iter(f"{SVG}text")]


def of_class(svg: str, name: str) -> list[ET.Element]:
    return [each for each in ET.fromstring(svg).iter() if each.get("class") == name]


@pytest.fixture(scope="module")
def busy() -> Job:
    """With something high, a column, zones, doors, strips that cannot be, and a point left out."""
    site = Site("room 12 by 8 metres", "grid 2 metres", "product example standard",
                "column 0.4 by 0.4 metres at B2", "joint from A3 to F3", "opening 0.2 by 0.3 "
                "metres at C3")  # fmt: skip
    read_all(site)
    site.told("A1 +4 mm", "F4 -31 mm", "strike C1", "door 1 at A1", "crew 3", "mixers 2",
              "batches of 2 bags", "minutes per batch 6")  # fmt: skip
    return site.job


# --- colours --------------------------------------------------------------------------


def test_the_darker_the_deeper_also_in_grey() -> None:
    for count in range(2, 12):
        greys = [luminance(shade) for shade in colours(count)]
        assert all(shallow > deep for shallow, deep in pairwise(greys)), count


def test_contrast_is_that_of_the_standard() -> None:
    """WCAG 2.2: black on white 21, equal colours 1; 4.54 for #767676 on white, a known border."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("show", ["before", "planned"])
def test_every_value_is_read_on_what_lies_beneath(busy: Job, show: str) -> None:
    """The words stand on a plate of one colour, wholly: so nothing else is beneath them."""
    root = list(ET.fromstring(plan_svg(busy, "floor", show)))
    found = 0
    for plate, text in pairwise(root):
        if text.get("class") != "on-plate":
            continue
        assert plate.get("class") == "plate"
        found += 1
        assert contrast(text.attrib["fill"], plate.attrib["fill"]) >= LEAST_CONTRAST
        size = float(text.attrib["font-size"])
        wide = len(text.text or "") * CHARACTER * size
        left, width = float(plate.attrib["x"]), float(plate.attrib["width"])
        assert left <= float(text.attrib["x"]) - wide / 2 + 0.02
        assert left + width >= float(text.attrib["x"]) + wide / 2 - 0.02
        top, high = float(plate.attrib["y"]), float(plate.attrib["height"])
        assert top < float(text.attrib["y"]) - 0.7 * size  # capitals are so high
        assert float(text.attrib["y"]) < top + high
    assert found > 40


# --- what is shown --------------------------------------------------------------------


def test_all_of_the_floor_is_on_it(busy: Job) -> None:
    svg = plan_svg(busy, "floor")
    shown = texts(svg)
    for point, depth in depths_of(busy).items():
        assert point in shown
        assert f"{abs(depth)}" in "".join(shown)
    assert "↑4" in shown
    assert "C1" in shown  # not read, and there all the same
    assert "door 1" in shown
    assert of_class(svg, "grind"), "what stands above the finish is hatched"
    assert of_class(svg, "joint")
    assert len(of_class(svg, "standing")) == 2
    assert (of_class(svg, "strip")[0].get("d") or "").count("M") > 3
    assert not of_class(plan_svg(busy, "floor", "before"), "grind")


def boxes(svg: str, kind: str, of: str) -> list[shapely.Polygon]:
    """What elements of a class cover."""
    every = [each.attrib for each in of_class(svg, of) if each.tag == f"{SVG}{kind}"]
    return [
        shapely.box(x := float(at["x"]), y := float(at["y"]),
                    x + float(at["width"]), y + float(at["height"]))
        for at in every
    ]  # fmt: skip


def test_numbers_of_strips_and_names_of_zones_are_hidden_by_no_point() -> None:
    """The middles of these strips and of the zone are points."""
    site = Site("room 8 by 6 metres", "grid 2 metres", "product example standard")
    read_all(site)
    site.told("crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6")
    whole = plan_svg(site.job, "floor")
    site.told("zone kitchen A1 to C3")
    zoned = plan_svg(site.job, "floor")
    assert "Dotted, named: zones, each with its finish." in texts(zoned)
    for svg, names in ((whole, 4), (zoned, 5)):
        plates = boxes(svg, "rect", "plate")
        words = [each.text or "" for each in of_class(svg, "on-plate")]
        mine = [row for row, said in enumerate(words) if said in ("kitchen", *"1234")]
        assert len(mine) >= names
        for row in mine:
            for other, plate in enumerate(plates):
                assert row == other or not plates[row].intersects(plate), words[row]


def test_lines_are_seen_on_every_colour(busy: Job) -> None:
    """WCAG 2.2, 1.4.11: 3 to 1 to what is beside; black on its white, or white on the floor."""
    elements = list(ET.fromstring(plan_svg(busy, "floor")))
    lines = [row for row, each in enumerate(elements)
             if each.get("class") in ("strip", "joint", "crack", "front", "zone")]  # fmt: skip
    assert len(lines) >= 2
    for row in lines:
        under, line = elements[row - 1], elements[row]
        assert under.get("d") == line.get("d")
        assert float(under.attrib["stroke-width"]) > float(line.attrib["stroke-width"])
        assert contrast(under.attrib["stroke"], line.attrib["stroke"]) >= 3
        for shade in colours(8):
            assert max(contrast(each.attrib["stroke"], shade) for each in (under, line)) >= 3


def test_it_says_in_words_what_it_shows(busy: Job) -> None:
    root = ET.fromstring(plan_svg(busy, "floor"))
    assert root.get("role") == "img"
    (title, about) = (root.find(f"{SVG}{name}") for name in ("title", "desc"))
    assert title is not None
    assert about is not None
    assert root.get("aria-labelledby") == f"{title.get('id')} {about.get('id')}"
    assert "4 mm above the finish at A1 to 31 mm at F4, 22 of 23 points read" in (about.text or "")


def test_nothing_in_it_runs_or_is_fetched(hostile: Job) -> None:
    for svg in (plan_svg(hostile, "<script>\u202e&'\""), profile_svg(hostile, "<b>", "A1", "D5")):
        root = ET.fromstring(svg)
        assert not {each.tag for each in root.iter()} & {f"{SVG}script", f"{SVG}foreignObject"}
        assert not re.search(r"(href|url\(|@import|on\w+=)", svg)
        assert "\u202e" not in svg
    assert "<script>" not in plan_svg(hostile, "<script>")


def test_bands_are_the_floor_and_lines_lie_at_their_height(notched: Job) -> None:
    """Exact arithmetic: the bands cover the floor once; on a line the surface has its height."""
    surface = heights_sampled(notched)
    assert surface is not None
    levels = levels_between(float(surface.values.min()), float(surface.values.max()), "mm")
    bands = [band_between(surface, low, high) for low, high in pairwise(levels)]
    assert sum(band.area for band in bands) == pytest.approx(surface.area.area, rel=1e-6)
    assert shapely.union_all(bands).area == pytest.approx(surface.area.area, rel=1e-6)
    from assistant.floor.surfaces import surface_of

    floor = surface_of(notched)
    assert floor is not None
    for level in levels[1:-1]:
        for line in lines_at(surface, level):
            off = floor.mesh.heights_at(line, floor.depths_m) * 1000 + level
            # As far as a lattice of some 4 cm bends what is bent between its nodes.
            assert abs(off).max() < 0.4


def test_each_zone_is_drawn_under_its_own_finish() -> None:
    site = l_shaped()
    read_all(site)
    site.told("zone 2 columns D to F", "finish in zone 2 +9 mm")
    svg = plan_svg(site.job, "floor")
    assert of_class(svg, "zone")
    assert {f"{depth}" for depth in depths_of(site.job).values()} <= set(texts(svg))


def test_after_the_pour_there_is_more_to_see() -> None:
    site = Site("room 4 by 4 metres", "grid 2 metres", "product example standard",
                "A1 -18 mm", "B1 -14 mm", "A2 -9 mm", "B2 -11 mm")  # fmt: skip
    with pytest.raises(LeadsmanError, match="before and planned"):
        plan_svg(site.job, "floor", "after")
    site.told("pour finished", "A1 -1 mm", "B1 +2 mm", "A2 level", "B2 -1 mm")
    assert {"1", "↑2", "0"} <= set(texts(plan_svg(site.job, "floor")))
    # 18 - 1, 14 + 2, 9 and 11 - 1: exact arithmetic.
    assert {"17", "16", "9", "10"} <= set(texts(plan_svg(site.job, "floor", "difference")))
    cut = profile_svg(site.job, "floor", "A1", "B2")
    assert of_class(cut, "floor")
    assert "Thin: the poured floor" in " ".join(texts(cut))
    assert "Dark" not in " ".join(texts(cut))


def test_only_what_is_on_the_punch_list_is_hatched_of_a_poured_floor() -> None:
    """2 mm above the finish is within the 3 mm that are let pass where nothing else is said."""
    site = Site("room 4 by 4 metres", "grid 2 metres", "product example standard",
                "A1 -18 mm", "B1 -14 mm", "A2 -9 mm", "B2 -11 mm",
                "pour finished", "A1 -1 mm", "B1 +2 mm", "A2 level", "B2 -1 mm")  # fmt: skip
    svg = plan_svg(site.job, "floor")
    assert not of_class(svg, "grind")
    assert "Hatched" not in " ".join(texts(svg))
    site.told("punch over 1 mm")
    svg = plan_svg(site.job, "floor")
    assert of_class(svg, "grind")
    assert "Hatched: to grind, more than 1 mm above." in " ".join(texts(svg))


def test_five_hundred_points_can_still_be_told_apart() -> None:
    site = Site("room 25 by 20 metres", "grid 1 metre")
    sizes = [float(each.attrib["font-size"]) for each in of_class(plan_svg(site.job, "hall"),
                                                                  "on-plate")]  # fmt: skip
    assert len(sizes) >= 500
    assert min(sizes) > 5


# --- a cut ------------------------------------------------------------------------------


def test_a_cut_says_how_deep_it_is(busy: Job) -> None:
    about = ET.fromstring(profile_svg(busy, "floor", "A1", "F4")).find(f"{SVG}desc")
    assert about is not None
    assert "4 mm above the finish to 31 mm deep" in (about.text or "")


@pytest.mark.parametrize(
    ("job", "line", "told"),
    [
        (EMPTY, ("A1", "B1"), "A1 has no place"),
        (None, ("A1", "A1"), "has no length"),
        (None, ("A1", "Z9"), "Z9 has no place"),
    ],
)
def test_a_cut_that_is_none_is_told(
    busy: Job, job: Job | None, line: tuple[str, str], told: str
) -> None:
    with pytest.raises(LeadsmanError, match=told):
        profile_svg(job or busy, "floor", *line)


def test_without_a_room_or_a_reading() -> None:
    with pytest.raises(LeadsmanError, match="needs the room"):
        plan_svg(EMPTY, "floor")
    bare = Site("room 4 by 4 metres", "grid 2 metres").job
    assert "nothing was read yet" in plan_svg(bare, "floor")
    with pytest.raises(LeadsmanError, match="needs readings"):
        profile_svg(bare, "floor", "A1", "B2")


def test_in_dots_it_is_a_png(busy: Job) -> None:
    assert as_png(plan_svg(busy, "floor")).startswith(b"\x89PNG\r\n\x1a\n")
