"""Reading a PDF back: its words, and its pages as pictures."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import numpy as np
import pypdfium2
from numpy.typing import NDArray
from pypdf import PdfReader

DOTS = 4
"""Dots of a picture for each millimetre."""

INK = 128
"""A dot darker than this is ink."""

Dots = NDArray[np.bool_]


def reader_of(pdf: bytes) -> PdfReader:
    return PdfReader(BytesIO(pdf))


def words_of(pdf: bytes, *besides: str) -> list[str]:
    """Return the words of all pages in order, without lines that head or foot each page and begin so."""
    lines = [line for page in reader_of(pdf).pages for line in page.extract_text().splitlines()]
    return " ".join(line for line in lines if not line.startswith(besides)).split()


def pictures_of(pdf: bytes) -> list[NDArray[np.uint8]]:
    """Return each page as rows of dots of red, green and blue."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        return [_picture(document[at]) for at in range(len(document))]
    finally:
        document.close()


def _picture(page: Any) -> NDArray[np.uint8]:
    bitmap = page.render(scale=DOTS * 25.4 / 72)
    picture = np.array(bitmap.to_numpy(), dtype=np.uint8)
    bitmap.close()
    page.close()
    return picture


def ink_of(picture: NDArray[np.uint8]) -> Dots:
    """Return which dots of a page are dark."""
    dark: Dots = picture.min(axis=2) < INK
    return dark


def at(millimetres: float) -> int:
    """Return the row or column of a picture."""
    return round(millimetres * DOTS)
