"""The height that the floor is to have."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "finish": (
        "finish finished_level finish_level finished_height top_level height level top "
        "finish_height finished_floor_level surface target line datum_level"
    ),
    "set": "set sitting sit put settled decided got said chosen working fixed assumed at currently",
    "grinding": (
        "grind grinding ground grinder sand sanding sanded plane planing abrade shave shaving "
        "take_down knock_down skim_off sander take_off_the_top abrading"
    ),
    "up": (
        "up raise raised raising lift lifted higher bring_up bringing_up add thicker take_up "
        "increase bump nudge push_up goes_up going_up go_up jack heighten elevate come_up"
    ),
    "down": (
        "down lower lowered lowering drop dropped reduce shave sink bring_down take_off thinner "
        "off come_down decrease less go_down skim knock_off trim lessen"
    ),
    "want": (
        "want wants need like has wants_to has_to must set make put go take comes come should "
        "call let supposed run"
    ),
    "flush": (
        "flush level_with meet meets match matches line_up even same_height without_step "
        "no_step run_into level tie_in in_line flow_into butt join same_as even_with same_level "
        "match_up no_lip"
    ),
    "feather": (
        "feather feathered taper tapered tapering ramp fade run_out run_down nothing nowt "
        "thinner_and_thinner feathering die die_out run_it thin_out tail_off peter_out"
    ),
    "highest": (
        "highest proudest tallest top_hump top_of_hump high_spot high_point peak hump "
        "highest_bit lump tallest_lump biggest_hump"
    ),
    "kiss": "kiss just_reach only_reach just_touch touch just_cover skim reach no_further barely",
    "limitmost": (
        "most max maximum at_most no_more never_more not_more never_over limit nowhere_past "
        "upper top_limit cap more_than no_thicker no_deeper thicker_than over nothing_over tops "
        "exceed up_to keep_under thickest_allowed not_thicker no_greater"
    ),
    "limitleast": (
        "least min minimum at_least no_less not_less less_than never_less never_under "
        "lower_limit can't_be_less thinner_than no_thinner everywhere thinnest_allowed "
        "nowhere_less never_thinner never_below not_thinner"
    ),
    "plane": "plane tilted tilt sloping slope slopes flat slanting sloped tilts slanted pitched",
    "flat": "flat plane planar true",
    "fall": "fall slope run falls falling run_down sloped",
    "nailed": (
        "fix fixed nailed pin pinned must has_to can't_move held hold come_out stay exactly "
        "comes_out can't_change locked really_has"
    ),
}
