"""Drawing blocks on pages with fpdf2; imported only where a PDF is made."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from fpdf import FPDF
from fpdf.enums import MethodReturnValue, TableBordersLayout, XPos, YPos
from fpdf.fonts import FontFace

from .blocks import Block, Fields, Heading, Items, NewPage, Quote, Rows, Text
from .letters import plain_letters

MARGIN = 18
"""In millimetres, on all sides; home printers print no closer than about 6 (common practice)."""

SIZES = {1: 17, 2: 12.5, 3: 11}
TEXT, SMALL = 10, 8
LEADING = 1.35
GREY, BLACK = 90, 0
POINT = 25.4 / 72


def _height(size: float) -> float:
    """Return the height of a line in millimetres, for a size in points."""
    return size * LEADING * POINT


class Sheet(FPDF):
    """A document that blocks are put on, one under the other."""

    def __init__(self, *, title: str, made: datetime, paper: str, foot: str) -> None:
        super().__init__(unit="mm", format=paper)
        self._title, self._foot = plain_letters(title), plain_letters(foot)
        self.set_title(self._title)
        self.set_lang("en")
        self.set_creation_date(made)
        self.set_margin(MARGIN)
        self.set_auto_page_break(auto=True, margin=MARGIN + _height(SMALL))
        self.set_font("helvetica", size=TEXT)
        self.add_page()

    def bytes(self) -> bytes:
        """Return the whole document."""
        return bytes(self.output())

    def put(self, block: Block) -> None:
        """Draw one block under what is there."""
        match block:
            case Heading(text, level):
                self._heading(text, level)
            case Text(text, lead):
                self._text(text, lead)
            case Quote(text):
                self._quote(text)
            case Items(items, kind, first):
                self._items(items, kind, first)
            case Rows():
                self._rows(block)
            case Fields(names):
                self._fields(names)
            case NewPage():
                self.add_page()

    def header(self) -> None:
        """Every page but the first says what it belongs to."""
        if self.page_no() > 1:
            self._at_edge(self._title, self.t_margin - _height(SMALL) - 2)
            self.set_y(self.t_margin)

    def footer(self) -> None:
        """Every page says which it is, of how many: a page that is missing is noticed."""
        y = self.h - MARGIN
        self._at_edge(self._foot, y)
        self.set_xy(self.l_margin, y)
        self.set_font("helvetica", size=SMALL)
        self.set_text_color(GREY)
        self.cell(self.epw, _height(SMALL), f"Page {self.page_no()} of {{nb}}", align="R")
        self.set_text_color(BLACK)

    def _at_edge(self, text: str, y: float) -> None:
        self.set_xy(self.l_margin, y)
        self.set_font("helvetica", size=SMALL)
        self.set_text_color(GREY)
        room = self.epw - 28  # what the number of the page needs
        while self.get_string_width(text) > room:
            text = text[:-4].rstrip() + "..."
        self.cell(room, _height(SMALL), text)
        self.set_text_color(BLACK)

    def _lines(self, text: str, *, size: float = TEXT, style: str = "", indent: float = 0) -> None:
        self.set_font("helvetica", style=style, size=size)
        self.set_x(self.l_margin + indent)
        self.multi_cell(
            self.epw - indent,
            _height(size),
            plain_letters(text),
            align="L",
            new_x=XPos.LMARGIN,
            new_y=YPos.NEXT,
        )

    def _heading(self, text: str, level: int) -> None:
        size = SIZES[level]
        if self.get_y() > self.t_margin:
            self.ln(_height(size) * 0.5)
        self._keep(_height(size) + 2 * _height(TEXT))  # no heading is left alone at the foot of a page
        self.start_section(plain_letters(text), level=level - 1, strict=False)
        self._lines(text, size=size, style="B")
        self.ln(1.2)

    def _text(self, text: str, lead: str) -> None:
        if not lead:
            self._lines(text)
        else:
            self.set_font("helvetica", style="B", size=TEXT)
            self.write(_height(TEXT), plain_letters(lead) + " ")
            self.set_font("helvetica", size=TEXT)
            self.write(_height(TEXT), plain_letters(text))
            self.ln(_height(TEXT))
        self.ln(1.6)

    def _quote(self, text: str) -> None:
        self.set_font("helvetica", size=TEXT)
        self._keep(self._tall(text, self.epw - 5) + 2)
        top = self.get_y()
        self._lines(text, indent=5)
        self.set_draw_color(GREY)
        self.set_line_width(0.6)
        self.line(self.l_margin + 1.5, top, self.l_margin + 1.5, self.get_y())
        self.set_line_width(0.2)
        self.ln(1.6)

    def _items(self, items: Iterable[str], kind: str, first: int) -> None:
        indent = 7.0 if kind != "dot" else 5.0
        for number, item in enumerate(items, first):
            self.set_font("helvetica", size=TEXT)
            self._keep(self._tall(item, self.epw - indent))
            top, page = self.get_y(), self.page
            self._mark(kind, number, top)
            self.set_xy(self.l_margin, top)
            self._lines(item, indent=indent)
            if page == self.page:
                self.ln(0.6 if kind == "dot" else 1.2)
        self.ln(1.0)

    def _mark(self, kind: str, number: int, top: float) -> None:
        middle = top + _height(TEXT) / 2
        if kind == "box":
            self.set_draw_color(BLACK)
            self.rect(self.l_margin + 0.5, middle - 1.8, 3.6, 3.6)
        elif kind == "number":
            self.set_xy(self.l_margin, top)
            self.cell(6, _height(TEXT), f"{number}.")
        else:
            self.set_fill_color(BLACK)
            self.circle(self.l_margin + 1.8, middle, 0.6, style="F")

    def _rows(self, block: Rows) -> None:
        self.set_font("helvetica", size=SMALL)
        self.set_draw_color(GREY)
        self.set_line_width(0.1)
        with self.table(
            col_widths=block.widths or None,
            text_align="LEFT",
            v_align="TOP",
            borders_layout=TableBordersLayout.HORIZONTAL_LINES,
            line_height=_height(SMALL),
            padding=0.8,
            headings_style=FontFace(emphasis="BOLD"),
        ) as table:
            for cells in (block.head, *block.rows):
                row = table.row()
                for cell in cells:
                    row.cell(plain_letters(cell))
        self.set_line_width(0.2)
        self.set_font("helvetica", size=TEXT)
        self.ln(2.4)

    def _fields(self, names: Iterable[str]) -> None:
        for name in names:
            self.set_font("helvetica", size=TEXT)
            self._keep(8)
            label = plain_letters(name) + ": "
            self.cell(self.get_string_width(label) + 2, 8, label)
            foot = self.get_y() + 6.2
            self.set_draw_color(GREY)
            self.line(self.get_x(), foot, self.w - self.r_margin, foot)
            self.ln(8)
        self.ln(1.0)

    def _tall(self, text: str, room: float) -> float:
        """Return how tall text will stand, in millimetres, in the font that is set."""
        tall = self.multi_cell(
            room,
            self.font_size * LEADING,
            plain_letters(text),
            align="L",
            dry_run=True,
            output=MethodReturnValue.HEIGHT,
        )
        assert isinstance(tall, float)  # noqa: S101 (what the return value asked for is)
        return tall

    def _keep(self, tall: float) -> None:
        """Begin a new page where what follows would be torn in two, unless it fills a page by itself."""
        if self.will_page_break(tall) and tall < self.eph:
            self.add_page()
