"""
What words are about: one table of concepts, each with the words that people use for it.

A row of the phrase table says in these concepts what it is about (:attr:`Phrase.frames`), so that
a line which nobody listed is known by what it says, in whatever words and order. Words are held
against each other by their roots; what stands joined by "_" is several words that follow each
other, with up to two others between.
"""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "amount": (
        "how_many how_much number_of amount quantity quantities count total totals requirement "
        "how_often volume_of many much figure demand consumption need take takes require "
        "required buckets_of altogether enough_of whats_the"
    ),
    "howlong": (
        "how_long how_soon how_quick how_quickly how_fast how_much_longer how_many_minutes "
        "how_many_hours how_many_days how_much_time when what_time time minutes mins hours "
        "duration what_point what_stage long soon until till days longer period window "
        "at_what_time how_early earliest how_long_before wait"
    ),
    "where": (
        "where whereabouts which_place which_places what_place which_spot which_spots "
        "which_point which_bit which_bits which_area which_areas which_part which_location "
        "what_spot location which_way places spots areas bits position which_one which_ones "
        "identify"
    ),
    "which": "which what what_sort what_kind what_type list name sorts kinds types range",
    "best": (
        "best optimal optimum ideal recommend recommended advise advice suggest suggestion "
        "cheapest smartest sweet most_good most_use most_useful most_informative most_economic "
        "economical economic wisest minimise minimize save saves saving least_material "
        "fewest_bags fewest least_bags pick choose go_for sensible lowest_cost efficient "
        "thrifty"
    ),
    "worth": (
        "worth worthwhile pay pays paying gain benefit save saves saving saved sense difference "
        "help helps earn point useful keep reduce options"
    ),
    "may": "may can could able allowed allow okay ok alright clear safe possible permitted permit",
    "like": (
        "how what look looks looking come comes coming compare compared doing fare do state "
        "condition shape situation sit sitting like story about turn turning"
    ),
    "show": "show see display draw sketch print give produce view look list read bring picture",
    "bag": "bag bags sack sacks tub tubs bagged",
    "material": (
        "material materials product products powder compound leveller leveler stuff brand card "
        "cards cement underlayment"
    ),
    "mix": (
        "mix mixes mixed mixing mixer bucket buckets batch barrel stirred paddled whisked "
        "gauged pail tub"
    ),
    "stir": (
        "stir stirred stirring paddle paddled paddling whisk whisked whisking mix mixing mixed "
        "mixer beat spin blend blended blending churn agitate drill"
    ),
    "litre": (
        "litre litres liter liters ltr ltrs volume cubic cube cubes gallons quarts capacity "
        "cube_metres"
    ),
    "water": "water h2o wet wetness sloppy wetter",
    "perbag": (
        "per_bag each_bag a_bag one_bag single_bag every_bag per_sack each_sack a_sack one_sack "
        "the_bag bag_of per_mix each_mix each_bucket per_bucket ratio dose dosage proportion "
        "every_sack single_sack apiece each_one"
    ),
    "primer": (
        "primer priming primed prime undercoat sealer bonding primers sbr tack_coat bond_coat"
    ),
    "sticky": "sticky_stuff goes_on_first go_on_first first_coat stuff_first goes_down_first",
    "usable": (
        "workable usable useable runny liquid live pot_life open_time work_time working_time "
        "good_for no_good stay_wet stays_wet play_with fluid pourable flow flows flowing trowel "
        "trowelable work_with working_life stiff stiffen stiffens stiffening placed gel gels "
        "goes_off go_off going_off gone_off went_off sets setting start_to_set set_up_on hard "
        "harden hardens hardening cure cures curing goes_hard before_it_sets set workability "
        "start_setting use_it_up used_up useless solidify solidifies stays_liquid thickens "
        "thicken go_hard firms skins too_late past_it"
    ),
    "thick": (
        "thick thickness thicknesses depth depths deep build buildup build_up fat cover fill "
        "bury layer buildups height_of_pour deepness coating"
    ),
    "mean": (
        "mean average averaging averaged typical typically avg on_average normally overall "
        "taking_all roughly_overall usual all_over generally"
    ),
    "most": (
        "most max maximum deepest thickest greatest biggest heaviest highest_depth worst "
        "fattest lowest largest peak"
    ),
    "least": (
        "least min minimum thinnest shallowest smallest skinniest slimmest tightest leanest "
        "thin highest lightest shallow skinny barest"
    ),
    "area": (
        "area size square_metres square_meters square_feet squared metreage footage surface sqm "
        "m2 yardage floor_space square_metreage floorspace big sq how_large acreage"
    ),
    "left": (
        "have_i_got have_we_got left remaining remain still outstanding yet to_go more unshot "
        "unread undone still_to to_do haven't short_of other else rest not_done not_taken "
        "further pending to_take to_read to_shoot to_measure"
    ),
    "not": "not haven't hasn't didn't isn't don't aren't can't cannot without unread never nothing",
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
    "finish": (
        "finish finished_level finish_level finished_height top_level height level top "
        "finish_height finished_floor_level surface target line datum_level"
    ),
    "floor": "floor slab job room site it whole lot here place concrete this everything",
    "set": "set sitting sit put settled decided got said chosen working fixed assumed at currently",
    "oclock": "o'clock clock time_of_day what_time the_time current_time right_time hour",
    "money": (
        "money cost costs price expensive pay damage spend spending spent budget cash quid bill "
        "outlay pounds euros set_me_back set_us_back expense bucks costing priced total_cost "
        "invoice set_you_back fork_out shell_out costings"
    ),
    "weight": (
        "carry bear weight weigh weighs heavy load loading kilos tonnes tons heaviness mass "
        "loads weighing kg burden kilograms pressure heft"
    ),
    "order": (
        "order buy purchase procure procurement ordering get_in ring_through bring_in pick_up "
        "ask_for shop merchant fetch call_in buying delivered stock_up stock supplied delivery "
        "have_delivered"
    ),
    "risk": "risk chance chancing gamble odds running_out run_out probability short",
    "enough": (
        "enough sufficient suffice do_it do_me do_us cover_it plenty adequate last be_short "
        "need_more fetch_more get_away manage stretch see_us will_do will_that do_the run_out "
        "get_through short fetch_any suffices make_do last_out get_by see_me_through do_the_job "
        "too_few"
    ),
    "reach": (
        "how_far far how_much cover covers get_done do_with reach portion part_of stretch do_me "
        "get_me gets_me how_big area_will much_of how_many"
    ),
    "next": (
        "next after following then now go_now from_here stand standing upcoming onto next_up "
        "come_after"
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
    "another": "another one_more extra additional once_more stick_one single_more last_one more",
    "stopnow": (
        "stop finish knock_off pack_up quit call_it done leave_off more another carry_on "
        "further density dense need_more any_more go_on"
    ),
    "tally": (
        "tally summary overview overall status headline headlines figures recap totals totted "
        "tot_up main_numbers key_numbers snapshot progress lowdown numbers run_down rundown "
        "roundup where_we_got where_are_we where_we're main_figures big_picture bottom_line "
        "state_of_play whole_picture at_a_glance sum_up brief sitrep"
    ),
    "missing": (
        "missing lack lacking outstanding forgotten forgot omitted short_of short incomplete "
        "gaps left_out missed still_need need_from want_from hear_from haven't_told not_told "
        "haven't_given overlook need_to_know else_need still_want need_off want_off waiting_for "
        "owe information_still unanswered not_entered still_lacking waiting_on haven't_got"
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
    "map": (
        "map plan picture drawing sketch diagram layout image chart draw drawn view_of plot "
        "colour_map illustration"
    ),
    "before": (
        "before_pour before_we_poured before_pouring old_floor ahead_of slab_survey bare_slab "
        "before_the_pour before_we_did as_it_stood previous_floor pre_pour original_slab"
    ),
    "last": "last latest newest recent previous final",
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
    "door": (
        "door doors doorway doorways threshold thresholds frame frames jamb jambs entrance "
        "doorframe doorframes sill"
    ),
    "stepword": "step lip ledge trip steps drop",
    "lifts": (
        "lifts layers layer one_go one_hit one_pour one_pass two_hits two_layers two_pours "
        "one_lift in_goes more_than_one stages all_at_once several_goes passes two_goes "
        "single_pour one_layer two_coats hits once in_one one_time two_times"
    ),
    "grinding": (
        "grind grinding ground grinder sand sanding sanded plane planing abrade shave shaving "
        "take_down knock_down skim_off sander take_off_the_top abrading"
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
    "slab": "slab concrete floor screed base subfloor substrate underneath",
    "dew": (
        "dew condensation condense condensing sweat sweating sweaty fog mist settle_on condensate"
    ),
    "climate": (
        "temperatures temperature temps temp climate humidity damp air_conditions conditions "
        "environmental moisture environment weather"
    ),
    "clocks": "clocks timers timer ticking countdown stopwatch running active clock timed timing",
    "obstacle": (
        "obstacle obstacles pillar pillars column columns hole holes cabinet item items objects "
        "fixed_items in_the_way things drains shaft shafts object"
    ),
    "job": "job project work site contract name_of_job",
    "jobs": "jobs projects other_jobs floors works",
    "guide": (
        "guide procedure process walk_through through_it step_by_step bit_by_bit lead take_me "
        "taken_through talk_me hand_hold newbie new_to instructions guided teach"
    ),
    "stage": "step stage procedure this_bit this_part which_bit process",
    "staging": (
        "stack stacked stage staging pallet pallets put stand drop leave store stored unload "
        "set_down"
    ),
    "planned": (
        "plan order sequence strategy approach programme schedule strips bays edges go_about "
        "work_our_way which_order what_order method pour_order which_end where_to_start "
        "where_do_we_start"
    ),
    "goingon": (
        "how going track progress ahead behind getting_on doing on_time pace keeping_up "
        "behind_schedule"
    ),
    "runout": "run_out running_out short shortage run_short bags_last last enough make_it",
    "say": (
        "say ask talk tell command commands speak words vocabulary phrases question questions "
        "know understand things"
    ),
    "strike": (
        "strike delete remove erase wipe rub bin discard scrap disregard disregarded lose ditch "
        "scratch chuck void forget get_rid scrub take_out throw_out ignore not_count drop "
        "cancel leave_out dump kill omit rid off_with throw withdraw dismiss eliminate "
        "cross_out blank_out"
    ),
    "correct": (
        "correct change amend adjust alter fix revise edit should instead wrong meant misread "
        "ought wants_to_be update actually mistake down_wrong got_it_wrong really wasn't "
        "supposed rather make typo put_right typed_wrong entered_wrong is_actually meant_to_be "
        "replace overwrite instead_of"
    ),
    "undo": (
        "undo take_that_back revert reverse oops chuck take_away get_rid take_out rubbish "
        "off_with scrap lose rid forget delete remove cancel didn't_mean wipe strike scratch "
        "back_out roll_back rollback unsay"
    ),
    "redo": (
        "redo bring_back restore put_back have_back stick_back reinstate want_back give_back "
        "put_it_back have_it_back back_in was_fine was_right reapply put_it_back_in"
    ),
    "lastone": "last that one shot entry thing it previous in",
    "skip": (
        "skip skipping can't_reach cannot_reach can't_get can't_stand blocked in_the_way "
        "can't_shoot can't_read not_shifting stack stacked stuff_on something_on parked sat_on "
        "covered_by covered standing_on can't_measure leave_out pass inaccessible unreachable "
        "no_access buried pile piled unable stored obstructed obstruction can't_access "
        "out_of_reach occupied furniture toolbox"
    ),
    "goto": (
        "go_to go_over going_to jump jump_to move_to moving_to walk_over carry_on pick_up "
        "picking_up continue start_at start_from back_to over_to on_to i'm_at now_at resume "
        "next_is head_to skip_to going_over doing do am_at switch_to proceed move_on_to "
        "starting_at begin_at resume_at"
    ),
    "line": "row rows line column columns columnwise rowwise",
    "rowword": "row rows row_by_row rowwise",
    "columnword": "column columns column_by_column up_and_down",
    "walkalong": "along down go_down run_down walk work follow going go do one_at_time by_rows",
    "units": (
        "tape tapes measure reading readings numbers working work units unit rule switch use "
        "treat count everything"
    ),
    "inch": "inch inches imperial",
    "mm": "millimetre millimetres millimeter millimeters metric mm mils",
    "using": (
        "using use used bag on_the_bag putting_down pouring going_with switch switched got "
        "handed says for_this have product material mixing change down we're_on opt chosen "
        "picked opted swapped"
    ),
    "waste": (
        "waste waist wastage spill spills spillage loss losses sticks_in stick_in sticks allowance "
        "contingency surplus buffer margin"
    ),
    "stones": (
        "aggregate stone stones shingle pebbles gravel chippings grit pea pebble bulk bulking "
        "filler little_stones"
    ),
    "none": (
        "no not none without neat straight won't nothing scrub remove drop lifted lift zero "
        "anymore no_longer cancel isn't off don't there_is_no leave_out clear rid"
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
    "leftside": "left lh left-hand",
    "rightside": "right rh right-hand",
    "outside": (
        "outside through passage hall hallway corridor next_room past beyond other_side "
        "next_door landing adjoining next_floor next_door's adjacent"
    ),
    "closest": "closest nearest by over_by at near opposite next_to beside",
    "steplimit": "step_limit limit most let allow allowed rules rule maximum allowed_step cap max",
    "usual": "usual normal default normally standard regular back_to ordinary",
    "underfoot": "floor slab base substrate subfloor underneath under underfoot ground",
    "timber": (
        "timber wood wooden boards floorboards planks joists boarded ply plywood hardwood "
        "softwood chipboard parquet"
    ),
    "tiled": "tile tiles tiled ceramic",
    "concretefloor": "concrete cement",
    "screed": "screed screeded",
    "air": "air room ambient inside in_here thermometer wall in_this_room",
    "temperature": "temperature temp degrees celsius thermometer",
    "humid": "humidity humid rh damp_in_air relative damp_in_the_air moisture_in_air",
    "hole": "hole probe sleeve drilled stick little_stick",
    "emission": "emission dome calcium dome_test emissions vapour",
    "ph": "ph alkalinity litmus alkaline strip_paper slab_paper",
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
    "again": (
        "again over redone second repeat repeated re-shot once_more re-read couple few another_look"
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
    "crack": "crack cracked split splits splitting fissure cracks crazed break hairline cracking",
    "repaired": "repaired glued filled stitched mended fixed bonded injected sealed",
    "opening": "opening penetration service_opening",
    "plugged": "plugged filled blocked_up tight sealed closed stuffed",
    "down_now": "down on laid lying in started gone run_out placed",
    "hose": "hose hydrostatic_hose water_level",
    "mixed": "mixed water_in added_water mixing_now in tipped_in started_mixing",
    "done": (
        "done finished complete completed over last_bucket poured that's_us down all_poured "
        "finished_pouring rolled last_of"
    ),
    "listen": "listen listening hear ears hearing listening_in",
    "repeatsay": (
        "again repeat pardon once_more catch missed say_that what_was_that wasn't_listening"
    ),
    "you": (
        "you your you're answer answers talk speak talking speaking voice reply replies speech "
        "volume sound ears said say tell waffle"
    ),
    "shorter": (
        "shorter short brief briefer less waffle too_long cut_the quicker_answers concise "
        "snappy snappier blunt to_the_point few_words fewer_words cut_it_short keep_it_brief "
        "terse"
    ),
    "longer": (
        "longer fuller more_detail more_words full detail detailed long_version too_short "
        "elaborate in_full at_length"
    ),
    "slower": "slower slow not_so_quick not_so_fast too_fast too_quick slow_down",
    "faster": "faster quicker fast hurry speed_up too_slow quick speed",
    "softer": (
        "softer quieter too_loud gentler gentle turn_down turn_it_down lower_voice not_so_loud "
        "keep_it_down soft blasting deafening"
    ),
    "louder": (
        "louder loud can't_hear cant_hear not_hear turn_up turn_it_up more_volume speak_up "
        "couldn't_hear volume_up too_quiet noise mixer crank_it make_it_louder"
    ),
    "quiet": (
        "quiet shut_up silent silence mute no_more_talking stop_talking hush don't_speak "
        "no_talking zip pipe_down stop_speaking"
    ),
    "speakup": "speak talk resume start_talking voice_on speaking unmute talking_again read_out",
    "help": (
        "help commands what_can_i what_can_you what_things don't_know_what able_to_ask "
        "able_to_say examples what_to_say possible_commands how_do_i_use what_else_can"
    ),
    "why": "why reason purpose point what_for what's_the_point reason_for",
    "more": "more elaborate fully explain expand further detail more_about tell_more",
    "back": "back before previous earlier again",
    "nextstep": (
        "next_step after_that after_it what_now what_after next what_next now_what move_on "
        "had_that done_that"
    ),
    "client": "client customer owner",
    "address": "address",
    "acceptance": (
        "accept acceptable accepted fine ok okay alright live_with cleared clear may_stand "
        "signed_off passed in_order stand good_enough sign_off agreed approved approve "
        "happy_with put_up_with tolerate"
    ),
    "skipstep": "skip pass_over omit leave_out skip_over jump skipping leave_this",
    "suppose": (
        "what_if what_would what_happens_if what_happens suppose supposing assume assuming "
        "imagine hypothetically hypothetical say_we say_i model what_difference what_effect "
        "what_impact impact effect simulate would_happen happen_if what_then pretend "
        "what_changes change_if does_that_do"
    ),
}
"""A concept -> the words that people use for it; a word may be said for several."""

SLIGHTLY = frozenset(
    "floor set like show which where amount may want you again down_now point stage size using "
    "lastone next job material roomword units walkalong".split()
)
"""Concepts that tell little of one row from another."""
