"""The room, what stands on it, what it is made of, and its doors."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "area": (
        "area size square_metres square_meters square_feet squared metreage footage surface sqm "
        "m2 yardage floor_space square_metreage floorspace big sq how_large acreage "
        "square_footage squares ground how_much_floor how_many_squares square_meterage "
        "meters_squared metres_squared feet_squared dimensions extent expanse sq_ft sq_m"
    ),
    "floor": "floor slab job room site it whole lot here place concrete this everything",
    "door": (
        "door doors doorway doorways threshold thresholds frame frames jamb jambs entrance "
        "doorframe doorframes sill"
    ),
    "stepword": "lip_at step lip ledge trip steps drop",
    "slab": "slab concrete floor screed base subfloor substrate underneath",
    "thingword": (
        "column columns pillar pillars drain drains joint joints crack cracks hole holes opening "
        "openings shaft shafts cabinet cabinets gully post posts"
    ),
    "obstacle": (
        "obstacle obstacles pillar pillars column columns hole holes cabinet item items objects "
        "fixed_items in_the_way things drains shaft shafts object posts post stanchion "
        "stuff_in_the_way in_our_way "
        "fixtures"
    ),
    "line": "row rows line column columns columnwise rowwise",
    "rowword": "row rows row_by_row rowwise",
    "columnword": "column columns column_by_column up_and_down columnwise",
    "walkalong": ("along down go_down run_down walk work follow going go do one_at_time by_rows"),
    "leftside": "left lh left-hand",
    "rightside": "right rh right-hand",
    "outside": (
        "outside through passage hall hallway corridor next_room past beyond other_side "
        "next_door landing adjoining next_floor next_door's adjacent hall_outside outside_door "
        "floor_outside"
    ),
    "closest": "closest nearest by over_by at near opposite next_to beside",
    "steplimit": (
        "step_limit limit most let allow allowed rules rule maximum allowed_step cap max "
        "highest_step biggest_step allowed_lip max_lip lip_limit"
    ),
    "underfoot": (
        "floor slab base substrate subfloor underneath under underfoot ground there_is "
        "underneath_it base_is it_is_on subfloor_is onto over under_it"
    ),
    "timber": (
        "timber wood wooden boards floorboards planks joists boarded ply plywood hardwood "
        "softwood chipboard parquet floorboarding wood_floor timber_floor osb decking "
        "plywood_floor"
    ),
    "tiled": "tile tiles tiled ceramic",
    "concretefloor": "concrete cement",
    "screed": "screed screeded",
    "hole": "hole probe sleeve drilled stick little_stick rh_probe drill_hole borehole",
    "grid": "grid spacing apart every spaced centres centers spacings both_ways",
    "roomword": "room kitchen floor hall box space place",
    "size": "metre metres long wide by box measures measure big is it's size dimension",
    "wall": "wall walls heads runs run goes next_bit along side",
    "close": (
        "close closed back_where back_at ended_up all_there every_wall outline outlines "
        "my_corner that's_all last_wall back_to_start"
    ),
    "extra": "extra odd additional another add single spare one_off",
    "drain": "drain gully gulley outlet floor_drain",
    "joint": "joint expansion movement day_joint",
    "crack": ("crack cracked split splits splitting fissure cracks crazed break hairline cracking"),
    "repaired": "repaired glued filled stitched mended fixed bonded injected sealed",
    "opening": "opening penetration service_opening",
    "plugged": "plugged filled blocked_up tight sealed closed stuffed",
}
