"""What the command line lists: product cards, phrases, licences."""

from __future__ import annotations

import argparse
import json
from dataclasses import asdict

from assistant.command_line.parts import ALL_TAKEN, cards_at_hand, screen_for
from assistant.errors import LeadsmanError
from assistant.record.places import user_folders
from assistant.wiring import converse, open_journal


def list_products(options: argparse.Namespace) -> int:
    """The product cards, as the chat lists them."""
    folders = user_folders()
    with open_journal(None) as journal:
        conversation = converse(journal, cards_at_hand(options.cards, folders), folders)
        screen_for(options).show(conversation.hear("products"))
    return ALL_TAKEN


def list_phrases(options: argparse.Namespace) -> int:
    """All that can be said."""
    from assistant.terminal.phrase_list import reference_markdown, reference_text

    print(reference_markdown() if options.markdown else reference_text(), end="")
    return ALL_TAKEN


def list_licences(options: argparse.Namespace) -> int:
    """The licences of what the program runs on, or of all that is installed beside it."""
    from importlib.metadata import distributions

    from assistant.command_line.licences import all_of, by_licence, package_licence, run_on
    from assistant.reply.replies import Reply

    chosen = (all_of if options.all else run_on)(distributions())
    packages = [package_licence(each) for each in chosen]
    if not packages:
        raise LeadsmanError(
            "Leadsman runs here without being installed, so nothing says what it needs. "
            "All that is installed: leadsman licences --all"
        )
    if options.json:
        for each in packages:
            print(json.dumps(asdict(each), ensure_ascii=False))
        return ALL_TAKEN
    counted = f"{len(packages)} package{'' if len(packages) == 1 else 's'}"
    groups = [
        f"{licence}: " + ", ".join(f"{each.name} {each.version}" for each in some)
        for licence, some in by_licence(packages)
    ]
    headline = f"{counted}, the licences as each package declares its own. Its files decide."
    screen_for(options).show_reply(Reply(headline, details=tuple(groups)))
    return ALL_TAKEN
