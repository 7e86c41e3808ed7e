"""The height that the floor is to have."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "finish": (
        "finish finished_level finish_level finished_height top_level height level top "
        "finish_height finished_floor_level surface target line datum_level finished "
        "floor_level finish_elevation elevation ffl target_height pour_to pour_height "
        "top_of_pour screed_level top_height"
    ),
    "set": (
        "set sitting sit put settled decided got said chosen working fixed assumed at currently "
        "based pouring_to going_to aimed aiming poured_to working_to what_did_i_say put_it "
        "use_for"
    ),
    "grinding": (
        "grind grinding ground grinder sand sanding sanded plane planing abrade shave shaving "
        "skim_off sander take_off_the_top abrading"
    ),
    "up": (
        "up raise raised raising lift lifted higher bring_up bringing_up add thicker take_up "
        "increase bump nudge push_up goes_up going_up go_up jack heighten elevate come_up "
        "another_mil give_it_another more_high thicker_by top_up go_up_by heavier add_another "
        "added more_on"
    ),
    "down": (
        "down lower lowered lowering drop dropped reduce shave sink bring_down take_off thinner "
        "off come_down decrease less go_down skim knock_off trim lessen come_down_by take_two "
        "off_the_top lighter deeper_down"
    ),
    "want": (
        "want wants need like has wants_to has_to must set make put go take comes come should "
        "call let supposed run need_it desires would_like asked_for asks_for says wants_it goes "
        "going moves"
    ),
    "flush": (
        "flush level_with meet meets match matches line_up even same_height without_step "
        "no_step run_into level tie_in in_line flow_into butt join same_as even_with same_level "
        "match_up no_lip same_height_as flat_with level_to matched smooth_with meeting_up "
        "in_flush same_level_as"
    ),
    "feather": (
        "feather feathered taper tapered tapering ramp fade run_out run_down nothing nowt "
        "thinner_and_thinner feathering die die_out run_it thin_out tail_off peter_out "
        "die_it_out die_off thin_it_out taper_off run_into_nothing to_zero run_out_to_zero "
        "feathers blend_in smooth_out to_nothing"
    ),
    "highest": (
        "highest proudest tallest top_hump top_of_hump high_spot high_point peak hump "
        "highest_bit lump tallest_lump biggest_hump highest_spot highest_place very_highest"
    ),
    "kiss": (
        "kiss just_reach only_reach just_touch touch just_cover skim reach no_further barely "
        "only_as_high exactly_at just_over_nothing as_high_as barely_cover no_higher"
    ),
    "limitmost": (
        "most max maximum at_most no_more never_more not_more never_over limit nowhere_past "
        "upper top_limit cap more_than no_thicker no_deeper thicker_than over nothing_over tops "
        "exceed up_to keep_under thickest_allowed not_thicker no_greater keep_it_under not_past "
        "no_thicker_than deeper_than not_thicker_than never_deeper stay_under stay_below "
        "not_exceed max_thickness"
    ),
    "limitleast": (
        "least min minimum at_least no_less not_less less_than never_less never_under "
        "lower_limit can't_be_less thinner_than no_thinner everywhere thinnest_allowed "
        "nowhere_less never_thinner never_below not_thinner nowhere_less_than minimum_over "
        "not_below nowhere_under never_less_than everywhere_at_least not_thinner_than stay_over "
        "min_thickness"
    ),
    "plane": ("plane tilted tilt sloping slope slopes flat slanting sloped tilts slanted pitched"),
    "flat": "flat plane planar true",
    "fall": "fall slope run falls falling run_down sloped",
    "nailed": (
        "fix fixed nailed pin pinned must has_to can't_move held hold come_out stay exactly "
        "comes_out can't_change locked really_has"
    ),
    "takedown": "take_down knock_down take_off knock_off come_down shave_off",
}
