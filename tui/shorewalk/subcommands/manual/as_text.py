"""The manual as text, as wide as the window."""

from __future__ import annotations

from ..layout import Layout
from .content import Manual


def text_of(manual: Manual) -> str:
    """Return the whole manual."""
    out = Layout()
    out.write_text(f"{manual.name} {manual.version}. {manual.summary}")
    for section in manual.sections:
        out.write("\n")
        if section.deep:
            out.indent()
        out.write_text(section.heading)
        with out.indentation():
            for paragraph in section.paragraphs:
                out.write_text(paragraph)
            if section.deep and section.rows:
                out.write("\n")
            out.write_dl(section.rows)
        if section.deep:
            out.dedent()
    return out.getvalue()
