"""What goes into the floor, and what it takes."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "bag": "bag bags sack sacks tub tubs bagged unit units twenty-fives packs pack",
    "material": (
        "material materials product products powder compound leveller leveler stuff brand card "
        "cards cement underlayment powders levelling_compound compounds slc slu self-leveller "
        "self-levelling screed_mix gear mud sludge slurry muck cementitious levelling_stuff"
    ),
    "mix": (
        "mix mixes mixed mixing mixer bucket buckets batch barrel stirred paddled whisked "
        "gauged pail tub"
    ),
    "stir": (
        "stir stirred stirring paddle paddled paddling whisk whisked whisking mix mixing mixed "
        "mixer beat spin blend blended blending churn agitate drill mixed_up mixing_up drilling "
        "whip whipped stir_it on_the_paddle running_the_drill run_the_drill"
    ),
    "litre": (
        "litre litres liter liters ltr ltrs volume cubic cube cubes gallons quarts capacity "
        "cube_metres litreage by_volume cubic_content cubic_metres cubic_meters cubic_feet "
        "volumetric slurry liquid m3 how_many_cubes"
    ),
    "water": (
        "water h2o wet wetness sloppy wetter tap_water liquid from_the_tap fluid tap hydrate"
    ),
    "perbag": (
        "per_bag each_bag a_bag one_bag single_bag every_bag per_sack each_sack a_sack one_sack "
        "the_bag bag_of per_mix each_mix each_bucket per_bucket ratio dose dosage proportion "
        "every_sack single_sack apiece each_one to_one_bag with_a_bag with_each in_a_bag "
        "in_each to_a_bag per_unit each_time into_a_bag into_each for_each for_one to_each "
        "for_a_bag with_one per_go per_batch each_batch"
    ),
    "primer": (
        "primer priming primed prime undercoat sealer bonding primers sbr tack_coat bond_coat "
        "sealant priming_coat bonding_agent primer_coat grip_coat"
    ),
    "sticky": "sticky_stuff goes_on_first go_on_first first_coat stuff_first goes_down_first",
    "usable": (
        "workable usable useable runny liquid live pot_life open_time work_time working_time "
        "good_for no_good stay_wet stays_wet play_with fluid pourable flow flows flowing trowel "
        "trowelable work_with working_life stiff stiffen stiffens stiffening placed gel gels "
        "goes_off go_off going_off gone_off went_off sets setting start_to_set set_up_on hard "
        "harden hardens hardening cure cures curing goes_hard before_it_sets set workability "
        "start_setting use_it_up used_up useless solidify solidifies stays_liquid thickens "
        "thicken go_hard firms skins too_late past_it any_use no_use spread spreadable use "
        "gelling gelled start_to_gel too_stiff stiffer work_it working_it can't_work sets_up "
        "set_up_on_me kicks_off kick_off turns_hard solid unworkable alive dead good_still "
        "to_use get_it_down lay_it_down till_it_goes"
    ),
    "thick": (
        "thick thickness thicknesses depth depths deep build buildup build_up fat cover fill "
        "bury layer buildups height_of_pour deepness coating filling fill_depth goes_down "
        "going_down how_fat material_thickness section layer_thickness stuff much_on cm_deep "
        "amount_down"
    ),
    "money": (
        "money cost costs price expensive pay damage spend spending spent budget cash quid bill "
        "outlay pounds euros set_me_back set_us_back expense bucks costing priced total_cost "
        "invoice set_you_back fork_out shell_out costings pocket priced_at how_expensive "
        "total_price price_tag charge sum wallet dear set_me dollars material_cost for_money "
        "dig"
    ),
    "weight": (
        "carry bear weight weigh weighs heavy load loading kilos tonnes tons heaviness mass "
        "loads weighing kg burden kilograms pressure heft pounds lbs heavier kilo pounds_per "
        "load_on dead_load weight_on how_many_kilos how_many_kg tonnage add_to_the_floor "
        "square_load kilogram"
    ),
    "order": (
        "order buy purchase procure procurement ordering get_in ring_through bring_in pick_up "
        "ask_for shop merchant fetch call_in buying delivered stock_up stock supplied delivery "
        "have_delivered ring_for ring_through_for put_on_the_order have_sent send_for "
        "need_to_buy to_order get_from on_order haul have_on_hand lay_in purchase_order bring"
    ),
    "risk": (
        "risk chance chancing gamble odds running_out run_out probability short fairly_sure "
        "to_be_sure safe_side be_safe margin confident certainty cover_myself play_safe"
    ),
    "enough": (
        "enough sufficient suffice do_it do_me do_us cover_it plenty adequate last be_short "
        "need_more fetch_more get_away manage stretch see_us will_do will_that do_the run_out "
        "get_through short fetch_any suffices make_do last_out get_by see_me_through do_the_job "
        "too_few all_right cut_it ok_with get_away_with right_number too_little sufficiently "
        "it_do that_do be_ok be_alright am_i_right will_it_do is_that_it do_for cover_us "
        "going_to_be_enough carry_us covered_with are_we_covered ok_on are_we_ok_for"
    ),
    "reach": (
        "how_far far how_much cover covers get_done do_with reach portion part_of stretch do_me "
        "get_me gets_me how_big area_will much_of how_many where_to to_where get_to gets_us "
        "come_with pour_with do_with_only get_out_of will_cover bring_me take_me"
    ),
    "lifts": (
        "lifts layers layer one_go one_hit one_pour one_pass two_hits two_layers two_pours "
        "one_lift in_goes more_than_one stages all_at_once several_goes passes two_goes "
        "single_pour one_layer hits once in_one one_time two_times all_in_one "
        "dump_it_all all_in_at_once too_deep too_deep_for several_layers one_or_two pours "
        "how_many_pours how_many_passes second_layer single_hit one_shot"
    ),
    "staging": (
        "stack stacked stage staging pallet pallets put stand drop leave store stored unload "
        "set_down"
    ),
    "runout": "run_out running_out short shortage run_short bags_last last enough make_it",
    "using": (
        "using use used bag on_the_bag putting_down pouring going_with switch switched got "
        "handed says for_this have product material mixing change down we're_on opt chosen "
        "picked opted swapped"
    ),
    "waste": (
        "waste waist wastage spill spills spillage loss losses sticks_in stick_in sticks "
        "allowance contingency surplus buffer margin gets_lost go_missing loss_of spillages "
        "wasted thrown_away over-order"
    ),
    "stones": (
        "aggregate stone stones shingle pebbles gravel chippings grit pea pebble bulk bulking "
        "filler little_stones pebble_mix gravelly stone_in shingles aggregates"
    ),
    "labour": "labour labor wages day_rate charge quote hourly",
}
