"""``leadsman products``: its command, with ``new`` and ``check`` below it."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from assistant.command_line.lists import list_products
from assistant.command_line.parts import AddCommand
from assistant.products.key_help import keys_told
from assistant.terminal.arguments import Arguments

ABOUT = """\
List the product cards: those that come with the program (invented; take the
numbers from the data sheet of the bag in your hand), your own from the data
folder, and those of every --cards folder. A later card of the same name wins."""
EXAMPLES = """\
examples:
  leadsman products
  leadsman products --cards site/cards
  leadsman products new
  leadsman products check site/cards/harbour_fine.toml

keys of a card, each with its unit and an example; [what may be left out]:
"""
NEW_ABOUT = """\
Ask for all that a card holds, in the units that are printed on the bag, and
write it in the folder of your own cards. Nothing is written before you say yes,
and never over another file."""
CHECK_ABOUT = """\
Look at card files and name all that is wrong with each, at once; the exit code
is 1 where anything is."""


def add_products(add: AddCommand) -> None:
    """The command, and the tasks that may follow it."""
    help = "list, write or check product cards"
    products = add("products", list_products, help, ABOUT, EXAMPLES + keys_told())
    tasks = products.add_subparsers(
        metavar="TASK", title="tasks", parser_class=Arguments, required=False
    )

    def task(
        name: str, do: Callable[[argparse.Namespace], int], help: str, about: str
    ) -> Arguments:
        added: Arguments = tasks.add_parser(
            name,
            help=help,
            description=about,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )
        added.set_defaults(do=do)
        return added

    task("new", _new, "write a card by answering questions", NEW_ABOUT)
    check = task("check", _check, "name all faults of card files", CHECK_ABOUT)
    check.add_argument("files", metavar="FILE", nargs="+", type=Path, help="a card, a TOML file")


def _new(options: argparse.Namespace) -> int:
    from assistant.command_line.new_card import new_card

    return new_card(options)


def _check(options: argparse.Namespace) -> int:
    from assistant.command_line.new_card import check_cards

    return check_cards(options)
