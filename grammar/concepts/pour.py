"""The pour, what it waits for, and what is known of the site."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "people": (
        "crew people men guys lads blokes hands workers us team man persons staff helpers mates "
        "folks fellas labourers laborers"
    ),
    "mixers": (
        "mixer mixers drill drills machines mixing_stations paddles mixing_drums drum drums"
    ),
    "batchword": (
        "batch batches mix mixes load loads bucket buckets barrel tub drum mixed mixture "
    ),
    "batchsize": "batch size always each every",
    "atonce": ("at_time at_once together per_batch per_mix per_go in_batch in_mix each_time a_go"),
    "minutes": "minute minutes min mins",
    "quarts": "quart quarts qt qts",
    "gallon": "gallon gallons gal gals",
    "hour": "hour hourly hr per_hour",
    "pump": "pump pumps pumping pumped",
    "wayout": (
        "way_out exit out leave leaving back_out escape come_out go_out get_out end_up end_by "
        "exiting"
    ),
    "startfrom": "start starting begin beginning from kick_off starts first",
    "stripword": "strip strips bay bays lane lanes",
    "dam": "dam dams bulkhead stop_bar stop_end stopend shutter batten stop barrier formwork",
    "takeaway": (
        "no forget drop remove lift lose scrap clear delete without take_out take_up cancel rid "
        "away off"
    ),
    "edgestrip": (
        "edge_strip edging_strip perimeter_strip perimeter_foam isolation_strip expansion_strip "
        "edge_foam foam_strip edging edge_insulation edge_tape wall_strip border_strip "
        "perimeter_isolation"
    ),
    "carried": ("carried carry through taken honored honoured continued brought_up kept followed"),
    "startnow": (
        "start started starting begin beginning begun kick_off going going_down away going_in "
        "commence underway now goes_down get_going first"
    ),
    "frontword": (
        "front leading_edge pour_edge wet_edge edge pour_front face pour_line we_are_at reached"
    ),
    "noise": "noise noisy racket breaker kango grinder drill radio mixer hoover compressor row din",
    "broken": (
        "packed_up packed_in broke broken broken_down died dead jammed seized tripped blown "
        "conked_out given_up gone_bang stopped_working stuck burst blocked burnt_out"
    ),
    "spike": "spike spiked spiking rolled roller spike_roller de-aired deaired",
    "pausing": (
        "stop stopped stopping hold halt halted pause paused pausing interrupt wait waiting "
        "break standstill"
    ),
    "goingagain": (
        "again resume resumed resuming continue continues continuing carry_on go_on going_on on "
        "restart restarted back_to back_on keep"
    ),
    "flowtest": (
        "flow flow_test flow_ring slump spread slump_ring flow_came ring_test slump_test patty "
        "flow_spread spread_test"
    ),
    "leftover": "left_over leftover leftovers spare over surplus bags_left extra",
    "tread": (
        "walk walking walked tread treading foot feet boots step_on stand_on back_on traffic "
        "on_foot get_on go_on be_on access cross crossing walkable back_in in_there walk_about "
        "enter set_foot put_weight weight_on trafficked let_people back_in_the_room "
        "use_the_room stand hard_enough to_stand keep_off keep_people_off stay_off stay_off_it "
        "work_on be_walked kneel on_it get_in get_back walk_over cross_it off_it "
    ),
    "cover": (
        "tile tiles tiler tilers tiling tiled carpet carpets carpeted vinyl lino laminate "
        "parquet flooring floor_layer floor_layers covering coverings fitter fitters lay_floor "
        "wood_floor floor_finish covered fit lvt boards laid laying overlay "
        "wooden_floor floor_fitter next_layer glue_down engineered click_floor lvp floor_guys "
        "tile_guys flooring_guys installers floorers lay_on go_over_it hardwood next_trade "
        "next_trades finish_floor planks ceramics stone resilient rugs underlay installed "
        "install"
    ),
    "wrong": (
        "wrong problem problems issue issues trouble alarm worry worried worrying fret fretting "
        "bother bothering concern concerns concerned attention warning warnings amiss "
        "outside_limits out_of_limits limits dodgy red_flags red_flag alarming bad look_out "
        "watch unusual careful_about upset bug nasty complaint suspicious suspect critical "
        "exceed exceeded failing risks fishy up_with gone_wrong goes_wrong went_wrong off funny "
        "strange weird not_happy be_worried watching_out look_bad worrisome not_right not_ok "
        "out_of_order concern_me odd iffy out_of_line"
    ),
    "safety": (
        "safety danger dangers dangerous hazard hazards dust ppe precaution precautions mask "
        "gloves caution cautions careful protect protective health goggles safe_with respirator "
        "lungs breathe breathing skin eyes inhale wear toxic harmful bad_for bad_for_you "
        "hurt_me how_safe stay_safe safely first_aid caustic irritant protection "
        "protective_gear breathing_it kit_do_i_need careful_of protect_myself burn_skin burn_me "
        "chemical_burn burns_skin"
    ),
    "pour": (
        "pour pouring poured place placing put_it_down putting_it_down put_down lay_it laying "
        "go_ahead start_pouring begin start tip tipping placement casting"
    ),
    "ready": (
        "ready clear cleared clearance go_ahead green_light good_to_go may allowed permitted "
        "okay ok preventing prevent stopping stop holding hold reason against can are_we fit "
        "safe_to anything_stop set_to begin_pouring all_set hold_off open_the_bags holding_me "
        "hold_me_up holding_up held_up go_for set_for everything_set right_to in_order prepared "
        "waiting_on clear_to block blocking blocker start_the"
    ),
    "dry": (
        "dry dried drying dryed dryness dried_out cured moisture damp moist wet still_wet "
        "still_damp moisture_level too_wet too_much_moisture cure_out humidity_in_the_slab "
        "water_in_the_slab dry_out dries wet_still"
    ),
    "dew": (
        "dew condensation condense condensing sweat sweating sweaty fog mist settle_on "
        "condensate sweats condensation_risk dew_point clammy beading misty condensates"
    ),
    "climate": (
        "temperatures temperature temps temp climate humidity damp air_conditions conditions "
        "environmental moisture environment weather"
    ),
    "clocks": (
        "clock_status clocks timers timer ticking countdown stopwatch running active clock "
        "timed timing "
        "on_the_clock ticking_now running_time timers_on what_timers stopwatches which_times"
    ),
    "guide": (
        "guide procedure process walk_through through_it step_by_step bit_by_bit lead take_me "
        "taken_through talk_me hand_hold newbie new_to instructions guided teach "
        "never_done_this first_time hand_through hold_my_hand step_through how_does_this_work "
        "show_me_the_ropes how_it_works teach_me coach learn lead_me talk_through "
        "what_is_the_drill new_at_this explain_the_whole"
    ),
    "stage": "step stage procedure this_bit this_part which_bit process",
    "planned": (
        "plan order sequence strategy approach programme schedule strips bays edges go_about "
        "work_our_way which_order what_order method pour_order which_end where_to_start "
        "where_do_we_start split_it split_up game_plan end_start which_end_first "
        "start_pouring_from divide divided way_round method_of pour_plan tackle sequence_of "
        "how_to_pour attack"
    ),
    "goingon": (
        "how going track progress ahead behind getting_on doing on_time pace keeping_up "
        "behind_schedule how_goes how_we_doing on_track on_course keep_up on_schedule "
        "are_we_doing how_is_the running_late in_time making_good_time"
    ),
    "air": (
        "air room ambient inside in_here thermometer wall in_this_room air_in_here "
        "thermometer_says air_temp in_the_air"
    ),
    "temperature": "temperature temp degrees celsius thermometer",
    "humid": (
        "humidity humid rh damp_in_air relative damp_in_the_air moisture_in_air "
        "moisture_in_the_air humidity_in_here humidity_in_the_room"
    ),
    "emission": "emission dome calcium dome_test emissions vapour",
    "ph": "ph alkalinity litmus alkaline strip_paper slab_paper",
    "hose": "hose hydrostatic_hose water_level",
    "mixed": (
        "mixed water_in added_water mixing_now in tipped_in started_mixing put_the_water "
        "added_the_water water_added water_gone_in water_is_in put_water tipped"
    ),
}
