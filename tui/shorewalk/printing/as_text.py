"""A checklist as plain text of a given width, for a terminal or a printer of lines."""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.author.draw.rows import rows_of
from shorewalk.lines import cells
from shorewalk.paper.blocks import Block, Fields, Heading, Items, NewPage, Quote, Rows, Text

from .desk import graded
from .step import Ahead, Call, Checklist, Drawing, Section, Step

LEADER, BLANK = ".", "_"
INDENT = 5
RIGHT = 30
"""Most cells for grade and arrow at the right end of a line to take; what is longer goes to a line of its own."""


def as_text(sheet: Checklist, width: int, *, pages: bool = False) -> str:
    """Return the checklist in lines of at most `width` cells; with `pages`, a form feed before every part."""
    rows = [row for block in sheet.front for row in _block(block, width)]
    for section in sheet.sections:
        rows += ["\f" + "=" * width if pages else "=" * width, *_section(section, width)]
    return "\n".join(row.rstrip() for row in rows) + "\n"


def _section(section: Section, width: int) -> Iterator[str]:
    yield from rows_of(section.title.upper(), width)
    yield "=" * width
    if len(section.calls) > 1:
        yield ""
        yield from _put("Tick the step you come from:", "", width, 0)
        for call in section.calls:
            yield from _put(call_words(call), "[ ] ", width, 0)
    group = None
    for step in section.steps:
        if step.group and step.group != group and step.kind != "end":
            yield ""
            yield from rows_of(f"-- {step.group} --", width)
        group = step.group
        yield ""
        yield from _step(step, width)


def call_words(call: Call) -> str:
    """Return a step that a part is done from, and what it is given there."""
    given = "; ".join(f"[{name}] = {says}" for name, says in call.given)
    return f"step {call.number}{f': {given}' if given else ''}"


def _step(step: Step, width: int) -> Iterator[str]:
    head = f"{step.number:>3}  "
    if step.kind == "end":
        yield "+" + "-" * (width - 1)
        yield from _put(f"{step.does.upper()}", head, width, 0)
        yield from _put(step.text, " " * INDENT, width, 0)
    else:
        yield from _put(f"{step.does.upper()}: {step.text}", head, width, 0)
    for lead, text in step.lines:
        yield from _put(lead_words(lead, text), " " * INDENT, width, 2)
    for load in step.loads:
        yield from _put(f"{load}   x ___", f"{' ' * INDENT}[ ] ", width, 0)
    if step.fields:
        yield from _fields(step, width)
    for line in step.ahead:
        yield from _ahead(line, width)
    if step.kind == "end":
        yield "+" + "-" * (width - 1)


def lead_words(lead: str, text: str) -> str:
    """Return a line with what stands before it."""
    return f"{lead}{'' if lead.endswith('?') else ':'} {text}" if lead else text


def left_of(line: Ahead) -> str:
    """Return the words of a line to take."""
    return f"{line.says} ({line.note})" if line.note else line.says


def right_of(line: Ahead) -> str:
    """Return what stands at its right end: the grade, and where it goes."""
    return " ".join(filter(None, (graded(line.grade), line.goes)))


def _fields(step: Step, width: int) -> Iterator[str]:
    """Yield blanks to write on, as many a line as there is room for."""
    row = " " * INDENT
    for field in step.fields:
        name, _, unit = field.partition("|")
        cell = f"{name} {BLANK * 9} {unit}".rstrip()
        if len(row) > INDENT and cells(row) + cells(cell) + 3 > width:
            yield row
            row = " " * INDENT
        row += (" " * 3 if len(row) > INDENT else "") + cell
    yield row


def _ahead(line: Ahead, width: int) -> Iterator[str]:
    mark = "[ ] " if line.tick else "  - "
    says, right = left_of(line), right_of(line)
    inset = " " * INDENT + mark
    *most, last = list(rows_of(says, width - len(inset) - min(RIGHT, cells(right)) - 3)) or [""]
    for at, row in enumerate(most):
        yield (inset if at == 0 else " " * len(inset)) + row
    ahead = (" " * len(inset) if most else inset) + last
    room = width - cells(ahead) - cells(right) - 2
    if room < 0:
        yield ahead
        yield from _put(right, " " * len(inset), width, 0)
    else:
        yield f"{ahead} {LEADER * room} {right}"


def _put(text: str, head: str, width: int, more: int) -> Iterator[str]:
    """Yield a text behind `head`, later lines under it and `more` further in."""
    for at, row in enumerate(rows_of(text, width - len(head) - more)):
        yield (head if at == 0 else " " * (len(head) + more)) + row


def _block(block: Block | Drawing, width: int) -> Iterator[str]:
    match block:
        case Drawing(title, rows):
            yield ""
            yield from rows_of(title, width)
            yield from rows
        case Heading(text, level):
            yield ""
            yield from rows_of(text.upper() if level == 1 else text, width)
            yield ("=" if level == 1 else "-") * min(width, cells(text))
        case Text(text, lead):
            yield ""
            yield from rows_of(f"{lead} {text}".strip(), width)
        case Quote(text):
            yield from _put(text, "  | ", width, 0)
        case Items(items, kind, first):
            for number, item in enumerate(items, first):
                yield from _put(item, {"box": "[ ] ", "number": f"{number:>2}. "}.get(kind, " -  "), width, 0)
        case Rows(head, rows):
            for row in rows:
                yield from _put(
                    "; ".join(f"{name}: {cell}" for name, cell in zip(head, row, strict=True)),
                    " -  ",
                    width,
                    0,
                )
        case Fields(names):
            for name in names:
                yield f"{name}: {BLANK * max(3, width - cells(name) - 2)}"
        case NewPage():
            yield "\f"
