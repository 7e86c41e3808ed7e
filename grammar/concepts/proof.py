"""The finished floor: lines, gaps, defects, limits, and what becomes of them."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "newfloor": (
        "finished_floor poured_floor new_floor finished_surface cured_floor final_floor "
        "after_pour new_surface finished_slab as_built what_we_poured poured_surface"
    ),
    "lineword": "line lines run profile",
    "gapword": "gap gaps daylight hole",
    "edgeword": "straightedge straight_edge straight-edge edge screed_bar rule level bar",
    "hollowsound": (
        "hollow drummy hollows drumming drums debonded delaminated loose unbonded blown "
        "hollow_sounding delamination boast"
    ),
    "pinholes": (
        "pinhole pinholes pin_holes pin_hole air_holes bubbles blow_holes blowholes pitted"
    ),
    "defect": (
        "defect defects flaw flaws blemish blemishes imperfections snag snags imperfection "
        "deficiencies"
    ),
    "laidword": (
        "poured laid placed put_down went_down actual went_in as_built achieved real result"
    ),
    "promised": (
        "promise promised promises agreed signed_up told_client contract contracted "
        "guarantee guaranteed committed tell_client"
    ),
    "punchlist": (
        "punch_list punch punchlist snag snags snagging snag_list snaglist repair_list "
        "defect_list fix_list to_fix_list touch-ups touch_ups remedial remedials"
    ),
    "mendword": (
        "mend mended repair repaired repairing repairs fix fixed fixing fill filling patch "
        "patching touch_up put_right putting_right grinding_down rework make_good sort_out "
        "needs_grinding needs_filling rectify remedy sorting snags"
    ),
    "mendeddone": (
        "mended repaired fixed patched filled sorted rectified ground_down made_good put_right "
        "touched_up seen_to dealt_with corrected"
    ),
    "profileword": ("profile section cross-section cross_section long_section elevation cut_along"),
    "flatness": (
        "flatness flat ff fl f-numbers f_numbers f_number level levelness true waviness f-number"
    ),
    "limits": (
        "spec specs specification specifications tolerance tolerances limit limits standard "
        "standards requirement"
    ),
    "passes": (
        "pass passes passing meet meets met meeting within in_tolerance comply complies conform "
        "conforms good_enough flat_enough satisfy ok acceptable fail fails out_of inside"
    ),
    "scanword": "scan scanner point_cloud scanned cloud laser_scan",
    "clearanceword": (
        "clearance clear clears undercut clearing gap leaf under swings daylight space_under"
    ),
    "coveringword": (
        "covering tile tiles tiling carpet vinyl lino laminate parquet flooring planks plank "
        "lvt floor_finish wood boards lvp hardwood floor_covering ceramic engineered on_top"
    ),
}
