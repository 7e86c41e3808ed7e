"""A job in one file, and out of it: whole, or not at all, and over nothing."""

from __future__ import annotations

import io
import json
import re
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from assistant.__main__ import main
from assistant.command_line.handing_over import job_in
from assistant.errors import LeadsmanError
from assistant.handover.archive import LARGEST_MB, packed, unpacked
from assistant.products.cards import shipped_folder

FILES = {"job.leadsman": b"record", "tables/points.csv": b"point\r\n"}


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A job in the data folder, and the folder that one stands in."""
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    (tmp_path / "home" / "jobs").mkdir(parents=True)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "lines.txt").write_text(
        "room 6 by 4 metres\ngrid 2 metres\nproduct example standard\nA1 -12 mm\nB1 -14 mm\n"
    )
    job = tmp_path / "home" / "jobs" / "boat-shed.leadsman"
    assert main(["run", "lines.txt", "--job", str(job)]) == 0
    return tmp_path


def test_a_job_comes_out_as_it_went_in_and_over_nothing(
    kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["archive"]) == 0
    archive = kept / "boat-shed.leadsman.zip"
    with zipfile.ZipFile(archive) as held:
        assert {
            "job.leadsman", "report.html", "report.pdf", "pictures/planned.svg",
            "tables/points.csv", "cards/example-standard.toml",
        } <= set(held.namelist())  # fmt: skip
    jobs = kept / "home" / "jobs"
    before = (jobs / "boat-shed.leadsman").read_bytes()
    assert main(["open", str(archive)]) == 0
    assert "Opened as boat-shed-2" in capsys.readouterr().out
    assert job_in(jobs / "boat-shed-2.leadsman") == job_in(jobs / "boat-shed.leadsman")
    assert (jobs / "boat-shed-2-handover" / "report.html").is_file()
    assert main(["open", str(archive)]) == 0
    assert (jobs / "boat-shed-3.leadsman").is_file()
    assert (jobs / "boat-shed.leadsman").read_bytes() == before
    archive.write_bytes(b"mine")
    assert main(["archive", "boat-shed"]) == 2
    assert archive.read_bytes() == b"mine"


def test_a_product_in_any_script_is_packed_with_its_card(
    kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    card = (shipped_folder() / "example_standard.toml").read_text("utf-8")
    (kept / "cards").mkdir()
    (kept / "cards" / "x.toml").write_text(
        re.sub("^name = .*", 'name = "Größe \u5b66\u6821"', card, flags=re.MULTILINE), "utf-8"
    )
    (kept / "more.txt").write_text("product größe \u5b66\u6821\n", "utf-8")
    job = str(kept / "home" / "jobs" / "boat-shed.leadsman")
    assert main(["run", "more.txt", "--cards", "cards", "--job", job]) == 0
    assert main(["archive"]) == 0
    with zipfile.ZipFile(kept / "boat-shed.leadsman.zip") as held:
        assert "Größe \u5b66\u6821" in held.read("cards/grosse.toml").decode("utf-8")
    assert main(["open", "boat-shed.leadsman.zip"]) == 0
    assert (kept / "home" / "jobs" / "boat-shed-2-handover" / "cards" / "grosse.toml").is_file()
    capsys.readouterr()


def test_a_job_is_exported_whole_to_anywhere_and_over_nothing(
    kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["jobs", "export", "Boat Shed"]) == 0
    assert "boat-shed.leadsman is the whole job" in capsys.readouterr().out
    (kept / "stick").mkdir()
    assert main(["jobs", "export", "boat-shed", "stick"]) == 0
    assert main(["jobs", "export", "boat-shed", "stick/for-mill-lane.leadsman"]) == 0
    job = job_in(kept / "home" / "jobs" / "boat-shed.leadsman")
    copies = ("boat-shed.leadsman", "stick/boat-shed.leadsman", "stick/for-mill-lane.leadsman")
    for copy in copies:
        assert job_in(kept / copy) == job, copy
    there = set(kept.rglob("*"))
    for words, told in (
        (["boat-shed"], "There is a boat-shed.leadsman already"),
        (["boat-shed", "stick/floor.zip"], "ends in .leadsman: stick/floor.leadsman"),
        (["boat-shed", "nowhere/x.leadsman"], "No copy was made"),
        (["hut"], "There is no job 'hut'"),
        ([], "leadsman jobs export NAME [FOLDER or FILE]"),
    ):
        assert main(["jobs", "export", *words]) == 2
        assert told in " ".join(capsys.readouterr().err.split())
    assert set(kept.rglob("*")) == there, "nothing was left behind"


def test_the_same_files_are_the_same_archive() -> None:
    assert packed(FILES, "floor") == packed(FILES, "floor")


def changed(do: Callable[[dict[str, bytes], dict[str, object]], object]) -> bytes:
    """An archive after something was done to its files or its list."""
    with zipfile.ZipFile(io.BytesIO(packed(FILES, "floor"))) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    contents = json.loads(files.pop("contents.json"))
    do(files, contents)
    return zipped({"contents.json": json.dumps(contents).encode(), **files})


def zipped(files: dict[str, bytes], mode: int = 0o644, name: str = "") -> bytes:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as archive:
        for each, content in files.items():
            info = zipfile.ZipInfo(each)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = (mode if each == name else 0o644) << 16
            archive.writestr(info, content)
    return written.getvalue()


def bomb() -> bytes:
    """A small file that says it is smaller than what comes out of it."""
    content = zipped({"job.leadsman": b"\0" * (LARGEST_MB * 1024 * 1024 + 10)})
    honest = (LARGEST_MB * 1024 * 1024 + 10).to_bytes(4, "little")
    return content.replace(honest, (9).to_bytes(4, "little"))


HOSTILE: dict[str, tuple[Callable[[], bytes], str]] = {
    "a name that leads out": (lambda: zipped({"../evil.csv": b"x"}), "is no name"),
    "a name from the root": (lambda: zipped({"/etc/passwd": b"x"}), "is no name"),
    "a name with a way out in it": (lambda: zipped({"tables/../../x.csv": b"x"}), "is no name"),
    "a drive": (lambda: zipped({"C:\\x.csv": b"x"}), "is no name"),
    "a foreign file": (lambda: zipped({"setup.exe": b"x"}), "is no name"),
    "a link": (
        lambda: zipped({"job.json": b"/etc/passwd"}, stat.S_IFLNK | 0o777, "job.json"),
        "is a link",
    ),
    "a large one": (
        lambda: zipped({"job.json": b"\0" * (LARGEST_MB * 1024 * 1024 + 1)}), "larger than",
    ),
    "one larger than it says": (bomb, "was not opened"),
    "a flipped byte": (
        lambda: changed(lambda files, _: files.update({"job.leadsman": b"recorb"})),
        "job.leadsman is missing, or not as it was packed",
    ),
    "one too many": (
        lambda: changed(lambda files, _: files.update({"job.json": b"{}"})), "job.json is missing",
    ),
    "one too few": (
        lambda: changed(lambda files, _: files.pop("tables/points.csv")),
        "tables/points.csv is missing",
    ),
    "another kind": (
        lambda: changed(lambda _, contents: contents.update(schema="other/1")), "another kind",
    ),
    "no list": (lambda: zipped(FILES), "no list of contents"),
    "a list that is none": (
        lambda: zipped({"contents.json": b"[" * 10_000, **FILES}), "no list of contents",
    ),
    "no archive": (lambda: b"not at all", "no archive, or a damaged one"),
    "half of one": (lambda: packed(FILES, "floor")[:150], "no archive, or a damaged one"),
    "a record that is none": (lambda: packed(FILES, "floor"), "the record in it is"),
}  # fmt: skip


@pytest.mark.parametrize("what", HOSTILE)
def test_what_is_not_as_it_was_packed_is_not_opened(
    what: str, kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    make, why = HOSTILE[what]
    (kept / "bad.zip").write_bytes(make())
    before = set(kept.rglob("*"))
    assert main(["open", "bad.zip"]) == 2
    told = " ".join(capsys.readouterr().err.split())
    assert why in told
    assert "Traceback" not in told
    assert set(kept.rglob("*")) == before, "nothing was left behind"


def test_one_name_twice_is_refused(tmp_path: Path) -> None:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        archive.writestr("job.json", b"1")
        with pytest.warns(UserWarning, match="Duplicate name"):
            archive.writestr("job.json", b"2")
    (tmp_path / "twice.zip").write_bytes(written.getvalue())
    with pytest.raises(LeadsmanError, match="one name twice"):
        unpacked(tmp_path / "twice.zip")


def test_a_name_of_another_kind_is_never_packed() -> None:
    with pytest.raises(ValueError, match="no name in an archive"):
        packed({"../x": b""}, "floor")
