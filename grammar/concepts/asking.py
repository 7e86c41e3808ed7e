"""Words of asking: how much, how long, where, which, most and least."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "amount": (
        "how_many how_much number_of amount quantity quantities count total totals requirement "
        "how_often volume_of many much figure demand consumption need take takes require "
        "required buckets_of altogether enough_of whats_the talking_about many_of what_number "
        "what_quantity what_total count_of how_big_a what_figure quantity_of how_few "
        "several_of"
    ),
    "howlong": (
        "how_long how_soon how_quick how_quickly how_fast how_much_longer how_many_minutes "
        "how_many_hours how_many_days how_much_time when what_time time minutes mins hours "
        "duration what_point what_stage long soon until till days longer period window "
        "at_what_time how_early earliest how_long_before wait how_much_more_time by_when "
        "from_when how_late until_when before_i before_we before_it time_limit time_get "
        "deadline tonight today tomorrow clock keep when_is how_many_mins hrs hr"
    ),
    "where": (
        "where whereabouts which_place which_places what_place which_spot which_spots "
        "which_point which_bit which_bits which_area which_areas which_part which_location "
        "what_spot location which_way places spots areas bits position which_one which_ones "
        "identify which_corner which_end what_part what_bit what_area anywhere somewhere spot "
        "place point what_point places_to whichever"
    ),
    "which": "which what what_sort what_kind what_type list name sorts kinds types range",
    "best": (
        "best optimal optimum ideal recommend recommended advise advice suggest suggestion "
        "cheapest smartest sweet most_good most_use most_useful most_informative most_economic "
        "economical economic wisest minimise minimize save saves saving least_material "
        "fewest_bags fewest least_bags pick choose go_for sensible lowest_cost efficient "
        "thrifty most_useful_spot tell_most learn_the_most tells_most use_the_fewest "
        "use_the_least for_the_least cheapest_way right fewest_of optimise right_height"
    ),
    "worth": (
        "worth worthwhile pay pays paying gain benefit save saves saving saved sense difference "
        "help helps earn point useful keep reduce options pay_off pays_off gained improve "
        "any_point win what_would_i_save do_for_me"
    ),
    "may": ("may can could able allowed allow okay ok alright clear possible permitted permit"),
    "like": (
        "how what look looks looking come comes coming compare compared doing fare do state "
        "condition shape situation sit sitting like story turn turning"
    ),
    "show": ("show see display draw sketch print give produce view look list read bring picture"),
    "mean": (
        "mean average averaging averaged typical typically avg on_average normally overall "
        "taking_all roughly_overall usual all_over generally middle middling on_the_whole "
        "across_the_board averages across_the_floor ballpark general"
    ),
    "most": (
        "most max maximum deepest thickest greatest biggest heaviest highest_depth worst "
        "fattest lowest largest peak highest_fill thickest_bit most_material most_fill the_most "
        "biggest_fill top_end worst_of"
    ),
    "least": (
        "least min minimum thinnest shallowest smallest skinniest slimmest tightest leanest "
        "thin highest lightest shallow skinny barest smallest_fill least_material the_least "
        "bare_minimum runs_out_nearly nearly_nothing almost_nothing thinner minimal fewest "
        "lowest_depth"
    ),
    "left": (
        "have_i_got have_we_got left remaining remain still outstanding yet to_go more unshot "
        "unread undone still_to to_do haven't short_of other else rest not_done not_taken "
        "further pending to_take to_read to_shoot to_measure not_yet haven't_done haven't_read "
        "haven't_measured to_come ahead still_got not_measured missing"
    ),
    "not": (
        "not haven't hasn't didn't isn't don't aren't can't cannot without unread never nothing"
    ),
    "oclock": (
        "o'clock clock time_of_day what_time the_time current_time right_time hour "
        "have_the_time make_it got_the_time time_now how_late what_hour"
    ),
    "next": (
        "next after following then now go_now from_here stand standing upcoming onto next_up "
        "come_after come_next up_to now_on following_one standing_now"
    ),
    "another": (
        "another one_more extra additional once_more stick_one single_more last_one more "
        "one_more_shot extra_shot further new_shot additional_shot more_shot"
    ),
    "before": (
        "before_pour before_we_poured before_pouring old_floor ahead_of slab_survey bare_slab "
        "before_the_pour before_we_did as_it_stood previous_floor pre_pour original_slab"
    ),
    "last": (
        "last latest newest recent previous final just one_before just_now a_moment_ago "
        "this_one gone_before"
    ),
    "none": (
        "didn't_use did_not_use "
        "no not none without neat straight won't nothing scrub remove drop lifted lift zero "
        "anymore no_longer cancel isn't off don't there_is_no leave_out clear rid isn't_any "
        "without_any leave_it_bare nowt not_any never"
    ),
    "usual": "usual normal default normally standard regular back_to ordinary",
    "again": (
        "again over redone second repeat repeated re-shot once_more re-read couple few another_look"
    ),
    "you": (
        "you your you're answer answers talk speak talking speaking voice reply replies speech "
        "volume sound ears said say tell waffle"
    ),
    "help": (
        "help commands what_can_i what_can_you what_things don't_know_what able_to_ask "
        "able_to_say examples what_to_say possible_commands how_do_i_use what_else_can "
        "i_am_lost stuck how_do_i_talk how_do_i_say what_do_i_type what_do_i_say what_words"
    ),
    "why": (
        "why reason purpose what_for reason_for what_is_that_for "
        "that_for why_bother bother necessary "
    ),
    "more": (
        "more elaborate fully explain expand further detail more_about tell_more say_more "
        "explain_that tell_me_more explain_it"
    ),
    "back": "back before previous earlier again back_up step_back one_back go_back",
    "thismix": (
        "this_mix this_bucket this_batch on_mix this_lot current_mix mix_left that_bucket "
        "that_mix this_load"
    ),
    "needmore": (
        "need_more want_more more_needed worth_more worth_shooting worth_measuring need_further "
        "need_another need_extra need_any_more"
    ),
}
