"""What the rows of ``grammar/phrases/pour.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "crew <people:whole>": ("people ~have ~today ~pour ~here",),
    "mixers <mixers:whole>": ("mixers ~run ~have ~same_time",),
    "batches of <bags:whole> bags": (
        "bag atonce ~batchword ~always",
        "bag batchword always/each/every/per/apiece",
        "batchword bag we/will/size/holds/hold ~batchsize",
    ),
    "minutes per batch <minutes:number>": (
        "minutes batchword ~take ~each ~per ~need ~about",
        "minutes mixers batchword",
    ),
    "pump <bags:count> bags per hour": (
        "pump bag hour",
        "pumped bag hour",
    ),
    "way out is door <door:whole>": (
        "door wayout ~pour ~last",
        "door finish we/last/crew/out/up ~pour !level !flush !floor",
    ),
    "start at <wall:direction> wall": ("startfrom wall ~pour ~side ~end",),
    "start at column <column>": ("startfrom columnword ~pour ~side ~end",),
    "start at row <row:whole>": ("startfrom rowword ~pour ~side ~end",),
    "strips <width:length> wide": (
        "stripword ~wide ~widest ~limitmost ~make ~pour ~each",
        "pour/bays width/wide ~bays",
    ),
    "dam at column <column>": ("dam columnword ~put",),
    "dam at row <row:whole>": (
        "dam rowword ~put",
        "split/divide/break rowword ~at ~pour",
        "dam split",
    ),
    "dam at <distance:length>": ("dam ~put ~along ~start",),
    "no dams": ("dam takeaway ~all ~none",),
    "where do bags go": (
        "bag stack/stacked/keep/leave where",
        "where bag staging",
        "where staging bag/pallet",
        "pallet where",
        "where bag best ~stand ~pallet",
    ),
    "plan": (
        "planned pour ~floor ~show",
        "order pour ~what_order",
        "strips show/list",
        "how pour best/should/shall/go_about/plan",
        "pour sequence",
        "how_do_i/how_should/how_do_we/how_best/how_shall pour ~it ~floor ~this",
        "amount stripword ~pour ~planned",
        "which_end start/first/begin ~pour",
    ),
    "plan strip <strip:whole>": ("stripword ~planned ~show ~what ~about ~pour ~like",),
    "edge strip in place": ("edgestrip ~down_now ~done ~wall ~round ~fitted",),
    "joints carried through": ("joint carried ~pour ~up",),
    "start pour": (
        "pour startnow ~we ~now ~first ~bag",
        "first bag/bucket/mix/batch/barrel startnow/going/down/poured",
        "we pouring now",
    ),
    "batch": (
        "batchword another/down/poured/done/finished/more/gone/placed ~floor !left !last",
        "first batchword in/down/poured ~startnow",
        "bucket/barrel tipped/gone/down/empty/emptied !last",
        "another_one in/down/done/gone/poured",
    ),
    "batch <bags:whole> bags": (
        "batchword bag poured/was/that/just/down/another/done ~more",
        "bag poured/tipped/gone/down just/now/more/another",
    ),
    "batch <water:number> litres a bag": ("batchword litre perbag ~bag ~with",),
    "batch <bags:whole> bags <water:number> litres a bag": ("batchword bag litre perbag ~with",),
    "batch <gallons:number> gallons a bag": ("batchword gallon perbag ~bag ~with",),
    "batch <quarts:number> quarts a bag": ("batchword quarts perbag ~bag ~with",),
    "front at <distance:length>": (
        "frontword ~startword",
        "we in far/along",
        "poured far/along/in",
    ),
    "front at column <column>": (
        "frontword columnword",
        "poured/made/reached/got columnword ~far ~up",
    ),
    "front at row <row:whole>": (
        "frontword rowword",
        "poured/made/reached/got rowword ~far ~up",
    ),
    "strip <strip:whole> done": ("stripword done ~pour ~through",),
    "bags left <bags:count>": (
        "bag left ~store ~have ~down_to ~only ~counted ~pallet !enough !reach",
        "bag down_to/remaining",
    ),
    "no bags left": ("bag left/remaining none",),
    "spiked": ("spike ~done ~here ~floor ~through",),
    "hole": (
        "going/gone/lost/disappeared/vanished/running/draining down/through hole ~somewhere ~lost",
        "hole swallowed/drinking/took",
        "disappeared/vanished/leaking/leaked/escaping/escaped ~somewhere ~material ~mix",
    ),
    "no hole": (
        "none hole ~deep ~just",
        "nothing leaked/escaped/lost ~deep",
        "just deep ~here",
    ),
    "how goes pour": (
        "goingon pour",
        "ahead behind",
        "we/are behind/ahead/schedule/on_time/pace/on_schedule !stage",
        "keeping_up/on_track/on_course ~plan ~pour ~with",
    ),
    "short": (
        "runout ~bag ~may !make !keep !version !you",
        "bag runout !have_enough",
        "if/when/what runout bag",
        "runout bag what/do/options",
        "going_to_run_out/gonna_run_out/about_to_run_out",
    ),
    "stop pour": (
        "pour pausing ~now ~up",
        "we stopped pouring",
        "mixers/pump/machine broken ~hold_on",
        "broken mixers ~pour",
    ),
    "stop pour because <reason:sentence>": (
        "pour pausing ~now ~up",
        "we stopped ~pouring",
    ),
    "pour on": (
        "pour goingagain ~now ~we",
        "back pouring",
    ),
    "water <litres:number> litres a bag": (
        "litre perbag/per/a/each ~bag ~water ~set ~using ~put ~in ~mix !batch !amount",
        "water litre bag/each ~per ~in !batch !amount",
    ),
    "water <quarts:number> quarts a bag": (
        "quarts perbag/per/a/each ~bag ~water ~set ~using ~put ~in ~mix !batch !amount",
    ),
    "water <gallons:number> gallons a bag": (
        "gallon perbag/per/a/each ~bag ~water ~set ~using ~put ~in ~mix !batch !amount",
    ),
    "flow <spread:length>": (
        "flowtest ~test ~came ~out ~result ~wide ~mix",
        "ring came/out/spread/measured/went ~out",
    ),
    "left over because <reason:sentence>": ("leftover ~bag ~have",),
}
