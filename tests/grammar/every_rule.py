"""All rules that a line of the language can use, those of every phrase written out."""

from __future__ import annotations

from lark.grammar import NonTerminal, Rule, Symbol

from grammar.rule_table import RuleTable


def every_rule(table: RuleTable) -> list[Rule]:
    """From the rules of whole lines down; ValueError where one is made of what nothing makes."""
    found: list[Rule] = []
    waiting: list[Symbol] = [NonTerminal("start")]
    seen = set(waiting)
    while waiting:
        for rule in table.made_of(waiting.pop()):
            found.append(rule)
            new = {symbol for symbol in rule.expansion if not symbol.is_term} - seen
            seen |= new
            waiting += sorted(new, key=lambda symbol: symbol.name)
    return found
