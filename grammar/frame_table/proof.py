"""What the rows of ``grammar/phrases/proof.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "verify": (
        "measure/check newfloor ~again ~second ~now ~we",
        "second survey ~start",
        "verify/recheck newfloor/floor/pour",
        "survey/measure after pour/pouring",
        "resurvey/verify",
        "survey/measure again set/hard/cured/poured/dry/gone_off ~now",
        "resurvey now/again",
    ),
    (
        "line <line:whole> from [point] <start:point> to [point] <end:point> [every "
        "<spacing:length>]"
    ): (
        "lineword ~from ~run ~every ~measure ~start",
        "profile/lineword run/start ~every",
    ),
    "line <line:whole> every <spacing:length>": ("lineword every ~spaced",),
    "end line": (
        "lineword over/end/done/finished/complete/ended ~this !start !new",
        "end lineword",
    ),
    "end line <line:whole>": ("lineword over/end/done/finished/complete/ended ~this !start !new",),
    "go on with line <line:whole>": (
        "lineword goingagain ~with",
        "lineword back/resume/continue",
    ),
    "line <line:whole>": ("lineword ~show ~read ~what ~values ~readings ~see",),
    "lines": ("lineword show/which/list/what/all/how_many ~run ~measured ~have ~read",),
    "gap <gap:length> under <under:length> at [point] <point>": (
        "gapword ~edgeword ~under ~found",
        "under edgeword ~found",
    ),
    "hollow at [point] <point>": ("hollowsound ~sound ~spot ~floor ~there ~found",),
    "pinholes at [point] <point>": ("pinholes ~surface ~found ~around ~floor",),
    "drop line <number:whole>": ("lineword takeaway",),
    "drop gap <number:whole>": ("gapword takeaway ~fixed",),
    "drop hollow <number:whole>": ("hollowsound takeaway ~fixed",),
    "drop pinholes <number:whole>": ("pinholes takeaway ~fixed",),
    "defects": (
        "defect ~show ~list ~which ~what ~found ~floor ~have ~any ~record",
        "what found wrong new/finished/poured",
    ),
    "poured against planned": (
        "laidword planned against/versus/compare/actual/with/to/from/differ",
        "actual planned",
        "compare laidword planned",
        "how/what laidword compare ~planned",
        "laidword really/actually ~amount ~thick ~what",
        "bag really/actually cover/covered/did",
        "come/came/come_out/end lower/higher/thicker/thinner/different planned ~where ~did ~how",
        "where lower/higher/thicker/thinner/short planned ~did",
        "how did_we_do/did_it_go ~planned ~poured",
    ),
    "promised flat": (
        "promised flat !level",
        "agreed flat only",
    ),
    "promised level": ("promised level !flat",),
    "promised both": ("promised both/flat level/both ~flat",),
    "what was promised": (
        "what promised ~client ~we ~tell",
        "what agreed client ~we",
        "flat level promised which",
        "said client we what",
        "what_did_we_promise",
    ),
    "punch list": (
        "punchlist ~show ~what ~what_is",
        "what mendword ~still ~floor ~need ~must ~has",
        "where mendword ~still ~floor ~need ~must ~has",
        "mendword list",
        "grind fill which/what/where/list",
        "what mendword ~left ~still",
        "where mendword ~left ~still",
    ),
    "punch over <most:length>": (
        "punchlist limitmost/over/above ~only",
        "only list/show over ~limitmost",
        "mendword limitmost/over only/what",
    ),
    "mended": (
        "all/everything mendeddone ~punchlist ~floor",
        "punchlist mendeddone/done/finished/cleared ~all ~everything",
        "repairs/snags mendeddone/done/finished/cleared ~all ~everything",
    ),
    "mended [point] <point>": (
        "mendeddone ~spot ~now ~point",
        "repair/patch done",
    ),
    "profile line <number:whole>": (
        "profileword lineword ~draw ~show ~along",
        "draw lineword",
    ),
    "profile (row | column) <line:grid_line>": (
        "profileword rowword/columnword ~draw ~show ~along",
        "draw rowword/columnword",
    ),
    "profile from [point] <start:point> to [point] <end:point> [every <spacing:length>]": (
        "profileword from/between ~draw ~show ~along ~to",
    ),
}
