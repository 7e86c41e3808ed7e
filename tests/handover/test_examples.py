"""The reports that are kept to be looked at are those of the days as they stand."""

from __future__ import annotations

import io

import pypdf
import pytest

from demo.make_reports import DAYS, FOLDER, pages, words_of


@pytest.mark.slow
def test_the_kept_reports_are_true(capsys: pytest.CaptureFixture[str]) -> None:
    old = [
        name for name, page in pages() if words_of((FOLDER / name).read_bytes()) != words_of(page)
    ]
    capsys.readouterr()
    assert not old, "python -m demo.make_reports writes them anew"


def test_the_kept_briefs_are_a_page_each() -> None:
    for day in DAYS:
        content = (FOLDER / f"{day}-brief.pdf").read_bytes()
        assert len(pypdf.PdfReader(io.BytesIO(content)).pages) == 1
