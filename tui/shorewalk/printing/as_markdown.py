"""A checklist as Markdown: what authors wrote shows as text, never as markup."""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.author.draw.rows import rows_of
from shorewalk.paper.markdown import as_markdown as blocks_as_markdown
from shorewalk.paper.markdown import shown

from .as_text import call_words, lead_words, left_of, right_of
from .step import Ahead, Checklist, Drawing, Section, Step


def as_markdown(sheet: Checklist) -> str:
    """Return the checklist as Markdown; every step is a heading, so that a viewer lists them."""
    rows: list[str] = []
    for block in sheet.front:
        if isinstance(block, Drawing):
            rows += [_seen(block.title), "```text\n" + "\n".join(block.rows) + "\n```"]
        else:
            rows.append(blocks_as_markdown([block]).rstrip("\n"))
    for section in sheet.sections:
        rows += ["---", *_section(section)]
    return "\n\n".join(rows) + "\n"


def _section(section: Section) -> Iterator[str]:
    yield f"## {_seen(section.title)}"
    if len(section.calls) > 1:
        yield "Tick the step you come from:"
        yield "\n".join(f"- [ ] {_seen(call_words(call))}" for call in section.calls)
    for step in section.steps:
        yield from _step(step)


def _step(step: Step) -> Iterator[str]:
    yield f"### {step.number}. {_seen(step.does)}"
    yield f"**{_seen(step.text)}**" if step.kind != "end" else _seen(step.text)
    lines = [lead_words(lead, text) for lead, text in step.lines]
    fields = [f"{' _________ '.join(field.split('|'))}".rstrip() for field in step.fields]
    if lines:
        yield "\n\n".join(map(_seen, lines))
    if step.loads:
        yield "\n".join(f"- [ ] {_seen(load)} x \\_\\_\\_" for load in step.loads)
    if fields:
        yield "\n\n".join(map(_seen, fields))
    if step.ahead:
        yield "\n".join(map(_ahead, step.ahead))


def _ahead(line: Ahead) -> str:
    return f"- {'[ ] ' if line.tick else ''}{_seen(left_of(line))}: **{_seen(right_of(line))}**"


def _seen(text: str) -> str:
    """Return text that shows as it stands; what cannot be seen is a question mark."""
    return shown(" ".join(rows_of(text, 10_000)))
