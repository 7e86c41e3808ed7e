"""The talk itself, and the job as a whole."""

from __future__ import annotations

CONCEPTS: dict[str, str] = {
    "tally": (
        "tally summary overview overall status headline headlines figures recap totals totted "
        "tot_up main_numbers key_numbers snapshot progress lowdown numbers run_down rundown "
        "roundup where_we_got where_are_we where_we're main_figures big_picture bottom_line "
        "state_of_play whole_picture at_a_glance sum_up brief sitrep"
    ),
    "job": "job project work site contract name_of_job",
    "jobs": "jobs projects other_jobs floors works",
    "say": (
        "say ask talk tell command commands speak words vocabulary phrases question questions "
        "know understand things"
    ),
    "listen": "listen listening hear ears hearing listening_in",
    "repeatsay": (
        "again repeat pardon once_more catch missed say_that what_was_that wasn't_listening"
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
    "client": "client customer owner",
    "address": "address",
}
