"""Tables as plain lines: columns that fit the page, without frames."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from assistant.reply.replies import Table

GAP = 2
"""Blanks between columns."""

LONG = 12
"""Rows from which a narrow table is folded into blocks side by side."""

BLOCK_GAP = 6
"""Blanks between blocks: plainly more than between columns."""

LEAST_PROSE = 18
"""A column of sentences is not squeezed below this: shorter lines are hard to read."""

Cells = Sequence[str]


def lay_out(table: Table, width: int) -> list[str]:
    """Header, rule and rows, no wider than `width` where the words allow; no title."""
    rows = [_full(row, len(table.columns)) for row in table.rows]
    if not table.columns:
        return []
    widths = _widths([table.columns, *rows])
    whole = sum(widths) + GAP * (len(widths) - 1)
    if whole > width:
        squeezed = _squeezed(table.columns, rows, width)
        return (
            _stacked(table.columns, rows, width)
            if squeezed is None
            else _block(table.columns, rows, squeezed)
        )
    blocks = (width + BLOCK_GAP) // (whole + BLOCK_GAP)
    if len(rows) <= LONG or blocks < 2:
        return _block(table.columns, rows, widths)
    return _side_by_side(table.columns, rows, widths, blocks)


def _full(row: Cells, columns: int) -> list[str]:
    """A row with as many cells as there are columns."""
    return [*row[:columns], *[""] * (columns - len(row))]


def _widths(rows: Sequence[Cells]) -> list[int]:
    return [max(1, *(len(cell) for cell in column)) for column in zip(*rows, strict=True)]


def _squeezed(columns: Cells, rows: Sequence[Cells], width: int) -> list[int] | None:
    """
    Widths that fit, or None where there are none.

    Headers break over lines first, then the widest column where it holds sentences.
    A name or a length is never broken.
    """
    room = width - GAP * (len(columns) - 1)
    widths = _widths([columns, *rows])
    least = [
        max(1, *(len(cell) for cell in (*header.split(), *cells, "")))
        for header, *cells in zip(columns, *rows, strict=True)
    ]
    widest = least.index(max(least))
    if widest > 0:  # the first column holds names
        least[widest] = min(least[widest], LEAST_PROSE)
    if sum(least) > room:
        return None
    while sum(widths) > room:
        spare = [wide - narrow for wide, narrow in zip(widths, least, strict=True)]
        # Others shrink before the widest column, those with most to spare first.
        others = [0 if i == widest else give for i, give in enumerate(spare)]
        give = others if any(others) else spare
        widths[give.index(max(give))] -= 1
    return widths


def _stacked(columns: Cells, rows: Sequence[Cells], width: int) -> list[str]:
    """Each row as a name and, under it, a line for each of its columns."""
    # A single column needs no header.
    headers = columns[1:] if len(columns) > 2 else [""] * (len(columns) - 1)
    beside = max((len(header) + GAP for header in headers if header), default=0)
    beside = min(beside, width // 2)
    lines: list[str] = []
    for row in rows:
        lines += textwrap.wrap(row[0], width)
        for header, cell in zip(headers, row[1:], strict=True):
            if cell:
                lines += _told(header, cell, beside, width)
    return lines


def _told(header: str, cell: str, beside: int, width: int) -> list[str]:
    """A header and its cell, with all cells in line where the headers leave room."""
    margin = "  "
    first = f"{margin}{header}".ljust(len(margin) + beside)
    then = " " * len(first)
    if len(header) + 1 > beside:
        return [
            *textwrap.wrap(header, width, initial_indent=margin, subsequent_indent=margin),
            *textwrap.wrap(cell, width, initial_indent=margin * 2, subsequent_indent=margin * 2),
        ]
    return textwrap.wrap(cell, width, initial_indent=first, subsequent_indent=then)


def _side_by_side(
    columns: Cells, rows: Sequence[Cells], widths: list[int], blocks: int
) -> list[str]:
    """Blocks of rows side by side, each read down before the next."""
    each = -(-len(rows) // min(blocks, -(-len(rows) // LONG)))
    parts = [rows[start : start + each] for start in range(0, len(rows), each)]
    drawn = [_block(columns, part, widths, rows) for part in parts]
    whole = sum(widths) + GAP * (len(widths) - 1)
    gap = " " * BLOCK_GAP
    return [
        gap.join(part[i].ljust(whole) if i < len(part) else "" for part in drawn).rstrip()
        for i in range(len(drawn[0]))
    ]


def _block(
    columns: Cells, rows: Sequence[Cells], widths: list[int], all_rows: Sequence[Cells] = ()
) -> list[str]:
    right = [_is_number_column(i, all_rows or rows) for i in range(len(columns))]
    lines = _row(columns, widths, right)
    lines.append((" " * GAP).join("-" * width for width in widths))
    for row in rows:
        lines += _row(row, widths, right)
    return lines


def _row(cells: Cells, widths: list[int], right: list[bool]) -> list[str]:
    """One row; a cell too wide goes on in the next line under itself."""
    wrapped = [textwrap.wrap(c, w) or [""] for c, w in zip(cells, widths, strict=True)]
    lines = []
    for i in range(max(len(cell) for cell in wrapped)):
        parts = [
            (cell[i] if i < len(cell) else "").rjust(width)
            if is_right
            else (cell[i] if i < len(cell) else "").ljust(width)
            for cell, width, is_right in zip(wrapped, widths, right, strict=True)
        ]
        lines.append((" " * GAP).join(parts).rstrip())
    return lines


def _is_number_column(index: int, rows: Sequence[Cells]) -> bool:
    """Numbers stand under each other by their last digit and unit; names by their first letter."""
    cells = [row[index] for row in rows if row[index]]
    return index > 0 and bool(cells) and all(cell.lstrip("+-")[:1].isdigit() for cell in cells)
