"""The pour, what it waits for, and what is known of the site."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "tread": (
        "walk walking walked tread treading foot feet boots step_on stand_on back_on traffic "
        "on_foot get_on go_on be_on access cross crossing walkable back_in in_there walk_about "
        "enter set_foot put_weight weight_on trafficked let_people back_in_the_room "
        "use_the_room"
    ),
    "cover": (
        "tile tiles tiler tilers tiling tiled carpet carpets carpeted vinyl lino laminate "
        "parquet flooring floor_layer floor_layers covering coverings fitter fitters lay_floor "
        "wood_floor floor_finish covered fit lvt boards laid laying overlay finishes_on "
        "wooden_floor floor_fitter next_layer glue_down engineered click_floor"
    ),
    "wrong": (
        "wrong problem problems issue issues trouble alarm worry worried worrying fret fretting "
        "bother bothering concern concerns concerned attention warning warnings amiss "
        "outside_limits out_of_limits limits dodgy red_flags red_flag alarming bad look_out "
        "watch unusual careful_about upset bug nasty complaint suspicious suspect critical "
        "exceed exceeded failing risks"
    ),
    "safety": (
        "safety danger dangers dangerous hazard hazards dust ppe precaution precautions mask "
        "gloves caution cautions careful protect protective health burn burns goggles safe_with "
        "respirator lungs breathe breathing skin eyes inhale wear toxic harmful"
    ),
    "pour": (
        "pour pouring poured place placing put_it_down putting_it_down put_down lay_it laying "
        "go_ahead start_pouring begin start tip tipping placement casting"
    ),
    "ready": (
        "ready clear cleared clearance go_ahead green_light good_to_go may allowed permitted "
        "okay ok preventing prevent stopping stop holding hold reason against can are_we fit "
        "safe_to anything_stop set_to begin_pouring all_set hold_off"
    ),
    "dry": (
        "dry dried drying dryed dryness dried_out cured moisture damp moist wet still_wet "
        "still_damp moisture_level"
    ),
    "dew": (
        "dew condensation condense condensing sweat sweating sweaty fog mist settle_on condensate"
    ),
    "climate": (
        "temperatures temperature temps temp climate humidity damp air_conditions conditions "
        "environmental moisture environment weather"
    ),
    "clocks": "clocks timers timer ticking countdown stopwatch running active clock timed timing",
    "guide": (
        "guide procedure process walk_through through_it step_by_step bit_by_bit lead take_me "
        "taken_through talk_me hand_hold newbie new_to instructions guided teach"
    ),
    "stage": "step stage procedure this_bit this_part which_bit process",
    "planned": (
        "plan order sequence strategy approach programme schedule strips bays edges go_about "
        "work_our_way which_order what_order method pour_order which_end where_to_start "
        "where_do_we_start"
    ),
    "goingon": (
        "how going track progress ahead behind getting_on doing on_time pace keeping_up "
        "behind_schedule"
    ),
    "air": "air room ambient inside in_here thermometer wall in_this_room",
    "temperature": "temperature temp degrees celsius thermometer",
    "humid": "humidity humid rh damp_in_air relative damp_in_the_air moisture_in_air",
    "emission": "emission dome calcium dome_test emissions vapour",
    "ph": "ph alkalinity litmus alkaline strip_paper slab_paper",
    "hose": "hose hydrostatic_hose water_level",
    "mixed": "mixed water_in added_water mixing_now in tipped_in started_mixing",
}
