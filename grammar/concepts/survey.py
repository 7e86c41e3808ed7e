"""Points, readings, the instrument, and what they tell."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "point": (
        "point points spot spots shot shots location locations station stations place places "
        "measurement measurements reading readings survey_points levels nodes crosses marks"
    ),
    "reading": (
        "reading readings shot shots measurement measurements measure measured number numbers "
        "figure figures value values height heights level levels data measures entry entries "
        "survey took what_readings"
    ),
    "measure": (
        "measure measuring measured shoot shooting shot shots read reading readings survey "
        "surveying check points shoot_more measure_more shooting_more readings_more take_more"
    ),
    "difference": (
        "difference different higher lower between above below drop drops fall compared differ "
        "compare up_on down_on rise level_with vary variance out_by height_difference "
        "level_difference out_of_level against versus vs relative delta off_from out_from "
        "differing how_far_off far_out gap compares apart_in_height level_between in_height "
        "discrepancy uphill downhill higher_or_lower"
    ),
    "slope": (
        "slope percentage steep gradient incline fall falls falling tilt pitch "
        "steepness slant ramp "
        "sloping percent what_percent run_off leaning grade rake crossfall inclination "
        "run_downhill downhill uphill run_down inclined angle leans lean falloff cross-fall tip "
        "tips"
    ),
    "placeof": (
        "where whereabouts find located location which_way how_get get_to spot_on_plan position "
        "locate reach lost track_down point_out point_me direct_me show_me_where which_corner "
        "coordinates position_of point_me_at which_bit which_part how_far_from whereabouts_of "
        "get_there_from from_the_corner from_corner on_the_floor find_me direct find_it"
    ),
    "cut": (
        "cut cutting snip trim trimmed saw lengths length snipped tall long heights height size "
        "sizes schedule crop chop chopped short cut_off clip shorten shortened leave_the "
        "how_tall trim_to"
    ),
    "pin": (
        "pin pins peg pegs dowel dowels marker markers depth_pins level_pins studs stud screws "
        "depth_markers level_pegs tripods_pins"
    ),
    "high": (
        "high hump humps bump bumps lump lumps hill hills ridge ridges proud peak peaks mound "
        "mounds crown belly stick stuck sticking stands_up poke pokes poking raised crest "
        "high_spots up_most hilly bulge bulges swell lumpy bumpy rises rise "
        "protrude protruding protrudes stands_proud above_finish above_the_finish poke_through "
        "stick_up sticks_up wants_taking too_tall knob knobs mountain up_high over_the_finish "
        "high_areas bumpy_bits standing_proud high_point highs elevated humpy highest_places "
        "proudest"
    ),
    "low": (
        "low dip dips hollow hollows dent dents sunk sunken sag sags sagging puddle belly "
        "bellies birdbath bowl trough valley sinks lowest goes_down drops deepest_fill "
        "low_spots dipped sink need_most greatest_fill most_fill depressed depression pond "
        "ponding falls_away saucer dish dished water_sit water_sits water_stand belly_in "
        "holes_in_the_floor hole_in_the_floor dips_down sinking deep_bits lows hole_in bellied "
        "collects pools pool low_areas dented depressions lowest_places valleys"
    ),
    "hidden": (
        "hidden hiding missed miss unseen undetected unnoticed between in_between lurking "
        "haven't_noticed haven't_seen overlooked not_shot haven't_shot not_found unknown "
        "not_measured didn't_catch slipped_past haven't_found between_shots didn't_shoot "
        "didn't_measure didn't_see did_not_see did_not_measure might_be_missing be_missing "
        "not_seen unmeasured unshot unread didn't_read not_read shoot_between not_know unaware "
        "not_noticed"
    ),
    "stopnow": (
        "stop finish knock_off pack_up quit call_it done leave_off more another carry_on "
        "further density dense need_more any_more go_on is_that_it is_it_worth be_finished "
        "stop_shooting stop_measuring packing_up quit_shooting good_on are_we_good more_or"
    ),
    "missing": (
        "missing lack lacking outstanding forgotten forgot omitted short_of short incomplete "
        "gaps left_out missed still_need need_from want_from hear_from haven't_told not_told "
        "haven't_given overlook need_to_know else_need still_want need_off want_off waiting_for "
        "owe information_still unanswered not_entered still_lacking waiting_on haven't_got "
        "haven't_i haven't_we got_all_you_need all_you_need need_from_me anything_else "
        "more_from you_need_yet unfinished not_done_yet to_finish everything_you_need"
    ),
    "map": (
        "map plan picture drawing sketch diagram layout image chart draw drawn view_of plot "
        "colour_map illustration from_above bird_is_eye overhead top_view plan_view "
        "what_does_it_look floor_look looks_like view lay_out visual"
    ),
    "change": (
        "change changed changes altered alter alterations amended amendments edit edits edited "
        "modified modifications corrections corrected fiddled changed_since adjusted "
        "adjustments updates updated correction messing messed fiddling_with correct touched "
        "tinkered different_from different revised fixed"
    ),
    "record": (
        "record recorded saved save safe kept stored backed_up backup lost lose logged disk "
        "filed storage secure memory written_to_disk survive crash phone_dies preserved "
        "remember remembered remembers on_disk switch_off battery_dies battery_goes phone_goes "
        "power_goes turn_off shut_down crashes keep_all kept_safe in_the_file still_there "
        "survives backed"
    ),
    "notes": (
        "note notes remark remarks comment comments memo jottings jotted written_down noted "
        "wrote jot scribbled recorded_words write_about wrote_about written_about jot_down "
        "jotted_down scribble observations say_about notes_on"
    ),
    "trust": (
        "trust trusted reliable relied rely accurate right good sound funny off okay ok quality "
        "sure correct properly valid believe check_out dependable dodgy hold_up stand_up "
        "consistent believable any_good depend mistakes errors blunder blunders be_off "
        "hang_together sound_are add_up rubbish off_are be_wrong doubt doubtful make_sense "
        "plausible convincing confidence tie_up tally_up good_enough believe_them"
    ),
    "survey": (
        "survey readings shots measurements numbers reading levels figures measured measure "
        "levelling"
    ),
    "units": (
        "tape tapes measure reading readings numbers working work units unit rule switch use "
        "treat count everything my_tape go_back switch_back back_to"
    ),
    "inch": "inch inches imperial",
    "mm": "millimetre millimetres millimeter millimeters metric mm mils",
    "instrument": (
        "laser tripod instrument level staff kit machine total_station legs leg receiver rotary "
        "dumpy theodolite rig stand gear_head"
    ),
    "moved": (
        "moved move bumped knocked kicked shifted slipped caught booted nudged disturbed "
        "tripped toppled hit fell fallen walked_into clipped knock bump budged jogged jolted "
        "dropped tipped wobbled bashed whacked shoved stumbled got_a_kick got_kicked "
        "got_knocked took_a_knock kicked_over got_moved got_hit got_bumped went_over fell_over "
        "a_kick a_knock out_of_place not_where_it_was"
    ),
    "newsetup": (
        "new_set_up set_up_again set_up set_it_up fresh_station new_station fresh set_afresh "
        "stood_up setup moved_to carried another_station new_spot new_position somewhere_else "
        "repositioned re-set other_side new_place different_spot reset relocated moved_over "
        "moved_across set_back_up set_up_elsewhere put_the_laser moved_the_level "
        "moved_the_laser moved_the_tripod another_place another_spot different_place "
        "set_up_over put_somewhere_else new_position_for laser_somewhere_else set_up_anew "
        "new_place_for"
    ),
    "theyhold": (
        "hold unchanged same as_they_were nothing_changed nothing_is_different identical "
        "all_same others_fine didn't_move still_good agree agreed not_changed nothing_different "
        "still_same nothing_is_moved nothing_moved read_the_same same_as_before all_good "
        "as_before agrees"
    ),
    "benchmark": "benchmark bm mark bench-mark bench_mark benchmarks marker",
    "zero": ("zero start started began where_we_began beginning reference nothing datum the_zero"),
    "checkword": (
        "check checked checking shot looked_at look_at pointed again re-shot reshot "
        "double_checked back_to another_look looked_again went_back back_on back_to_zero "
        "recheck rechecked checked_back read_now now"
    ),
    "tie": (
        "tie tied tying joined join from_new_place new_place from_here common linked from_new "
        "new_one old_place"
    ),
    "range": "range see sees reach reaches only_see either_side up_or_down limit_of",
    "resolution": "resolution finest smallest show read_to steps finest_it'll",
    "repeat": (
        "repeatability repeat spread spreads scatter lots_of_times same_place many_times vary "
        "wobble"
    ),
    "offset": "offset too_high too_low should_say_nothing reads_out out_by error always",
    "cutverb": "cut cutting snip trim trimmed saw chop crop shorten clip cropping sawing",
    "remind": "remind remind_me what_about recall",
}
