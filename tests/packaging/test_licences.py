"""Which licences the packages have that the program runs on, said by the packages themselves."""

from __future__ import annotations

import json
from collections.abc import Callable
from importlib.metadata import Distribution, distributions
from pathlib import Path

import pytest

from assistant.__main__ import main
from assistant.command_line.licences import UNKNOWN, all_of, by_licence, package_licence, run_on

Install = Callable[..., None]


@pytest.fixture
def install(tmp_path: Path) -> Install:
    """Put a package's description into a folder of its own."""

    def installed(
        name: str, *lines: str, version: str = "1.0", needs: tuple[str, ...] = ()
    ) -> None:
        folder = tmp_path / f"{name}-{version}.dist-info"
        folder.mkdir()
        head = ["Metadata-Version: 2.4", f"Name: {name}", "Version: 1.0", *lines]
        head += [f"Requires-Dist: {each}" for each in needs]
        (folder / "METADATA").write_text("\n".join(head) + "\n")

    return installed


@pytest.fixture
def there(tmp_path: Path) -> Callable[[], list[Distribution]]:
    return lambda: list(distributions(path=[str(tmp_path)]))


TROVE = "Classifier: License :: OSI Approved ::"
WHOLE_TEXT = "Copyright (c) 2020 A. Nobody\n        All of a long text"


@pytest.mark.parametrize(
    ("lines", "licence"),
    [
        (("License-Expression: MIT OR Apache-2.0", "License: whatever"), "MIT OR Apache-2.0"),
        (("License: MIT License",), "MIT"),
        (("License: Apache 2.0",), "Apache-2.0"),
        (("License: BSD",), "BSD"),  # two clauses or three is not said, and not guessed
        ((f"{TROVE} MIT License",), "MIT"),
        (("License: UNKNOWN", f"{TROVE} Apache Software License"), "Apache Software License"),
        ((f"{TROVE} MIT License", f"{TROVE} BSD License"), "MIT, BSD"),
        ((f"License: {WHOLE_TEXT}", f"{TROVE} BSD License"), "BSD"),
        ((f"License: The MIT License (MIT)\n        {WHOLE_TEXT}",), "MIT"),
        (("Classifier: License :: OSI Approved",), UNKNOWN),
        (("License:",), UNKNOWN),
        (("License: UNKNOWN",), UNKNOWN),
        ((), UNKNOWN),
    ],
    ids=str,
)  # fmt: skip
def test_a_package_says_its_licence(
    lines: tuple[str, ...], licence: str, install: Install, there: Callable[[], list[Distribution]]
) -> None:
    install("one", *lines)
    (only,) = there()
    assert package_licence(only).licence == licence


def test_what_it_runs_on_is_what_it_needs_and_what_that_needs(
    install: Install, there: Callable[[], list[Distribution]]
) -> None:
    install(
        "leadsman",
        needs=(
            "Under_Neath>=1", "ears; extra == 'voice'", "proof; extra == 'test'",
            "not-here; sys_platform == 'win32'",
        ),
    )  # fmt: skip
    install("under.neath", needs=("deeper[fast]>=2", "leadsman"))
    install("deeper", needs=('quick ; python_version > "3" and extra == "fast"',
                             'slow; extra == "slow"'))  # fmt: skip
    for name in ("quick", "slow", "ears", "proof", "stranger"):
        install(name)
    names = [each.metadata["Name"] for each in run_on(there())]
    assert names == ["deeper", "ears", "leadsman", "quick", "under.neath"]
    assert len(all_of(there())) == 8


def test_they_are_grouped_and_the_unknown_ones_stand_last(
    install: Install, there: Callable[[], list[Distribution]]
) -> None:
    install("b", "License-Expression: Zlib")
    install("a", "License-Expression: Zlib")
    install("c")
    install("d", "License: MIT License")
    groups = by_licence(package_licence(each) for each in there())
    assert [(licence, [each.name for each in some]) for licence, some in groups] == [
        ("MIT", ["d"]), ("Zlib", ["a", "b"]), (UNKNOWN, ["c"]),
    ]  # fmt: skip


def test_the_command_lists_those_of_this_installation(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["licences", "--json"]) == 0
    listed = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    by_name = {each["name"].lower(): each for each in listed}
    assert by_name["leadsman"]["licence"] == "Apache-2.0"
    assert {"rich", "numpy", "scipy", "lark", "shapely"} <= set(by_name)
    assert not {"pytest", "mypy", "ruff"} & set(by_name)
    assert main(["licences"]) == 0
    shown = capsys.readouterr().out
    assert shown.startswith(f"{len(listed)} packages")
    assert all(each["name"] in shown for each in listed)
    assert main(["licences", "--all", "--json"]) == 0
    assert '"pytest"' in capsys.readouterr().out
