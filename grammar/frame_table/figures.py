"""What the rows of ``grammar/phrases/figures.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
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
}
