"""Answers about the product, and how much of it to order."""

from __future__ import annotations

from assistant.answers.material import order, product
from assistant.answers.parts import Answerer
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **product.ANSWERS,
    **order.ANSWERS,
}
