"""The manual as a page for `man`, in the macros that all of them know."""

from __future__ import annotations

from collections.abc import Iterator

from .content import Manual, Section


def roff_of(manual: Manual) -> str:
    """Return the page. It has no date: the same commands give the same bytes."""
    head = f'.TH {manual.name.upper()} 1 "" "{manual.name} {manual.version}"'
    name = f"{manual.name} \\- {_escaped(manual.summary.rstrip('.'))}"
    lines = (line for section in manual.sections for line in _section(section))
    return "\n".join([head, ".SH NAME", name, *lines]) + "\n"


def _section(section: Section) -> Iterator[str]:
    yield f'.{"SS" if section.deep else "SH"} "{_escaped(section.heading)}"'
    for paragraph in section.paragraphs:
        yield from (".PP", _line(paragraph))
    for term, means in section.rows:
        yield from (".TP", f".B {_escaped(term)}", _line(means))


def _line(text: str) -> str:
    """Return a line of running text; one that begins with a dot or a quote would be an order."""
    text = _escaped(text)
    return f"\\&{text}" if text.startswith((".", "'")) else text


def _escaped(text: str) -> str:
    """Return text as it is to be seen: a hyphen as it is typed, and every letter in ASCII."""
    marks = {"\\": "\\e", "-": "\\-", '"': "\\(dq", "'": "\\(aq", "`": "\\(ga", "^": "\\(ha", "~": "\\(ti"}
    return "".join(
        marks.get(letter, letter if letter.isascii() else f"\\[u{ord(letter):04X}]") for letter in text
    )
