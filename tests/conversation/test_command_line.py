"""The command line: what is printed where, and with which exit code."""

from __future__ import annotations

import io
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from assistant.__main__ import main
from assistant.record.journal import Journal
from assistant.version import __version__

Run = Callable[..., tuple[int, str, str]]
KEYS = [
    "line", "text", "ok", "command", "canonical", "taken_as", "recorded", "ask", "lapsed", "say",
    "warnings", "cautions", "data",
]  # fmt: skip


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    """Exit code, standard output and standard error."""

    def ran(*arguments: str | Path, typed: bytes = b"") -> tuple[int, str, str]:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(typed)))
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as left:
            code = int(left.code or 0)
        out, err = capsys.readouterr()
        return code, out, err

    return ran


# --- starting -----------------------------------------------------------------


def test_version(run: Run) -> None:
    assert run("--version") == (0, f"leadsman {__version__}\n", "")
    assert run("-V") == (0, f"leadsman {__version__}\n", "")


def test_the_version_waits_for_nothing_heavy() -> None:
    program = (
        "import sys; from assistant.__main__ import main; main(['--version']);"
        "print(sorted({m.split('.')[0] for m in sys.modules}"
        " & {'numpy', 'scipy', 'shapely', 'pint', 'rich', 'prompt_toolkit', 'lark',"
        " 'argparse', 'sqlite3', 'grammar', 'asyncio'}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    assert done.stdout.splitlines()[-1] == "[]"


def test_help_names_every_command_and_has_examples(run: Run) -> None:
    code, out, _ = run("--help")
    assert code == 0
    named = re.findall(r"^    (\w+) ", out, re.MULTILINE)
    assert named == [
        "run", "demo", "guide", "listen", "hear", "voice", "jobs", "products", "export",
        "picture", "report", "archive", "open", "board", "import", "phrases", "licences",
    ]  # fmt: skip
    assert "examples:" in out
    for name in named:
        code, out, _ = run(name, "--help")
        assert code == 0
        assert re.search(r"examples?:\n  leadsman", out), name
        assert max(len(line) for line in out.splitlines()) <= 80


def test_examples_of_lines_in_the_help_are_understood() -> None:
    from assistant.command_line.parser import EXAMPLES
    from grammar import understand

    _, _, said = EXAMPLES.partition("at the prompt:\n")
    told, _, _ = said.partition("\n\n")
    for line in re.split(r"·|\n", told):
        assert understand(line.strip()), line


@pytest.mark.parametrize(
    "arguments",
    [
        ["fly"],
        ["run"],
        ["run", "--job"],
        ["--colour"],
        ["run", "/there/is/no/such/file"],
        ["run", "/"],
        ["run", "a\0b"],
        ["run", "-", "--job", "/there/is/no/folder/x.leadsman"],
        ["run", "-", "--cards", "/there/is/no/folder"],
        ["--new", "a", "--job", "b"],
        ["--new", "a", "run", "-"],
        ["--new", ""],
        ["--job", ""],
        ["--new", " "],
        ["--job", "site"],
        ["--job", "/"],
        ["--voice", "nope"],
    ],
)
def test_what_cannot_run_says_so_in_short(run: Run, arguments: list[str]) -> None:
    code, out, err = run(*arguments)
    assert code == 2
    assert out == ""
    assert "leadsman" in err
    assert "Traceback" not in err
    assert err.count("\n") <= 4


# --- playing lines --------------------------------------------------------------


def test_a_file_is_played_and_nothing_kept(run: Run, lines: Path, home: Path) -> None:
    code, out, err = run("run", lines)
    assert code == 0
    assert "> A1 -18\nA1 18 mm below. Depth 18 mm.\n" in out
    assert "a small room" not in out
    assert err == "leadsman: played on a job of its own that is not kept; --job PATH keeps it.\n"
    assert not home.exists()


def test_json_is_one_object_a_line_and_nothing_else(run: Run, lines: Path) -> None:
    code, out, err = run("run", lines, "--json")
    assert code == 0
    shown = [json.loads(line) for line in out.splitlines()]
    assert [list(each) for each in shown] == [KEYS] * 3
    assert [each["line"] for each in shown] == [2, 3, 5]
    assert shown[2]["text"] == "A1 -18"
    assert shown[2]["canonical"] == "A1 -18 mm"
    assert shown[2]["recorded"] == ["reading-taken"]
    assert "not kept" in err


def test_lines_not_understood_make_it_1_and_the_others_count(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "lines.txt"
    path.write_bytes(
        b"\xef\xbb\xbfB3 -18\r\n\xff\xfe\r\nZ\x009\r\n" + b"x" * 100_000 + b"\r\ntally"
    )
    code, out, _ = run("run", path, "--json")
    assert code == 1
    shown = [json.loads(line) for line in out.splitlines()]
    assert [each["ok"] for each in shown] == [True, False, False, False, True]
    assert shown[4]["data"]["tally"]["points"] == 1


@pytest.mark.parametrize(
    ("line", "keys"),
    [
        ("tally", {"tally"}),
        ("how deep at A1", {"depth_mm"}),
        ("how deep at 1 by 1 metres", {"depth_mm"}),
        ("cut list", {"cuts"}),
        ("what if raise finish 3 mm", {"before", "after"}),
        ("door 1 left minus 4 right minus 9 outside plus 2", {"door"}),
    ],
)
def test_what_programs_find_in_data(run: Run, line: str, keys: set[str]) -> None:
    before = "room 8 by 6 metres\ngrid 2 metres\nproduct example standard\nA1 -18\nB1 -9\nA2 -7\n"
    code, out, _ = run("run", "-", "--json", typed=(before + line).encode())
    assert code == 0
    assert set(json.loads(out.splitlines()[-1])["data"]) >= keys


def test_the_short_form_of_every_line_does_the_same(run: Run) -> None:
    typed = (
        b"room 8 by 6 metres\ngrid 2 metres starting 0.5 m\nbravo two 18 low\n3/8 in above\ntally"
    )
    _, out, _ = run("run", "-", "--json", typed=typed)
    first = [json.loads(line) for line in out.splitlines()]
    again = "\n".join(each["canonical"] for each in first).encode()
    _, out, _ = run("run", "-", "--json", typed=again)
    second = [json.loads(line) for line in out.splitlines()]
    for key in ("canonical", "recorded", "say", "data"):
        assert [each[key] for each in second] == [each[key] for each in first]


def test_with_job_it_is_kept_and_goes_on(run: Run, lines: Path, tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    assert run("run", lines, "--job", job)[0] == 0
    code, out, err = run("--job", job, "run", "-", typed=b"B1 -9\ntally")
    assert code == 0
    assert err == ""
    assert "2 of 12 points read" in out


def test_a_job_that_is_open_elsewhere_is_refused(run: Run, lines: Path, tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    with Journal.open(job):
        code, out, err = run("run", lines, "--job", job)
    assert (code, out) == (2, "")
    assert "open" in err


def test_a_file_that_is_no_job_is_refused_untouched(run: Run, lines: Path) -> None:
    before = lines.read_bytes()
    assert run("run", "-", "--job", lines)[0] == 2
    assert lines.read_bytes() == before


def test_an_open_question_at_the_end_is_told(run: Run) -> None:
    code, out, err = run("run", "-", "--json", typed=b"B3 18")
    assert code == 1  # not all of it is on record
    assert "below or above?" in json.loads(out)["ask"]
    assert "question was left open" in err


def test_a_pipe_into_the_program_is_played(run: Run, home: Path) -> None:
    code, out, _ = run(typed=b"B3 -18\n")
    assert code == 0
    assert "> B3 -18\nB3 18 mm below." in out
    assert not home.exists()


def test_a_pipe_into_a_new_job_is_kept(run: Run, home: Path) -> None:
    assert run("--new", "Boat shed", typed=b"B3 -18\n")[0] == 0
    assert [path.name for path in (home / "jobs").glob("*.leadsman")] == ["boat-shed.leadsman"]
    code, _, err = run("--new", "boat shed" if os.name == "nt" else "Boat shed", typed=b"")
    assert code == 2
    assert "already" in err


@pytest.mark.parametrize(
    "arguments",
    [["\x1b[31mx"], ["run", "x", "\x1b[31mx"], ["run", "\x1b[31mx"], ["--job", "\x1b[31mx"],
     ["--voice", "\x1b[31mx"], ["--cards", "\x1b[31mx", "products"]],
)  # fmt: skip
def test_signs_that_steer_a_terminal_are_shown_not_sent(run: Run, arguments: list[str]) -> None:
    code, out, err = run(*arguments, typed=b"")
    assert code == 2
    assert "\x1b" not in out + err
    assert "[31m" in err


# --- what was named -------------------------------------------------------------------------


def test_a_new_job_without_a_name_is_told_how(run: Run, home: Path) -> None:
    _, _, err = run("--new", "", typed=b"B3 -18\n")
    assert "leadsman --new boat-shed" in err
    assert not home.exists()
    assert run("--new", typed=b"B3 -18\n")[0] == 0
    (job,) = (home / "jobs").glob("*.leadsman")
    assert job.name.startswith("job-2")


def test_a_job_without_a_name_is_no_folder(run: Run) -> None:
    code, _, err = run("run", "-", "--job", "", typed=b"B3 -18\n")
    assert code == 2
    assert err.startswith("leadsman: --job '' names no file.")
    assert "is a folder" not in err


def test_a_job_without_its_ending(
    run: Run, home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    code, _, err = run("run", "-", "--job", "site", typed=b"B3 -18\n")
    assert code == 2
    assert "leadsman --job site.leadsman" in err
    assert "leadsman --new site" in err
    assert list(tmp_path.iterdir()) == []
    run("--new", "site", typed=b"B3 -18\n")
    assert f"leadsman --job {home / 'jobs' / 'site.leadsman'}" in run("--job", "site")[2]
    run("run", "-", "--job", "site.leadsman", typed=b"B3 -18\n")
    assert "There is site.leadsman" in run("--job", "site")[2]
    # One that is there is opened, whatever its name.
    (tmp_path / "site.leadsman").rename(tmp_path / "old")
    code, out, _ = run("run", "-", "--job", "old", typed=b"readings\n")
    assert code == 0
    assert "B3" in out


def test_a_folder_is_no_job(run: Run, tmp_path: Path) -> None:
    _, _, err = run("--job", tmp_path)
    assert f"{tmp_path} is a folder" in err
    assert f"leadsman --job {tmp_path / 'floor.leadsman'}" in err


# --- lists ------------------------------------------------------------------------------


def test_no_jobs_yet(run: Run) -> None:
    code, out, _ = run("jobs")
    assert code == 0
    assert "leadsman --new NAME" in " ".join(out.split())


def test_jobs_the_last_used_first(run: Run, home: Path) -> None:
    for number, name in enumerate(("one", "two", "three")):
        run("--new", name, typed=b"B3 -18\n")
        stamp = 1_700_000_000 + (number if name != "two" else 99)
        os.utime(home / "jobs" / f"{name}.leadsman", (stamp, stamp))
    _, out, _ = run("jobs")
    named = re.findall(r"^(one|two|three) ", out, re.MULTILINE)
    assert named == ["two", "three", "one"]


def test_products_say_where_own_cards_go(run: Run, home: Path) -> None:
    _, out, _ = run("products")
    assert str(home / "cards") in out  # in one piece, however long
    assert str(home / "cards") in run("run", "-", typed=b"products")[1]
    assert "Your own cards" not in run("demo")[1]


def test_products_from_a_folder_named_before_or_after(run: Run, tmp_path: Path) -> None:
    from assistant.products.cards import shipped_folder

    for name in ("aft", "fore"):
        (tmp_path / name).mkdir()
        card = (shipped_folder() / "example_standard.toml").read_text()
        card = card.replace("example standard", f"own {name}")
        (tmp_path / name / "card.toml").write_text(card)
    code, out, _ = run("--cards", tmp_path / "aft", "products", "--cards", tmp_path / "fore")
    assert code == 0
    assert "own aft" in out
    assert "own fore" in out
    assert "example standard" in out


def test_a_card_that_cannot_be_used(run: Run, tmp_path: Path, home: Path) -> None:
    """In the installer's own folder it is left out; in one asked for it stops the program."""
    for folder in (tmp_path / "asked", home / "cards"):
        folder.mkdir(parents=True)
        (folder / "broken.toml").write_text("name = ")
    code, _, err = run("products", "--cards", tmp_path / "asked")
    assert code == 2
    assert "broken.toml" in err
    code, out, err = run("products")
    assert code == 0
    assert "broken.toml" in err
    assert "example standard" in out


def test_phrases_lists_every_example(run: Run) -> None:
    from grammar import PHRASES

    for arguments in ([], ["--markdown"]):
        _, out, _ = run("phrases", *arguments)
        told = " ".join(out.split())
        assert [e for p in PHRASES for e in p.examples if e not in told] == []


def test_the_demo_plays(run: Run) -> None:
    code, out, _ = run("demo", "--json")
    assert code in (0, 1)
    shown = [json.loads(line) for line in out.splitlines()]
    assert len(shown) > 20
    _, out, _ = run("demo")
    assert out.startswith("# ")


# --- faults -----------------------------------------------------------------------------------


def test_a_fault_of_the_program_is_noted_and_told_in_short(
    run: Run, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_: object) -> int:
        raise ZeroDivisionError("oh")

    monkeypatch.setattr("assistant.command_line.parser.run", broken)
    code, _, err = run("products")
    assert code == 2
    assert "Traceback" not in err
    assert "faults.log" in err
    assert "ZeroDivisionError" in (home / "faults.log").read_text()


def _begun(run: Run, name: str) -> None:
    assert run("--new", name, typed=b"room 8 by 6 metres\ngrid 2 metres\nA1 -18\n")[0] == 0


def test_a_job_is_renamed_copied_put_away_and_brought_back(run: Run, home: Path) -> None:
    _begun(run, "shed")
    assert "called hut now" in run("jobs", "rename", "shed", "Hut")[1]
    assert "Copied to hut-2." in run("jobs", "copy", "hut", "Hut/2")[1]
    assert "nothing is deleted" in run("jobs", "away", "hut")[1]
    code, out, _ = run("jobs")
    assert code == 0
    assert "1 put away: leadsman jobs away" in out
    assert re.search(r"^hut-2 +1 of 12 read", out, re.MULTILINE)
    assert "hut " in run("jobs", "away")[1]
    assert "hut-3 is back in the list" in run("jobs", "back", "hut", "hut 3")[1]
    there = sorted(path.name for path in (home / "jobs").rglob("*.leadsman"))
    assert there == ["hut-2.leadsman", "hut-3.leadsman"]
    told = json.loads(run("jobs", "--json")[1])
    assert {job["name"]: job["stands"] for job in told["jobs"]} == {
        "hut-2": "1 of 12 read", "hut-3": "1 of 12 read"
    }  # fmt: skip


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("dance",), "rename, copy, export, away or back"),
        (("rename", "shed"), "leadsman jobs rename NAME NEW-NAME"),
        (("rename", "shed", ""), "leadsman jobs rename NAME NEW-NAME"),
        (("rename", "barn", "hut"), "There is no job 'barn'. There are shed."),
        (("rename", "shed", "SHED"), "called 'shed' already"),
        (("back", "shed"), "There is no job put away 'shed'"),
        (("away", "..", "x"), "leadsman jobs away NAME"),
        (("away", "../shed"), "There is no file ../shed"),
    ],
)
def test_what_cannot_be_done_with_a_job_says_what_could(
    run: Run, home: Path, words: tuple[str, ...], why: str
) -> None:
    _begun(run, "shed")
    code, _, told = run("jobs", *words)
    assert code == 2
    assert why in told
    assert [path.name for path in (home / "jobs").rglob("*.leadsman")] == ["shed.leadsman"]
