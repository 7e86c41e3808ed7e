"""A report as a PDF that is read aloud as well as read: tagged, PDF/UA-1 and PDF/A-2a."""

from __future__ import annotations

import json
import unicodedata
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import asdict
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.errors import LeadsmanError
from assistant.handover.extras import needed
from assistant.handover.report.contents import Report

if TYPE_CHECKING:
    import typst

_TALLEST_MM = 190
_ON_ONE_PAGE_MM = range(35, 181, 5)
"""How tall the plan of the short form may be; the largest that leaves it on one page is taken."""
_TEMPLATE = Path(__file__).with_name("page.typ")
_SIGNS = Path(__file__).with_name("signs.typ")


def page_pdf(report: Report, time: datetime, *, short: bool = False) -> bytes:
    """
    The PDF, made at a time. LeadsmanError where typst is not installed.

    Only the fonts in its package are used, so that every machine makes the same file.
    """
    with needed("A report as PDF", "report"):
        import typst
    compiler = typst.Compiler(str(_TEMPLATE), ignore_system_fonts=True)
    data = {**asdict(report), "short": short}
    signs = "".join(sorted(set(json.dumps(data, ensure_ascii=False))))
    lacking = set(signs_lacking(signs))
    # A mark that can be shown by itself may not be on the sign before it.
    for more in ("", filter(unicodedata.combining, signs), filter(_is_far, signs)):
        told = _told(data, sorted(lacking.union(more)))
        tallest = _tallest_mm(compiler, told) if short else _TALLEST_MM
        try:
            found = compiler.compile(
                format="pdf",
                pdf_standards=["ua-1", "a-2a"],
                timestamp=time.replace(microsecond=0),
                sys_inputs={"report": told, "tallest": str(tallest)},
            )
        except typst.TypstError as why:
            fault = why
        else:
            assert isinstance(found, bytes)
            return found
    raise LeadsmanError(
        f"The PDF cannot be set: {fault}. Without --pdf the page can be written."
    ) from fault


def _is_far(sign: str) -> bool:
    """Whether a sign is outside of Latin, and of the punctuation that our own sentences have."""
    return ord(sign) > 0x24F and not 0x2000 <= ord(sign) < 0x2C00


def _told(data: dict[str, object], lacking: Sequence[str]) -> str:
    """The report as JSON, in which each sign that the fonts lack is its number."""
    told = json.dumps({**data, "lacking": bool(lacking)}, ensure_ascii=False)
    for sign in lacking:
        number = sign.encode("unicode_escape").decode("ascii")
        told = told.replace(sign, f"\\{number}")  # a backslash is two of them in JSON
    return told


def signs_lacking(signs: str) -> str:
    """
    Which of some signs the fonts of typst's package lack.

    A PDF in which one could not be shown is none by the standards, and is not made.

    >>> signs_lacking("aé")
    ''
    """
    import typst

    def lacking(some: str) -> str:
        inputs = {"signs": json.dumps(list(some))}
        try:
            compiler.compile(format="pdf", pdf_standards=["ua-1", "a-2a"], sys_inputs=inputs)
        except typst.TypstError:
            if len(some) == 1:
                return some
            half = len(some) // 2
            return lacking(some[:half]) + lacking(some[half:])
        return ""

    others = "".join(sign for sign in signs if not sign.isascii())
    if not others:
        return ""
    compiler = typst.Compiler(str(_SIGNS), ignore_system_fonts=True)
    return lacking(others)


def _tallest_mm(compiler: typst.Compiler, told: str) -> int:
    """How tall a plan leaves it on one page; the smallest where none does."""

    def is_over(tallest: int) -> bool:
        return int(_pages(compiler, {"report": told, "tallest": str(tallest)})) > 1

    first_over = bisect_left(_ON_ONE_PAGE_MM, True, key=is_over)
    return _ON_ONE_PAGE_MM[max(first_over - 1, 0)]


def _pages(compiler: typst.Compiler, inputs: dict[str, str]) -> str:
    """How many pages it comes to, as JSON."""
    compiler.compile(format="pdf", sys_inputs=inputs)
    return str(compiler.query("<pages>", field="value", one=True))
