"""What is done to what was said: put right, taken out, gone on with."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "strike": (
        "left_out leave_out_of "
        "strike delete remove erase wipe rub bin discard scrap disregard disregarded lose ditch "
        "scratch chuck void forget get_rid scrub take_out throw_out ignore not_count drop "
        "cancel leave_out dump kill omit rid off_with throw withdraw dismiss eliminate "
        "cross_out blank_out not_trust don't_trust doesn't_count don't_count do_away kick_out "
        "leave_off unread clear axe knock_off rule_out strip"
    ),
    "correct": (
        "correct change amend adjust alter fix revise edit should instead wrong meant misread "
        "ought wants_to_be update actually mistake down_wrong got_it_wrong really wasn't "
        "supposed rather make typo put_right typed_wrong entered_wrong is_actually meant_to_be "
        "replace overwrite instead_of mis-read is_wrong was_wrong has_to_be must_be needs_to_be "
        "make_it correction wrote_wrong not_right make_that sorry"
    ),
    "undo": (
        "undo take_that_back revert reverse oops chuck take_away get_rid take_out rubbish "
        "off_with scrap lose rid forget delete remove cancel didn't_mean wipe strike scratch "
        "back_out roll_back rollback unsay didn't_mean_that didn't_want_that not_what_i_meant "
        "take_it_back was_wrong undo_what out_again whoops reverse_that that_was_wrong "
        "step_back_on what_i_just_did i_just_did kill_that never_mind_that"
    ),
    "redo": (
        "redo bring_back restore put_back have_back stick_back reinstate want_back give_back "
        "put_it_back have_it_back back_in was_fine was_right reapply put_it_back_in back_again "
        "want_it_back after_all put_it_back_again right_after_all bring_it_back undo_the_undo "
        "fine_before as_it_was"
    ),
    "lastone": "last that one shot entry thing it previous in",
    "skip": (
        "skip skipping can't_reach cannot_reach can't_get can't_stand blocked in_the_way "
        "can't_shoot can't_read not_shifting stack stacked stuff_on something_on parked sat_on "
        "covered_by covered standing_on can't_measure leave_out pass inaccessible unreachable "
        "no_access buried pile piled unable stored obstructed obstruction can't_access "
        "out_of_reach occupied furniture toolbox under_the_pallet on_it has_a got_stuff "
        "not_reachable get_at no_chance_of pass_over cupboard_on cannot_measure cannot_read "
        "cannot_get not_accessible not_possible in_the_road machine_on standing_there "
        "stored_there blocked_off boxed_in stuff_there leave_that_one give_a_miss fridge bath "
        "sofa boxes cupboard wardrobe bed cooker boiler radiator behind_the under_the"
    ),
    "goto": (
        "go_to go_over going_to jump jump_to move_to moving_to walk_over carry_on pick_up "
        "picking_up continue start_at start_from back_to over_to on_to i'm_at now_at resume "
        "next_is head_to skip_to going_over doing do am_at switch_to proceed move_on_to "
        "starting_at begin_at resume_at next_up moving_on i_am_standing standing_at now_doing "
        "over_at go_on_with let_is_do let_us_do continue_by proceed_to head_for heading_for "
        "starting_from"
    ),
    "down_now": (
        "down on laid lying in started gone run_out placed went_down went_on gone_on put_down "
        "been_put goes_on got_on been_laid"
    ),
    "done": (
        "done finished complete completed over last_bucket poured that's_us down all_poured "
        "finished_pouring rolled last_of all_in that_is_the_lot the_lot_down all_done "
        "it_is_all_in last_of_it all_down lot_down are_done it_is_done"
    ),
    "nextstep": (
        "next_step after_that after_it what_now what_after next what_next now_what move_on "
        "had_that done_that what_comes_next what_is_next comes_next carry_on_to next_one "
        "what_do_i_do_next do_next what_is_after"
    ),
    "acceptance": (
        "accept acceptable accepted fine ok okay alright live_with cleared clear may_stand "
        "signed_off passed in_order stand good_enough sign_off agreed approved approve "
        "happy_with put_up_with tolerate is_fine are_fine ok'd okayed signed live_with_it "
        "leave_it_at_that"
    ),
    "skipstep": (
        "skip pass_over omit leave_out skip_over jump skipping leave_this step_over jump_over "
        "miss_out"
    ),
    "suppose": (
        "what_if what_would what_happens_if what_happens suppose supposing assume assuming "
        "imagine hypothetically hypothetical say_we say_i model what_difference what_effect "
        "what_impact impact effect simulate would_happen happen_if what_then pretend "
        "what_changes change_if does_that_do and_if what_would_happen how_about_if "
        "would_that_do would_it_do if_we if_i save_if"
    ),
}
