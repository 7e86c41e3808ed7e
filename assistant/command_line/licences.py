"""The licences of the packages that the program runs on, as each package declares them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from importlib.metadata import Distribution, PackageMetadata
from itertools import groupby

from grammar.frozen import frozen

OURS = "leadsman"
RUN_WITH = frozenset({"voice", "export", "picture", "report", "board"})
"""Our extras that people run the program with; the others are for tests and checks."""

UNKNOWN = "unknown"

_LONGEST_NAME = 60
"""Longest licence name: some packages put a licence's whole text there."""

_SPELT = {
    "the mit license (mit)": "MIT",
    "the mit license": "MIT",
    "mit license": "MIT",
    "apache 2.0": "Apache-2.0",
    "apache license 2.0": "Apache-2.0",
    "apache license, version 2.0": "Apache-2.0",
    "bsd license": "BSD",
    "3-clause bsd license": "BSD-3-Clause",
    "bsd 3-clause license": "BSD-3-Clause",
    "bsd 3-clause": "BSD-3-Clause",
    "mozilla public license 2.0 (mpl 2.0)": "MPL-2.0",
}
"""Other spellings of one licence, its version among them; "BSD" alone could be several."""


@frozen
class Licensed:
    """A package and its licence."""

    name: str
    version: str
    licence: str
    """An SPDX expression where the package has one, else its own words, or "unknown"."""
    files: tuple[str, ...]
    """Licence files that the package says it brings."""


def package_licence(distribution: Distribution) -> Licensed:
    """A package's licence, from its own metadata."""
    head = distribution.metadata
    return Licensed(
        head["Name"],
        head["Version"],
        _licence(distribution),
        tuple(head.get_all("License-File") or ()),
    )


def run_on(installed: Iterable[Distribution]) -> list[Distribution]:
    """Our package and all it needs, directly or not, as far as installed, by name."""
    by_name = _by_name(installed)
    found: dict[str, Distribution] = {}
    waiting: list[tuple[str, frozenset[str]]] = [(OURS, RUN_WITH)]
    seen = set(waiting)
    while waiting:
        name, extras = waiting.pop()
        distribution = by_name.get(name)
        if distribution is None:
            continue
        found[name] = distribution
        for needed in _needs(distribution, extras):
            if needed not in seen:
                seen.add(needed)
                waiting.append(needed)
    return [found[name] for name in sorted(found)]


def all_of(installed: Iterable[Distribution]) -> list[Distribution]:
    """All that is installed, each once, by name."""
    by_name = _by_name(installed)
    return [by_name[name] for name in sorted(by_name)]


def by_licence(packages: Iterable[Licensed]) -> list[tuple[str, list[Licensed]]]:
    """Packages of one licence together, in the order of its name; the unknown ones last."""

    def place(package: Licensed) -> tuple[bool, str, str]:
        return package.licence == UNKNOWN, package.licence.lower(), package.name.lower()

    ordered = sorted(packages, key=place)
    return [
        (licence, list(some)) for licence, some in groupby(ordered, key=lambda one: one.licence)
    ]


def _by_name(installed: Iterable[Distribution]) -> Mapping[str, Distribution]:
    """The first of each name, which is the one that is imported."""
    found: dict[str, Distribution] = {}
    for distribution in installed:
        if name := distribution.metadata["Name"]:
            found.setdefault(_normal(name), distribution)
    return found


def _normal(name: str) -> str:
    """As the packaging standards compare names."""
    return re.sub(r"[-_.]+", "-", name).lower()


def _needs(
    distribution: Distribution, extras: frozenset[str]
) -> Iterator[tuple[str, frozenset[str]]]:
    """
    Names in its requirements, with the extras asked for.

    Whether a marker holds on this machine is not worked out: what it leaves out is not installed.
    """
    for line in distribution.requires or ():
        needed, _, marker = line.partition(";")
        of_extra = re.search(r"""extra\s*==\s*["']([^"']+)["']""", marker)
        if of_extra and _normal(of_extra[1]) not in extras:
            continue
        if match := re.match(r"\s*([\w.-]+)\s*(?:\[([^\]]*)\])?", needed):
            asked = frozenset(_normal(each.strip()) for each in (match[2] or "").split(",") if each)
            yield _normal(match[1]), asked


def _licence(distribution: Distribution) -> str:
    head = distribution.metadata
    if expression := _said(head, "License-Expression"):
        return expression
    words = _said(head, "License")
    if words and words.upper() != "UNKNOWN":
        first = words.splitlines()[0].strip()
        if first.lower() in _SPELT:
            return _SPELT[first.lower()]
        if first == words and len(words) <= _LONGEST_NAME:
            return words
    # "License :: OSI Approved :: MIT License"; the middle alone says nothing.
    classes = [each.split(" :: ") for each in head.get_all("Classifier") or ()]
    named = [parts[-1] for parts in classes if parts[0] == "License" and len(parts) > 1]
    named = [_SPELT.get(each.lower(), each) for each in named if each != "OSI Approved"]
    # Whether several hold together or may be chosen from is not said there.
    return ", ".join(dict.fromkeys(named)) or UNKNOWN


def _said(head: PackageMetadata, name: str) -> str:
    values: list[str] = head.get_all(name) or [""]
    return values[0].strip()
