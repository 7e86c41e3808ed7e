"""What is done to what was said: put right, taken out, gone on with."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
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
    "down_now": "down on laid lying in started gone run_out placed",
    "done": (
        "done finished complete completed over last_bucket poured that's_us down all_poured "
        "finished_pouring rolled last_of"
    ),
    "nextstep": (
        "next_step after_that after_it what_now what_after next what_next now_what move_on "
        "had_that done_that"
    ),
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
