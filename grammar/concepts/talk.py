"""The talk itself, and the job as a whole."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "reportword": (
        "report reports handover_document handover_pack handover_sheet write_up paperwork pdf "
        "job_sheet document"
    ),
    "pictureword": "picture image drawing png photo illustration plot graphic",
    "exportword": "export exports exporting exported download hand_off",
    "tally": (
        "tally summary overview overall status headline headlines figures recap totals totted "
        "tot_up main_numbers key_numbers snapshot progress lowdown numbers run_down rundown "
        "roundup where_we_got where_are_we where_we're main_figures big_picture bottom_line "
        "state_of_play whole_picture at_a_glance sum_up brief sitrep full_picture come_to_all "
        "leave_us where_things_stand numbers_look it_look looking_overall how_does_it_stand "
        "current_state bring_me_up_to_date up_to_speed fill_me_in lay_of_the_land "
        "how_things_are"
    ),
    "job": "job project work site contract name_of_job",
    "jobs": "jobs projects other_jobs floors works",
    "say": (
        "say ask talk tell command commands speak words vocabulary phrases question questions "
        "know understand things type_in type understand_me talk_to speak_to language sentences "
        "you_understand say_to_you"
    ),
    "listen": "listen listening hear ears hearing listening_in",
    "repeatsay": (
        "again repeat pardon once_more catch missed say_that what_was_that wasn't_listening "
        "come_again missed_that didn't_understand did_not_understand not_understand say_what "
        "didn't_hear did_not_hear did_not_catch once_again didn't_get_that"
    ),
    "shorter": (
        "shorter short brief briefer less waffle too_long cut_the quicker_answers concise "
        "snappy snappier blunt to_the_point few_words fewer_words cut_it_short keep_it_brief "
        "terse short_version keep_it_short make_it_short short_answers quick_version "
        "from_now_on"
    ),
    "longer": (
        "longer fuller more_detail more_words full detail detailed long_version too_short "
        "elaborate in_full at_length fuller_answers long_answers longer_version"
    ),
    "slower": (
        "slower slow not_so_quick not_so_fast too_fast too_quick slow_down hang_on "
        "going_too_fast slowly more_slowly"
    ),
    "faster": (
        "faster quicker fast hurry speed_up too_slow quick speed speed_it_up talk_quicker "
        "get_on_with_it hurry_up"
    ),
    "softer": (
        "softer quieter too_loud gentler gentle turn_down turn_it_down lower_voice not_so_loud "
        "keep_it_down soft blasting deafening turn_it_down_a_bit lower_the_volume"
    ),
    "louder": (
        "louder loud can't_hear cant_hear not_hear turn_up turn_it_up more_volume speak_up "
        "couldn't_hear volume_up too_quiet noise mixer crank_it make_it_louder"
    ),
    "quiet": (
        "quiet shut_up silent silence mute no_more_talking stop_talking hush don't_speak "
        "no_talking zip pipe_down stop_speaking"
    ),
    "speakup": (
        "speak talk resume start_talking voice_on speaking unmute talking_again read_out "
        "talk_again talk_to_me_again you_can_talk voice_back sound_on"
    ),
    "client": "client customer owner client_is customer_is homeowner landlord",
    "address": "address",
}
