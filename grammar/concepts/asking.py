"""Words of asking: how much, how long, where, which, most and least."""

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
    "left": (
        "have_i_got have_we_got left remaining remain still outstanding yet to_go more unshot "
        "unread undone still_to to_do haven't short_of other else rest not_done not_taken "
        "further pending to_take to_read to_shoot to_measure"
    ),
    "not": "not haven't hasn't didn't isn't don't aren't can't cannot without unread never nothing",
    "oclock": "o'clock clock time_of_day what_time the_time current_time right_time hour",
    "next": (
        "next after following then now go_now from_here stand standing upcoming onto next_up "
        "come_after"
    ),
    "another": "another one_more extra additional once_more stick_one single_more last_one more",
    "before": (
        "before_pour before_we_poured before_pouring old_floor ahead_of slab_survey bare_slab "
        "before_the_pour before_we_did as_it_stood previous_floor pre_pour original_slab"
    ),
    "last": "last latest newest recent previous final",
    "none": (
        "no not none without neat straight won't nothing scrub remove drop lifted lift zero "
        "anymore no_longer cancel isn't off don't there_is_no leave_out clear rid"
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
        "able_to_say examples what_to_say possible_commands how_do_i_use what_else_can"
    ),
    "why": "why reason purpose point what_for what's_the_point reason_for",
    "more": "more elaborate fully explain expand further detail more_about tell_more",
    "back": "back before previous earlier again",
}
