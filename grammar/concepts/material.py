"""What goes into the floor, and what it takes."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
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
    "lifts": (
        "lifts layers layer one_go one_hit one_pour one_pass two_hits two_layers two_pours "
        "one_lift in_goes more_than_one stages all_at_once several_goes passes two_goes "
        "single_pour one_layer two_coats hits once in_one one_time two_times"
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
        "waste waist wastage spill spills spillage loss losses sticks_in stick_in sticks allowance "
        "contingency surplus buffer margin"
    ),
    "stones": (
        "aggregate stone stones shingle pebbles gravel chippings grit pea pebble bulk bulking "
        "filler little_stones"
    ),
}
