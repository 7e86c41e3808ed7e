"""Phrases: parts of the floor with a name, what is poured in each, and where a pour might stop."""

from __future__ import annotations

from grammar.commands.material import AskOrder
from grammar.commands.overview import AskTally
from grammar.commands.zones import (
    AddZone,
    AskZones,
    DropZone,
    SetZoneFinish,
    SetZoneProduct,
    StopAt,
)
from grammar.phrase import Aloud, Phrase

_ZONES = "parts of the floor"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "<name:named_zone> <first:point> to <last:point>",
        AddZone,
        "a part of the floor with a name: the columns and rows of two points across from each "
        "other, half way to the next ones; out to the wall where there are none",
        ("zone kitchen A1 to C3", "zone bedroom 2 D1 to F3"),
        _ZONES,
        speakable=False,
        fixed=(("kind", "points"),),
        ways=(
            "<name:named_zone> (is | from) <first:point> to <last:point>",
            "(make | call) <first:point> to <last:point> <name:named_zone>",
            "<first:point> to <last:point> is <name:named_zone>",
        ),
    ),
    Phrase(
        "<name:named_zone> rows <first:whole> to <last:whole>",
        AddZone,
        "the same by rows, out to the walls",
        ("zone kitchen rows 1 to 3",),
        _ZONES,
        speakable=False,
        fixed=(("kind", "rows"),),
        ways=("<name:named_zone> (is | is rows | from row) <first:whole> to [row] <last:whole>",),
    ),
    Phrase(
        "<name:named_zone> row <first:whole>",
        AddZone,
        "a single row",
        ("zone hall row 4",),
        _ZONES,
        speakable=False,
        fixed=(("kind", "rows"),),
    ),
    Phrase(
        "<name:named_zone> columns <first:column> to <last:column>",
        AddZone,
        "the same by columns",
        ("zone kitchen columns A to C",),
        _ZONES,
        speakable=False,
        fixed=(("kind", "columns"),),
        ways=(
            "<name:named_zone> (is columns | from column) <first:column> to [column] <last:column>",
        ),
    ),
    Phrase(
        "<name:named_zone> column <first:column>",
        AddZone,
        "a single column",
        ("zone hall column D",),
        _ZONES,
        speakable=False,
        fixed=(("kind", "columns"),),
    ),
    *(
        Phrase(
            f"<name:named_zone> {words} <first:point> to <last:point>",
            AddZone,
            f"all {words} of a line through two points, on a plan with A1 at the bottom left"
            if side in ("left", "right")
            else f"all {side} such a line",
            (f"zone kitchen {words} {line}",),
            _ZONES,
            speakable=False,
            fixed=(("kind", side),),
            ways=(
                f"<name:named_zone> (is | is all | all | everything) {words} "
                "<first:point> to <last:point>",
                f"<name:named_zone> {words} line [from] <first:point> to <last:point>",
            ),
        )
        for side, words, line in (
            ("left", "left of", "B1 to B6"),
            ("right", "right of", "B1 to B6"),
            ("above", "above", "A3 to F3"),
            ("below", "below", "A3 to F3"),
        )
    ),
    Phrase(
        "zones",
        AskZones,
        "all zones, and what each takes",
        ("zones",),
        _ZONES,
        ways=(
            "(list | show | what | which | what are) zones [are there | do (i | we) have]",
            Aloud("list zones"),
        ),
    ),
    Phrase(
        "drop <name:named_zone>",
        DropZone,
        "it is no zone of its own any more",
        ("drop zone kitchen",),
        _ZONES,
        speakable=False,
        ways=("(delete | remove | forget | scrap) <name:named_zone>", "drop <name:zone>"),
    ),
    Phrase(
        "tally <zone>",
        AskTally,
        "the tally of one zone; of what is in none: tally rest",
        ("tally kitchen", "tally zone 2"),
        _ZONES,
        ways=(
            "tally (of | for | in) <zone>",
            "(summary | totals | total | numbers | figures) (of | for | in) <zone>",
            "what (does | will) <zone> (take | need | come to)",
            "(bags | sacks) (for | in) [only] <zone>",
            "<zone> (bags | tally | total | totals | numbers)",
            "how (much | many bags) (for | in) <zone>",
            "how (much | many bags) does <zone> (take | need)",
        ),
    ),
    Phrase(
        "order <zone>",
        AskOrder,
        "bags for one zone alone; 1 pour in 20 would run short",
        ("order kitchen",),
        _ZONES,
        ways=("order (for | of) <zone>", "(what | how many bags) should (i | we) order for <zone>"),
    ),
    Phrase(
        "order <zone> risk <risk:percent>",
        AskOrder,
        "the same for another risk",
        ("order kitchen risk 10 percent",),
        _ZONES,
        speakable=False,
        ways=("order (for | of) <zone> [at] risk <risk:percent>",),
    ),
    Phrase(
        "finish in <zone> <height:reading>",
        SetZoneFinish,
        "height of the finish in one zone against the zero; the step to its neighbours is said",
        ("finish in kitchen +4 mm", "finish in zone 2 minus 3 mm"),
        _ZONES,
        ways=(
            "(set | make | put) finish (in | of | for) <zone> [to | at] <height:reading>",
            "finish (of | for) <zone> [at | is | to] <height:reading>",
            "finish in <zone> (at | is | to) <height:reading>",
            "in <zone> finish [at | is] <height:reading>",
        ),
    ),
    Phrase(
        "in <zone> product <name>",
        SetZoneProduct,
        "the bag for one zone, by the name on its card; also: product in kitchen NAME",
        ("in kitchen product example standard",),
        _ZONES,
        speakable=False,
    ),
    Phrase(
        "what if stop at column <column>",
        StopAt,
        "what the pour takes up to a column, its dam, and what is left",
        ("what if stop at column C",),
        _ZONES,
        speakable=False,
        ways=(
            "[what if (i | we)] stop (at | on | along) column <column>",
            "(how much | how many bags) [do (i | we) need] (to | up to | as far as) column "
            "<column>",
            "pour (up to | as far as) column <column>",
            "(how much | how many bags) [do (i | we) need] from A to <column>",
        ),
    ),
    Phrase(
        "what if stop at row <row:whole>",
        StopAt,
        "the same at a row",
        ("what if stop at row 4",),
        _ZONES,
        speakable=False,
        ways=(
            "[what if (i | we)] stop (at | on | along) row <row:whole>",
            "pour (up to | as far as) row <row:whole>",
        ),
    ),
    Phrase(
        "what if stop half way",
        StopAt,
        "asks where: at which column or row",
        ("what if stop half way",),
        _ZONES,
        speakable=False,
        ways=(
            "(how much | how many bags) for [left | right | other | far | near] half [of] "
            "[room | floor]",
            "(how much | how many bags) for (left | right) (side | part) [of] [room | floor]",
        ),
    ),
)
