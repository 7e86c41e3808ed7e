"""What the rows of ``grammar/phrases/doors.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "door <door:whole> clearance <clearance:length>": (
        "door clearanceword ~under ~floor ~has ~by !on_top !going_on",
    ),
    "covering <thickness:length>": (
        "coveringword ~thick ~on_top ~laid ~using ~put ~on ~top ~down ~go ~floor ~of ~come",
    ),
    "no covering": (
        "none/nothing covering/on_top/coveringword ~floor ~on ~top ~going",
        "bare leave/stay/left ~floor",
    ),
    "door rules usa": (
        "rules america/american/usa/us/ada ~door",
        "usa door",
    ),
    "door rules uk": (
        "rules uk/british/english/britain/england ~door",
        "uk door",
    ),
    "door <door:whole> left <left:reading> right <right:reading> [outside <outside:reading>]": (
        "door leftside rightside ~outside ~like",
        "leftside rightside",
        "door leftside rightside ~jamb",
    ),
    "door <door:whole> outside <outside:reading>": (
        "door outside ~floor",
        "outside ~floor",
        "door outside ~floor ~hall ~sits",
        "hall door",
        "hallway/corridor/landing/passage door",
    ),
    "door <door:whole> at [point] <point>": (
        "door closest/at/by ~point",
        "door closest",
        "door next_to/beside/near/by/at",
    ),
    "how is door <door:whole>": (
        "door about/tell ~me",
        "door what/anything",
        "door like/show/stepword ~step ~what ~much",
        "door step",
        "door like/show/step/how/what/look/doing",
        "transition door",
    ),
    "doors": (
        "two jambs different/differ/same",
        "jambs different/differ/same/level",
        "jambs/jamb/frame what/how/different/differ/same ~two ~left ~right ~are",
        "door height/heights/readings/values/got/what ~have",
        "outside what/how/high ~is ~at !door",
        "which/what side door",
        "door like/compare/show/true/out/ok/alright ~wrong ~each ~stepword !say",
        "out_of_true door !say",
        "door like each !say",
        "door stepword !say",
        "door how/what/list/show/any ~step ~like !say",
        "jambs/frames level/ok/how/like !say",
        "step door any !say",
        "door happening/like/look !say",
        "door open/close/swing/bind/catch/rub/stick/shut ~still ~will ~after !say",
        "door what_did_i_say/did_i_say/did_i_tell/i_said ~what",
    ),
    "doors of slab": ("door before ~like ~condition",),
    "doorway step limit <most:length>": (
        "door/stepword steplimit ~stepword ~door",
        "door step",
    ),
    "no doorway step limit": ("none stepword/door steplimit",),
    "usual doorway step limit": ("usual stepword/door ~steplimit ~door",),
}
