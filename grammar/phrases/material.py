"""Phrases: the product, what is added to it, what is lost of it, and how much to order."""

from __future__ import annotations

from grammar.commands.material import (
    AskOrder,
    AskWeight,
    ChooseProduct,
    ExtendWithAggregate,
    ListProducts,
    PourNeat,
    SetBagCost,
    SetWaste,
)
from grammar.phrase import Phrase

_SETTINGS = "product and settings"
_QUESTIONS = "questions"
_SURE = "how sure, and where next"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "product <name>",
        ChooseProduct,
        "the bag in your hand, by the name on its card",
        ("product example standard",),
        _SETTINGS,
    ),
    Phrase("products", ListProducts, "the product cards at hand", ("products",), _SETTINGS),
    Phrase(
        "waste <percent>",
        SetWaste,
        "what is lost in buckets and hoses, on top of the volume",
        ("waste 7 percent", "waste 7%", "waste seven per cent"),
        _SETTINGS,
    ),
    Phrase(
        "aggregate <percent>",
        ExtendWithAggregate,
        "aggregate in the mix, by mass of the powder",
        ("aggregate 50 percent",),
        _SETTINGS,
    ),
    Phrase(
        "(pour neat | no aggregate)",
        PourNeat,
        "no aggregate in the mix",
        ("pour neat", "no aggregate"),
        _SETTINGS,
    ),
    Phrase(
        "(bag costs | bags cost | bag price | price a bag)"
        " (<amount:number> [<currency>] | <currency> <amount:number>)",
        SetBagCost,
        "what one bag costs, in any currency",
        ("bag costs 24 euros", "bag costs 18.50"),
        _SETTINGS,
        speakable=False,
    ),
    Phrase("weight", AskWeight, "what the pour weighs on the floor", ("weight",), _QUESTIONS),
    Phrase(
        "order [[at] risk <risk:percent>]",
        AskOrder,
        "bags for a risk of running short; 1 in 20 where none is said",
        ("order", "order risk 10 percent"),
        _SURE,
    ),
)
