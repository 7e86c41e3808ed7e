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
        "survey took"
    ),
    "measure": (
        "measure measuring measured shoot shooting shot shots read reading readings survey "
        "surveying check points"
    ),
    "difference": (
        "difference different higher lower between above below drop drops fall compared differ "
        "compare up_on down_on rise level_with vary variance out_by height_difference "
        "level_difference out_of_level"
    ),
    "slope": (
        "slope steep gradient incline fall falls falling tilt pitch steepness slant ramp "
        "sloping percent what_percent run_off leaning grade rake crossfall inclination"
    ),
    "placeof": (
        "where whereabouts find located location which_way how_get get_to spot_on_plan position "
        "locate reach lost track_down point_out point_me direct_me show_me_where which_corner "
        "coordinates position_of"
    ),
    "cut": (
        "cut cutting snip trim trimmed saw lengths length snipped tall long heights height size "
        "sizes schedule crop chop chopped short cut_off clip shorten shortened"
    ),
    "pin": "pin pins peg pegs dowel dowels marker markers",
    "high": (
        "high hump humps bump bumps lump lumps hill hills ridge ridges proud peak peaks mound "
        "mounds crown belly stick stuck sticking stands_up poke pokes poking raised crest "
        "high_spots up_most hilly bulge bulges swell raised_bits lumpy bumpy rises "
        "rise protrude protruding protrudes"
    ),
    "low": (
        "low dip dips hollow hollows dent dents sunk sunken sag sags sagging puddle belly "
        "bellies birdbath bowl trough valley sinks lowest goes_down drops deepest_fill "
        "low_spots dipped down_most sink need_most greatest_fill most_fill depressed depression "
        "pond ponding falls_away saucer dish dished"
    ),
    "hidden": (
        "hidden hiding missed miss unseen undetected unnoticed between in_between lurking "
        "haven't_noticed haven't_seen overlooked not_shot haven't_shot not_found unknown "
        "not_measured didn't_catch slipped_past haven't_found"
    ),
    "stopnow": (
        "stop finish knock_off pack_up quit call_it done leave_off more another carry_on "
        "further density dense need_more any_more go_on"
    ),
    "missing": (
        "missing lack lacking outstanding forgotten forgot omitted short_of short incomplete "
        "gaps left_out missed still_need need_from want_from hear_from haven't_told not_told "
        "haven't_given overlook need_to_know else_need still_want need_off want_off waiting_for "
        "owe information_still unanswered not_entered still_lacking waiting_on haven't_got"
    ),
    "map": (
        "map plan picture drawing sketch diagram layout image chart draw drawn view_of plot "
        "colour_map illustration"
    ),
    "change": (
        "change changed changes altered alter alterations amended amendments edit edits edited "
        "modified modifications corrections corrected fiddled changed_since adjusted "
        "adjustments updates updated correction"
    ),
    "record": (
        "record recorded saved save safe kept stored backed_up backup lost lose logged disk "
        "filed storage secure memory written_to_disk survive crash phone_dies preserved"
    ),
    "notes": (
        "note notes remark remarks comment comments memo jottings jotted written_down noted "
        "wrote jot scribbled recorded_words"
    ),
    "trust": (
        "trust trusted reliable relied rely accurate right good sound funny off okay ok quality "
        "sure correct properly valid believe check_out dependable dodgy hold_up stand_up "
        "consistent believable any_good depend mistakes errors blunder blunders"
    ),
    "survey": (
        "survey readings shots measurements numbers reading levels figures measured measure "
        "levelling"
    ),
    "units": (
        "tape tapes measure reading readings numbers working work units unit rule switch use "
        "treat count everything"
    ),
    "inch": "inch inches imperial",
    "mm": "millimetre millimetres millimeter millimeters metric mm mils",
    "instrument": "laser tripod instrument level staff kit machine total_station legs leg receiver",
    "moved": (
        "moved move bumped knocked kicked shifted slipped caught booted nudged disturbed "
        "tripped toppled hit fell fallen walked_into clipped knock bump budged jogged jolted "
        "dropped tipped wobbled bashed whacked shoved stumbled"
    ),
    "newsetup": (
        "new_set_up set_up_again set_up set_it_up fresh_station new_station fresh set_afresh "
        "stood_up setup moved_to carried another_station new_spot new_position somewhere_else "
        "repositioned re-set other_side new_place different_spot reset relocated moved_over "
        "moved_across set_back_up set_up_elsewhere"
    ),
    "theyhold": (
        "hold unchanged same as_they_were nothing_changed nothing_is_different identical "
        "all_same others_fine didn't_move still_good agree agreed not_changed nothing_different"
    ),
    "benchmark": "benchmark bm mark bench-mark bench_mark benchmarks marker",
    "zero": "zero start started began where_we_began beginning reference nothing",
    "checkword": (
        "check checked checking shot looked_at look_at pointed again re-shot reshot "
        "double_checked back_to another_look"
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
}
