"""The message as codes for a phone's camera, drawn in half blocks, in as many pieces as the window needs."""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache

from shorewalk.lines import Line, Span, line

QUIET = 2
"""Empty modules round the code. The standard asks for four; phones read two on a plain ground."""

HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
LARGEST = 40
SMALLEST = 3


def side(version: int) -> int:
    """Return how many modules a code of this version measures, its empty border included."""
    return 17 + 4 * version + 2 * QUIET


def largest_version(room: int, height: int) -> int:
    """Return the largest version that fits a window, one module a column and two a row; 0 if none does."""
    fits = [version for version in range(1, LARGEST + 1) if side(version) <= min(room, 2 * height)]
    return max(fits, default=0)


@lru_cache(maxsize=4)
def pieces(message: str, version: int) -> tuple[str, ...]:
    """Return the message in pieces that each fit a code of this version, numbered where there are several."""
    if _fits(message, version):
        return (message,)
    found: list[str] = []
    rest = message.split()
    while rest:
        counts = range(1, len(rest) + 1)
        count = bisect_left(counts, 1, key=lambda n: not _fits(f"99/99 {' '.join(rest[:n])}", version))
        found.append(" ".join(rest[: max(1, count)]))
        rest = rest[max(1, count) :]
    return tuple(f"{number}/{len(found)} {piece}" for number, piece in enumerate(found, 1))


def _fits(text: str, version: int) -> bool:
    import segno

    try:
        return int(segno.make_qr(text, error="l").version) <= version
    except segno.DataOverflowError:
        return False


def modules(text: str) -> list[list[bool]]:
    """Return a code by rows, its empty border included; True is a dark module."""
    import segno

    return [[bool(cell) for cell in row] for row in segno.make_qr(text, error="l").matrix_iter(border=QUIET)]


def code_lines(text: str) -> list[Line]:
    """Return one code in half blocks: dark modules are ink on a light ground."""
    return [line(Span(row, "code")) for row in in_halves(modules(text))]


def in_halves(rows: list[list[bool]]) -> list[str]:
    """Return rows of modules in half blocks, two rows a line; True is ink."""
    even = [*rows, [False] * len(rows[0])] if len(rows) % 2 else rows
    return [
        "".join(HALVES[pair] for pair in zip(top, bottom, strict=True))
        for top, bottom in zip(even[::2], even[1::2], strict=True)
    ]
