"""The rulebook: every rule of every family module in this folder, found by looking, in a fixed order."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

from .rule import Rule

_NOT_FAMILIES = {"feet", "likely", "meeting", "book", "gaps", "numbering", "rule", "spaces", "sums", "verdicts"}


@cache
def all_rules() -> tuple[Rule, ...]:
    """Return all rules, by family and then in the order in which the family declares them."""
    package = __package__ or "rowcall.rules"
    folder = importlib.import_module(package).__path__
    names = sorted(module.name for module in pkgutil.iter_modules(folder) if module.name not in _NOT_FAMILIES)
    modules = [importlib.import_module(f"{package}.{name}") for name in names]
    rules: list[Rule] = [rule for module in modules for rule in getattr(module, "RULES", ())]
    families = list(dict.fromkeys(rule.family for rule in rules))
    return tuple(sorted(rules, key=lambda rule: families.index(rule.family)))


def rule_named(name: str) -> Rule | None:
    """Return the rule of this name, None where there is none."""
    return next((rule for rule in all_rules() if rule.name == name), None)
