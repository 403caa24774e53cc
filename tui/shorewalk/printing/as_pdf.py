"""A checklist on pages: a number at the margin, lines to take with their numbers at the right, endings in a box."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from fpdf.enums import XPos, YPos

from shorewalk.paper.letters import plain_letters
from shorewalk.paper.sheet import BLACK, GREY, TEXT

from .as_text import call_words, lead_words, left_of, right_of
from .pdf_lines import BOX, INDENT, Lines, tall_of
from .step import Ahead, Checklist, Drawing, Section, Step

BLANK = 7.5
"""In millimetres: how tall a line to write on is."""

NOTE = 9.0
"""Points of what is to be minded; the question and the lines to take are larger."""

Paper = Literal["a4", "letter"]


def as_pdf(sheet: Checklist, *, made: datetime, paper: Paper) -> bytes:
    """Return the checklist as a PDF; every part begins on a page of its own."""
    title = f"{sheet.title} ({sheet.name})"
    pages = Pages(title=title, made=made, paper=paper, foot=f"Printed {made:%Y-%m-%d}")
    for block in sheet.front:
        if isinstance(block, Drawing):
            pages.drawing(block)
        else:
            pages.put(block)
    for section in sheet.sections:
        pages.section(section)
    return pages.bytes()


class Pages(Lines):
    """Pages that also know steps."""

    def section(self, section: Section) -> None:
        """Begin a page with a section, and put its steps on it."""
        self.add_page()
        self._heading(section.title, 2)
        if len(section.calls) > 1:
            self.put_rows(["Tick the step you come from:"], 0, NOTE)
            self._items([call_words(call) for call in section.calls], "box", 1)
        group = None
        for step in section.steps:
            if step.group and step.group != group and step.kind != "end":
                self._keep(self._step_height(step) + tall_of(TEXT) + 1.5)
                self.ln(1.5)
                self.set_text_color(GREY)
                self._lines(step.group, style="I")
                self.set_text_color(BLACK)
            group = step.group
            self.step(step)

    def drawing(self, drawing: Drawing) -> None:
        """Draw lines that keep their places."""
        tall = tall_of(NOTE) * 0.8
        titles = self.broken(drawing.title, self.epw - 1, NOTE)
        self._keep(len(drawing.rows) * tall + len(titles) * tall_of(NOTE))
        self.put_rows(titles, 0, NOTE)
        self.set_font("courier", size=NOTE)
        for row in drawing.rows:
            self.cell(0, tall, plain_letters(row), new_x=XPos.LMARGIN, new_y=YPos.NEXT)
        self.ln(2)

    def step(self, step: Step) -> None:
        """Put one step, whole, on a page."""
        self._keep(self._step_height(step))
        top, page = self.get_y(), self.page
        self.set_font("helvetica", style="B", size=TEXT + 1)
        self.set_x(self.l_margin)
        self.cell(INDENT - 2, tall_of(TEXT), str(step.number))
        self.put_led(_does(step), step.text)
        for lead, text in step.lines:
            if step.kind == "end":
                self.put_led(f"{lead}:", text)
            else:
                self.put_rows(self.broken(lead_words(lead, text), self.epw - INDENT - 1, NOTE), INDENT, NOTE)
        for load in step.loads:
            self.tick()
            self.put_rows([plain_letters(f"{load}   x ___")], INDENT + BOX)
        self._blanks(step)
        for line in step.ahead:
            self._ahead(line, step.number)
        if step.kind == "end" and page == self.page:
            self.set_draw_color(BLACK)
            self.set_line_width(0.5)
            self.rect(self.l_margin - 2, top - 0.8, self.epw + 4, self.get_y() - top + 1.6)
            self.set_line_width(0.2)
        self.ln(4 if step.kind == "end" else 2.6)

    def _blanks(self, step: Step) -> None:
        """Draw lines to write on, each with what belongs there and its unit."""
        x = self.l_margin + INDENT
        for at, field in enumerate(step.fields):
            name, _, unit = field.partition("|")
            label, unit = plain_letters(name) + " ", " " + plain_letters(unit)
            if at and at % 2 == 0:
                self.ln(BLANK)
                x = self.l_margin + INDENT
            self.set_font("helvetica", size=TEXT)
            self.set_x(x)
            self.cell(self.get_string_width(label) + 1, BLANK, label)
            start = self.get_x()
            self.set_draw_color(GREY)
            self.line(start, self.get_y() + 5.8, start + 24, self.get_y() + 5.8)
            self.set_x(start + 24)
            self.cell(self.get_string_width(unit) + 1, BLANK, unit)
            x = self.get_x() + 6
        if step.fields:
            self.ln(BLANK)

    def _ahead(self, line: Ahead, number: int) -> None:
        """Put a line to take: its words at the left, dots, grade and number at the right."""
        right, room = plain_letters(right_of(line)), self._room(line)
        *most, last = self.broken(left_of(line), room)
        if self.will_page_break(
            (len(most) + 1) * tall_of(TEXT)
        ):  # only of a step that fills more than a page
            self.add_page()
            self.put_rows([f"Step {number} goes on. The lines on the page before come first."], 0)
        if line.tick:
            self.tick()
        self.put_rows(most, INDENT + BOX)
        self.set_font("helvetica", size=TEXT)
        self.set_x(self.l_margin + INDENT + BOX)
        self.cell(room, tall_of(TEXT), last)
        start = self.l_margin + INDENT + BOX + self.wide(last) + 3
        end = self.w - self.r_margin - self.wide(right, TEXT, "B") - 3
        base = self.get_y() + tall_of(TEXT) * 0.7
        if start < end:
            self.set_draw_color(GREY)
            self.set_dash_pattern(dash=0.3, gap=1.2)
            self.line(start, base, end, base)
            self.set_dash_pattern()
        self.set_font("helvetica", style="B", size=TEXT)
        self.set_x(end)
        self.cell(
            self.w - self.r_margin - end, tall_of(TEXT), right, align="R", new_x=XPos.LMARGIN, new_y=YPos.NEXT
        )

    def _room(self, line: Ahead) -> float:
        """Return how wide the words of a line to take may be."""
        return self.epw - INDENT - BOX - self.wide(plain_letters(right_of(line)), TEXT, "B") - 6

    def _step_height(self, step: Step) -> float:
        """Return how tall a step stands, in millimetres."""
        tall = self.tall_led(_does(step), step.text)
        for lead, text in step.lines:
            if step.kind == "end":
                tall += self.tall_led(f"{lead}:", text)
            else:
                tall += len(self.broken(lead_words(lead, text), self.epw - INDENT - 1, NOTE)) * tall_of(NOTE)
        tall += len(step.loads) * tall_of(TEXT) + BLANK * -(-len(step.fields) // 2)
        return tall + sum(len(self.broken(left_of(line), self._room(line))) for line in step.ahead) * tall_of(
            TEXT
        )


def _does(step: Step) -> str:
    return f"{step.does}{'.' if step.kind == 'end' else ':'}"
