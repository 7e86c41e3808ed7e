"""Phrases: the product, what is added to it, what is lost of it, and how much to order."""

from __future__ import annotations

from decimal import Decimal

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
    Phrase(
        "products",
        ListProducts,
        "the product cards at hand",
        ("products",),
        _SETTINGS,
        ways=(
            "which bags do you (know | have)",
            "what bags are there",
            "(list | show | which | what) products [do you have | are there | have you got]",
            "list (cards | bags)",
        ),
    ),
    Phrase(
        "waste <percent>",
        SetWaste,
        "what is lost in buckets and hoses, on top of the volume",
        ("waste 7 percent", "waste 7%", "waste seven per cent"),
        _SETTINGS,
        ways=(
            "(set | make | allow | add | extra) [waste | waste to] <percent> [waste | for "
            "waste | extra]",
            "waste (is | of | to | at) <percent>",
            "<percent> (waste | extra | for waste)",
        ),
    ),
    Phrase(
        "no waste",
        SetWaste,
        "no allowance for what is lost",
        ("no waste",),
        _SETTINGS,
        speakable=False,
        ways=("(without | zero) waste",),
        fixed=(("percent", Decimal(0)),),
    ),
    Phrase(
        "aggregate <percent>",
        ExtendWithAggregate,
        "aggregate in the mix, by mass of the powder",
        ("aggregate 50 percent",),
        _SETTINGS,
        ways=(
            "<percent> (aggregate | stone | gravel)",
            "(add | with) <percent> (aggregate | stone | gravel)",
            "aggregate (of | at | is | to) <percent>",
        ),
    ),
    Phrase(
        "(pour neat | no aggregate)",
        PourNeat,
        "no aggregate in the mix",
        ("pour neat", "no aggregate"),
        _SETTINGS,
        ways=("(neat | without aggregate | take aggregate out | no (stone | gravel))",),
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
    Phrase(
        "weight",
        AskWeight,
        "what the pour weighs on the floor",
        ("weight",),
        _QUESTIONS,
        ways=(
            "weight of (pour | floor | it)",
            "how much weight [is it | is that]",
            "(what does it weigh | how much does it weigh | how heavy [is it] | total "
            "weight | what's weight)",
            "how heavy is (pour | floor | it)",
            "(can | will) floor (carry | take | hold) (it | weight)",
            "is floor strong enough",
        ),
    ),
    Phrase(
        "order [[at] risk <risk:percent>]",
        AskOrder,
        "bags for a risk of running short; 1 in 20 where none is said",
        ("order", "order risk 10 percent"),
        _SURE,
        ways=(
            "(what | how many [bags]) should (i | we) order",
            "order bags",
            "how many bags (to | should (i | we)) (order | buy | get)",
        ),
    ),
)
