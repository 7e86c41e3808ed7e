"""What the rows of ``grammar/phrases/record.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "what was [at | point | read at] <point>": (
        "reading ~what ~show ~for ~you",
        "what come/came ~in",
        "what got/get/say/said/read/put",
        "remind ~reading",
        "reading again",
        "how low/high was/is",
        "reading ~got ~down ~have ~for",
        "again what/was",
        "what was ~again",
    ),
    "last reading": (
        "last back/again ~read ~one",
        "last what ~was ~one",
        "hear_that/get_that/got_that ~last ~did",
        "last reading ~you ~hear ~gave ~show",
        "last hear/heard/gave/give ~you",
        "what_did_i say ~last",
        "last number/measure ~what",
        "what last ~read ~gave ~said",
        "which just take",
        "repeat last reading",
        "what just measure/said/read/say",
    ),
    "last <count:whole> readings": (
        "last back/again/say ~me",
        "last reading ~show ~gave ~which",
        "last measure",
        "what before ~last ~reading ~three",
    ),
    "changes": (
        "change show/what/which/list ~job ~made",
        "change today",
        "what different before",
        "what messing/touched/altered",
        "ones correct/changed/altered ~which",
        "show corrected/changed",
    ),
    "last <count:whole> changes": ("last change ~show",),
    "record": (
        "record everything/where/all/phone ~lose",
        "lose phone/power/battery dies/die",
        "remember/remembered this/all/everything/numbers ~switch_off",
        "saved/recorded/save/kept ~that ~it ~everything ~all",
        "lose if/when/battery/power/phone",
        "numbers/readings safe/kept/saved",
        "on_disk ~it",
        "switch_off/dies/crashes lose/remember/still/safe",
        "written_down all/everything/that ~have",
    ),
}
