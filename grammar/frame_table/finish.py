"""What the rows of ``grammar/phrases/finish.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
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
    "finish at door <door:whole> with covering": (
        "flush door covering ~finish ~floor ~outside ~want",
    ),
    "finish at door with covering": ("flush door covering ~finish ~floor ~outside ~want",),
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
}
