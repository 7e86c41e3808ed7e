"""
What each row of the phrase table is about, in concepts (``grammar/concepts.py``): its frames.

A row is named by its template. All concepts of a frame have to be evoked by a line, by words of
their own: ``a/b`` is either, ``~c`` may be said too, ``!d`` says that something else is meant. A
term that is no concept is the word itself. That a row's values were said is not told here: its
gaps tell it.
"""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "correct [point] <point> [to] <reading>": ("correct ~reading ~want",),
    "strike [point] <point>": ("strike ~reading",),
    "readings in <unit:reading_unit>": (
        "units inch/mm",
        "units",
        "unit",
    ),
    "readings": (
        "show/amount reading ~left",
        "reading ~measure so_far",
        "everything measure/reading",
        "full/whole/all reading",
    ),
    "readings of slab": (
        "reading/measure before",
        "numbers before",
        "reading slab before",
    ),
    "next point": (
        "where next ~measure ~point",
        "next point ~measure ~which",
        "where measure",
        "staff where/next",
        "which next point/measure",
    ),
    "hold": (
        "same number/spot/point/reading",
        "again same",
    ),
    "same": (
        "same/identical/unchanged ~next ~reading ~point",
        "no change ~next",
        "same_as_before/shows_exactly",
    ),
    "same as [point] <like:point>": ("carbon_copy/identical/same/like/copy ~reading",),
    "skip [point] <point> [because <reason:sentence>]": ("skip",),
    "go to [point] <point>": ("goto ~point ~measure ~next",),
    "next row": (
        "line another/after/next ~start",
        "rest line",
        "left line next/after/another/start",
        "leave line",
    ),
    "along rows": (
        "walkalong rowword",
        "rowword one_at_time",
        "row_by_row",
    ),
    "along columns": (
        "walkalong columnword",
        "column_by_column",
    ),
    "room <first,second:pair>": (
        "roomword size",
        "roomword",
        "size",
    ),
    "wall <direction> <length>": (
        "wall",
        "runs/goes/heads",
    ),
    "close room": (
        "close ~wall",
        "back begin/start/began ~outline ~wall ~close",
        "wall everything/every ~back",
    ),
    "grid <first:length> [starting [at | from] <starting:length>]": (
        "grid ~point ~every",
        "point every/apart ~measure",
        "pin apart/every",
    ),
    "grid <first,second:pair> [starting [at | from] <starting:length>]": ("grid ~point",),
    "point <point> at <first,second:pair>": (
        "extra point/pin",
        "point along",
    ),
    "crack [point] <start:point> to [point] <end:point>": ("crack ~floor ~slab ~across",),
    "crack at [point] <start:point>": ("crack ~floor ~slab ~found",),
    "crack <number:whole> repaired": ("crack repaired",),
    "crack repaired": ("crack repaired",),
    "opening <number:whole> plugged": ("opening plugged",),
    "opening plugged": ("opening plugged",),
    "drain at [point] <point> <height:reading>": ("drain",),
    "joint [point] <start:point> to [point] <end:point>": ("joint ~running",),
    "obstacles": (
        "obstacle floor/show/in_the_way/told/registered ~floor ~show",
        "fixed item",
    ),
    "products": ("material/bag choose/pick/carry/library/hold/stock/know ~which ~may ~you",),
    "product <name>": (
        "using ~bag ~material ~here",
        "bag ~using",
        "material",
        "pouring",
    ),
    "waste <percent>": (
        "waste ~allow ~put ~said",
        "sticks",
    ),
    "aggregate <percent>": ("stones ~put ~mix",),
    "(pour neat | no aggregate)": (
        "none stones ~material ~mix",
        "straight powder",
    ),
    (
        "(bag costs | bags cost | bag price | price a bag) (<amount:number> [<currency>] "
        "| <currency> <amount:number>)"
    ): (
        "bag money ~perbag",
        "perbag ~money ~merchant ~off",
        "budgeted perbag",
    ),
    "weight": (
        "weight amount/floor/everything/add/what/joists/material/bag ~amount ~floor ~pour ~add "
        "~structural ~material ~joists ~bag ~everything",
    ),
    "order [[at] risk <risk:percent>]": (
        "order amount/bag/best/what ~risk ~may ~safe",
        "amount bag order",
    ),
    "finish [at] <height:reading>": (
        "finish ~want ~set ~put ~make ~come ~mark ~zero",
        "zero want",
        "height want",
    ),
    "raise finish [by] <by:loose>": (
        "up ~finish ~want ~make ~whole ~another !newsetup",
        "higher ~finish ~want ~whole",
    ),
    "lower finish [by] <by:loose>": ("down ~finish ~whole ~want ~make ~sit ~everything ~another",),
    "finish level with door <door:whole>": (
        "flush door ~finish ~floor ~outside ~want ~in",
        "finish door ~want",
    ),
    "finish level with door": ("flush door ~finish ~floor ~outside ~want ~in",),
    "feather to door <door:whole>": ("feather door ~in",),
    "feather to door": ("feather door ~in",),
    "finish <over:loose> over highest": ("highest ~over ~finish ~cover ~thick ~want ~above",),
    "finish at highest": (
        "kiss highest ~finish",
        "highest finish ~want ~flush",
        "highest no_further",
    ),
    "most depth <depth:loose>": ("limitmost ~thick ~anywhere ~limit ~most",),
    "least depth <depth:loose>": ("limitleast ~thick ~anywhere ~least",),
    "no most depth": ("none limitmost ~limit ~thick",),
    "no least depth": ("none limitleast ~limit ~thick",),
    "best finish": (
        "best finish/height ~money ~bag ~material ~set ~least",
        "best set ~bag",
        "finish/height least/cheapest/fewest material/bag",
        "where set save",
        "best material/bag finish",
    ),
    "best plane [within <slope:percent>]": (
        "plane best ~flat ~finish",
        "flat plane ~best ~finish",
        "flat tops",
        "best flat",
        "plane economic",
    ),
    "fall <percent> towards [point] <point>": ("fall ~water ~want ~down",),
    "fix [point] <point> at <height:reading>": ("nailed ~want",),
    "grind [point] <point> [by] <by:loose>": (
        "grinding ~down ~off",
        "grinder off",
        "down/off",
    ),
    "grinding options": (
        "grinding worth/best/where/which ~high ~bag ~money ~amount",
        "grinding high ~bag",
        "where grinding",
    ),
    "lifts": (
        "lifts ~may ~pour ~thick ~bag !pin",
        "one go/hit/pour/layer",
        "deep too_much once",
    ),
    ("door <door:whole> left <left:reading> right <right:reading> [outside <outside:reading>]"): (
        "door leftside rightside ~outside ~like",
        "leftside rightside",
    ),
    "door <door:whole> outside <outside:reading>": (
        "door outside ~floor",
        "outside ~floor",
    ),
    "door <door:whole> at [point] <point>": ("door closest/at/by ~point",),
    "how is door <door:whole>": (
        "door like/show/stepword ~step ~what ~much",
        "door step",
    ),
    "doors": (
        "door like/compare/show/true/out/ok/alright ~wrong ~each ~stepword",
        "out_of_true door",
        "door like each",
        "door stepword",
    ),
    "doors of slab": ("door before ~like ~condition",),
    "doorway step limit <most:length>": (
        "door/stepword steplimit ~stepword ~door",
        "door step",
    ),
    "no doorway step limit": ("none stepword/door steplimit",),
    "usual doorway step limit": ("usual stepword/door ~steplimit ~door",),
    "zones": ("zone show/list",),
    "how deep (at | is) [point] <point>": (
        "thick ~amount ~material ~pour ~on ~expect ~want ~get",
        "amount on ~material ~pour",
        "amount goes/go/top",
        "amount/show/like there",
        "material there amount/how_much",
    ),
    "how deep at <first,second:pair>": (
        "thick ~amount ~material ~pour ~corner/along/across ~on",
        "amount takes/take ~corner/along",
        "amount there ~corner/along",
    ),
    "cut list": (
        "pin cut/amount/all/show/list/heights/what ~cut ~amount ~show ~every",
        "cut list/schedule/all",
    ),
    "cut for [point] <point>": (
        "pin ~cut ~amount ~high",
        "cut ~amount",
    ),
    "high spots": (
        "high ~where ~show ~floor ~too ~may",
        "where high",
        "areas high",
    ),
    "low spots": (
        "low ~where ~show ~floor ~too",
        "where low",
        "where down/dips",
        "areas/where most fill/material",
    ),
    "hidden high spots": (
        "hidden high ~point ~may ~risk",
        "high hidden",
        "hidden high risk",
        "between high ~risk",
        "high risk not",
        "hidden humps",
    ),
    "where next": (
        "where/best another measure ~best ~most",
        "best another measure/point ~where",
        "where best measure",
        "another most_good/teach/most_informative",
    ),
    "enough": (
        "enough measure ~point ~places",
        "stopnow measure",
        "may stopnow measure",
        "left need measure more",
        "need any_more measure",
    ),
    "tally": (
        "tally ~show ~floor ~all ~amount ~where",
        "main numbers",
        "how overall doing",
    ),
    "(what is | what's) missing": (
        "missing ~you ~left ~need ~what",
        "what left you need",
        "what else need",
        "what not told/given/shot",
        "left survey/done ~what",
    ),
    "(what is | what's) missing (on | of) slab": (
        "missing before ~measure ~survey",
        "forgot before",
    ),
    "warnings": (
        "wrong ~floor ~may ~what ~show !door !readings !survey",
        "outside limits",
    ),
    "cautions": (
        "safety material/again/what/mixing/stuff/rules/need/show ~tell ~again",
        "careful material/powder/dust",
    ),
    "map": (
        "map ~show ~floor ~thick ~up",
        "show floor thick",
    ),
    "map of slab": ("map before ~floor",),
    "how many bags": (
        "amount bag ~take ~floor ~all ~material ~left !cover !perbag !water !litre !stir",
        "amount sacks",
        "bag all/lot/whole",
    ),
    "how many litres": (
        "amount litre ~mix ~material ~pour !water !primer !perbag",
        "litre all/pour/material ~amount",
        "amount volume",
    ),
    "how much water": (
        "water amount ~all ~mix ~bag !perbag !primer",
        "water all/lot/whole",
        "litre water ~amount !perbag",
    ),
    "water a bag": (
        "water perbag ~amount ~litre ~mix ~bag",
        "wet bag",
        "water dose/ratio",
        "wet mix",
        "amount water each",
    ),
    "how much primer": (
        "primer amount ~litre ~floor ~all",
        "sticky amount",
        "primer drink",
        "primer buy/fetch",
    ),
    "mixing time": (
        "howlong stir ~bag ~each",
        "stir time/minutes/long ~bag",
    ),
    "working time": (
        "howlong usable ~mix ~material ~bag ~after ~pour",
        "mix usable howlong",
        "usable how_long",
        "howlong mixed place",
        "mixed howlong off",
    ),
    "mean depth": (
        "mean thick ~amount ~all ~pour",
        "mean amount",
        "averaging",
    ),
    "deepest [point]": (
        "most thick ~where ~amount ~point",
        "deepest",
        "most amount where",
        "which/where most takes/put",
    ),
    "thinnest [point]": (
        "least thick ~where ~amount ~point ~pour",
        "thinnest",
        "where least",
        "least amount put/pour",
    ),
    "floor area": (
        "area ~amount ~floor ~total",
        "square_metres",
        "how_big floor/room",
    ),
    "points left": (
        "amount point left ~measure",
        "point left ~measure",
        "amount left measure ~point",
        "amount more measure/point ~done",
        "point not measure/done ~amount",
    ),
    "time left": (
        "howlong mix left ~usable",
        "howlong mix no_good/off ~usable",
        "howlong left ~usable",
        "howlong this_mix/this_bucket/this_batch/on_mix",
        "current mix howlong",
    ),
    "traffic time": (
        "howlong tread ~floor ~may",
        "may tread floor",
        "ready tread",
    ),
    "covering time": (
        "howlong cover ~floor ~may ~ready ~go ~start",
        "may cover howlong",
        "ready cover",
    ),
    "what is finish": (
        "finish where/set ~said ~top ~amount",
        "finish height ~set ~where",
        "what finish ~set ~working",
        "finish currently/based",
    ),
    "what time is it": (
        "oclock ~show ~what ~current",
        "current time",
        "time now",
    ),
    "how much will it cost": (
        "money amount/bag/come_to/what/total/everything ~amount ~bag ~all ~total ~material",
        "come_to amount !litre",
    ),
    "difference <start:point> to <end:point>": (
        "difference ~amount ~height",
        "high/higher/lower ~amount",
        "up/down",
    ),
    "slope <start:point> to <end:point>": (
        "slope ~amount ~percent",
        "slope",
    ),
    "where is [point] <point>": (
        "placeof ~point ~floor",
        "how_far/distance wall",
    ),
    "are <bags:count> bags enough": (
        "bag enough ~left ~floor ~may",
        "bag store/van/pallet/got ~enough",
        "enough ~floor ~van",
        "got van/store",
    ),
    "how far do <bags:count> bags go": (
        "bag reach ~floor ~amount",
        "reach",
    ),
    "instrument range <reach:length>": ("range ~instrument ~zero ~side",),
    "instrument resolution <step:length>": (
        "resolution ~instrument",
        "finest",
    ),
    "instrument repeatability <spread:length>": ("repeat ~instrument ~measure ~same_place",),
    "instrument offset <offset:reading>": (
        "offset ~instrument ~zero",
        "nothing says high",
    ),
    "new set up": (
        "newsetup ~instrument",
        "instrument newsetup/moved fresh/new/elsewhere/other_side/somewhere_else",
        "instrument carried",
    ),
    "benchmark <benchmark:whole> at <height:reading>": ("benchmark ~zero ~wall",),
    "tie on benchmark <benchmark:whole> <reading>": (
        "tie benchmark",
        "new_place benchmark",
    ),
    "tie on [point] <point> <reading>": (
        "tie ~here",
        "old_place new",
    ),
    "check zero <reading>": (
        "zero checkword ~again ~says",
        "zero again",
    ),
    "check zero [is | still] <reading:unmoved>": ("zero ok/fine/good/still/same ~checkword",),
    "check benchmark <benchmark:whole> <reading>": (
        "benchmark checkword ~again",
        "benchmark again",
    ),
    "reference moved": (
        "instrument moved ~foot ~i !new !fresh !set_up",
        "leg caught/moved",
    ),
    (
        "(they [all] [still] (hold | stand) | readings [still] (hold | stand) | (rest | "
        "others) (hold | holds | stand | stands))"
    ): (
        "again theyhold ~reading ~others ~fine",
        "again nothing different",
    ),
    "survey check": (
        "trust survey ~right ~may",
        "survey trust ~go_round",
        "survey sound",
        "measure right/properly",
    ),
    "survey check of slab": (
        "survey before trust/good/enough/relied",
        "trust numbers before",
    ),
    "where do bags go": (
        "where bag staging",
        "where staging bag/pallet",
        "pallet where",
    ),
    "plan": (
        "planned pour ~floor ~show",
        "order pour ~what_order",
        "strips show/list",
    ),
    "how goes pour": ("goingon pour",),
    "short": (
        "runout ~bag ~may",
        "bag runout",
    ),
    "floor is <substrate>": ("underfoot timber/concretefloor/screed/tiled ~everything",),
    "air <temperature> [at [point] <point>]": (
        "air temperature ~wall",
        "air reading/says/got",
        "temperature here",
    ),
    "slab <temperature> [at [point] <point>]": (
        "slab temperature",
        "slab reading/says/got",
        "thermometer floor",
    ),
    "humidity <percent> [at [point] <point>]": (
        "humid ~air",
        "damp air",
        "air humid",
    ),
    "slab humidity <percent> [at [point] <point>]": (
        "slab humid",
        "hole ~humid ~slab ~floor ~down",
        "slab moisture",
    ),
    "moisture emission <rate:number> [at [point] <point>]": ("emission ~moisture ~test ~result",),
    "ph <value:number> [at [point] <point>]": ("ph ~slab ~paper ~strip",),
    "site": (
        "climate show/what/record/which ~air ~floor ~noted",
        "temperatures damp/humidity",
        "climate figures/conditions ~air",
        "climate reading",
        "air like",
    ),
    "dew point": (
        "dew ~slab ~may ~close ~on",
        "damp air floor wet/settle",
    ),
    "drying time <thickness:length>": ("howlong dry ~slab ~amount",),
    "is slab dry": (
        "dry slab ~enough ~may",
        "dried ~enough",
        "slab moisture come_down/ok/sufficiently",
        "dry enough",
    ),
    "ready to pour": (
        "pour ready ~may ~reason ~today ~anything",
        "ready pour",
        "green_light",
        "may pour",
    ),
    "hose on [floor]": ("hose down_now ~floor",),
    "primer on [floor]": (
        "primer down_now ~floor ~done",
        "primer done",
    ),
    "water in": (
        "bag/mix/bucket mixed ~first",
        "water bag added/first",
    ),
    "pour finished": (
        "pour done ~floor ~last !start",
        "last bucket/bag/mix done/down/poured",
        "that's_us down",
    ),
    "clocks": (
        "clocks ~what ~show ~active ~running",
        "primer getting_on",
    ),
    "guide": (
        "guide ~new ~may ~floor",
        "new guide",
        "bit_by_bit",
    ),
    "(next step | done)": (
        "nextstep stage/done/what/now",
        "had_that what/after",
        "stage done next/after",
        "finished told_me/what_you what_next/after/what",
        "stage next",
        "done next after",
    ),
    "step back": (
        "stage back ~show ~missed",
        "back stage again",
    ),
    "skip step not needed": (
        "stage not apply/needed/need",
        "stage doesn't_apply/not_apply/unnecessary",
    ),
    "skip step done before": (
        "stage done before/yesterday/already/previously/earlier",
        "already done/carried_out ~before",
    ),
    "skip step told to": ("stage told/instructed skip/omit/leave ~not",),
    "where am I": (
        "stage which/where/what ~are_we ~procedure ~on",
        "what doing moment/now",
        "supposed_to be_doing",
        "meant_to doing",
    ),
    "why": (
        "why stage ~do ~this",
        "why doing/this",
    ),
    "more": (
        "more stage ~you",
        "stage explain ~more",
    ),
    "notes": (
        "notes show/which/what ~made ~you ~so_far ~have",
        "notes",
    ),
    "notes (at | on | for | about) [point] <point>": ("notes ~point ~regarding ~any",),
    "jobs": ("jobs ~show ~other",),
    "put job away": ("archive/stow ~job ~one", "put job away"),
    "job": (
        "job called/name/which/what_is",
        "which job",
        "client/address who/what/which",
    ),
    "what was [at | point | read at] <point>": (
        "reading ~what ~show ~for ~you",
        "what come/came ~in",
        "what got/get/say/said/read/put",
    ),
    "last reading": (
        "last reading ~you ~hear ~gave ~show",
        "last hear/heard/gave/give ~you",
    ),
    "last <count:whole> readings": ("last reading ~show ~gave ~which",),
    "changes": (
        "change show/what/which/list ~job ~made",
        "change today",
    ),
    "last <count:whole> changes": ("last change ~show",),
    "record": (
        "record everything/where/all/phone/is ~lose",
        "lose phone/power/battery dies/die",
    ),
    "undo [that]": (
        "undo last/lastone/that ~lastone",
        "oops",
        "didn't_mean get_rid/out/that/in",
        "undo lastone",
    ),
    "undo [last] <steps:whole>": (
        "undo last ~reading ~lastone ~gave",
        "undo entries",
    ),
    "redo [that]": (
        "redo ~lastone ~fine ~right ~undone ~took",
        "took_out fine/back",
    ),
    "redo [last] <steps:whole>": (
        "redo ~lastone ~entries",
        "restore/back entries",
    ),
    "no <reading:signed_reading>": ("no/actually/meant/wanted ~say ~correct",),
    "not <was:loose> <reading:signed_reading>": ("not/fact/instead ~correct ~said",),
    "say again": (
        "repeatsay you/say/said/that ~once_more",
        "didn't_catch/wasn't_listening/missed_that",
        "say_that again",
        "what_was_that",
    ),
    "ears open": ("listen open/keep/start/again ~you",),
    "ears closed": (
        "listen stop/close/closed/quit/pause ~you",
        "ears closed",
        "don't/not listen/hear me/us",
    ),
    "shorter": (
        "shorter you ~too",
        "shorter answers",
        "cut waffle",
    ),
    "longer": (
        "longer you ~more",
        "longer answers/answer",
    ),
    "slower": (
        "slower you/please/english ~not",
        "not_so_quick",
        "too_fast",
    ),
    "faster": (
        "faster you ~hurry",
        "quicker talk/voice",
    ),
    "softer": (
        "softer you ~gentler",
        "voice/volume softer",
        "turn_down/turn_it_down",
        "too_loud",
    ),
    "louder": (
        "louder you ~can't_hear",
        "can't_hear/cant_hear",
        "volume/voice louder",
        "turn_up/turn_it_up",
    ),
    "quiet": (
        "quiet ~you ~no_more",
        "stop_talking/no_more_talking/stop_speaking",
    ),
    "speak": (
        "speakup again/resume/may ~you",
        "voice_on",
        "start_talking",
    ),
    "help": (
        "say you may/which/what ~know",
        "help say/commands/ask",
        "commands ~which ~know",
        "what_to_say/don't_know_what",
        "able_to ask/say",
    ),
    "accept weight because <words:sentence>": ("acceptance weight/load",),
    "accept jambs because <words:sentence>": ("acceptance frames/jambs/door",),
    "accept range because <words:sentence>": ("acceptance range",),
    "accept zero because <words:sentence>": ("acceptance zero",),
    "accept readings because <words:sentence>": ("acceptance readings/survey/old",),
    "accept moisture because <words:sentence>": ("acceptance moisture/damp",),
    "accept adhesive because <words:sentence>": ("acceptance adhesive/glue",),
    "skip because <reason:sentence>": ("skipstep ~stage",),
}
