"""A rule in words: what it holds and why, an example that breaks it and one that keeps it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from textwrap import dedent, indent, wrap

from shorewalk.tree.words import nearest, quoted

from .. import unread
from ..finding import Severity
from ..rule import Rule
from ..rules import RULES

KNOWN = (unread.RULE, *RULES)
"""Every rule a finding can name."""


class NoSuchRuleError(KeyError):
    """There is no rule of that name; the sentence says which is nearest."""

    def __str__(self) -> str:
        return str(self.args[0])


def explain(name: str, width: int = 80) -> str:
    """Return what there is to say of a rule, or of all where no name is given, `width` columns wide.

    Raises `NoSuchRuleError`.
    """
    if not name:
        return _list(width)
    rule = next((rule for rule in KNOWN if rule.id == name), None)
    if rule is None:
        hint = nearest(name, [rule.id for rule in KNOWN])
        message = f"There is no rule {quoted(name)}.{hint} `shorewalk lint --explain` lists them all."
        raise NoSuchRuleError(message)
    return "\n\n".join([rule.id, *_wrapped(_blocks(rule.words), width), _filled(_weight(rule), width)]) + "\n"


def markdown_of(rule: Rule) -> str:
    """Return a rule's words as Markdown, its examples as YAML."""
    return "\n\n".join(
        f"```yaml\n{dedent(block)}\n```" if block.startswith("    ") else block
        for block in _blocks(rule.words)
    )


def _list(width: int) -> str:
    long = max(len(rule.id) for rule in KNOWN) + 2
    if width < long + 40:  # the summaries would stand in a narrow column
        told = [f"{rule.id}\n{indent(_filled(rule.summary, width - 2), '  ')}" for rule in KNOWN]
    else:
        told = [_filled(rule.summary, width, f"{rule.id:{long}}", " " * long) for rule in KNOWN]
    last = _filled("`shorewalk lint --explain RULE` tells more of one.", width)
    return "\n".join([*told, "", last]) + "\n"


def _blocks(words: str) -> list[str]:
    """Return paragraphs and examples; an example is indented, and may have empty lines in it."""
    blocks: list[str] = []
    for block in re.split(r"\n[ ]*\n", words.strip("\n")):
        if block.startswith("    ") and blocks and blocks[-1].startswith("    "):
            blocks[-1] += f"\n\n{block}"
        else:
            blocks.append(block.rstrip())
    return blocks


def _wrapped(blocks: list[str], width: int) -> Iterator[str]:
    for block in blocks:
        lines = block.splitlines()
        if block.startswith("    "):
            yield "\n".join(_code(lines, width))
        elif any(line.startswith("- ") for line in lines):
            items = re.split(r"\n(?=- )", block)
            yield "\n".join(_filled(item, width, "", "  " if item.startswith("- ") else "") for item in items)
        else:
            yield _filled(block, width)


def _code(lines: list[str], width: int) -> Iterator[str]:
    """Yield lines of YAML, those that are too long broken so that they still mean the same."""
    folded: int | None = None  # how deep the key stands whose text is folded (`>`) and goes on below
    for line in lines:
        deep = len(line) - len(line.lstrip())
        if folded is not None and deep <= folded:
            folded = None
        yield from _broken(line, width, " " * (deep if folded is not None else deep + 4))
        if line.endswith((">", ">-")):
            folded = deep


def _broken(line: str, width: int, indent_: str) -> list[str]:
    if len(line) <= width:
        return [line]
    kept = re.sub(r"(?<=[{,])([^{},:]+:) (?=[^{])", r"\1\0", line)  # in braces a key stays with its value
    broken = _lines(kept, width, "", indent_)
    if any(len(each) > width for each in broken):
        return _lines(line, width, "", indent_)
    return [each.replace("\0", " ") for each in broken]


def _filled(text: str, width: int, first: str = "", other: str = "") -> str:
    return "\n".join(_lines(" ".join(text.split()), width, first, other))


def _lines(text: str, width: int, first: str, other: str) -> list[str]:
    return wrap(
        text,
        width,
        initial_indent=first,
        subsequent_indent=other,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _weight(rule: Rule) -> str:
    what = "A finding is an error." if rule.severity is Severity.ERROR else "A finding is a warning."
    if not rule.silenceable:
        return f"{what} It may not be silenced."
    allows = f"`allows: {{{rule.id}: why it may stand}}`"
    return f"{what} It may be silenced with a reason: {allows} in the node, or at the top of the file."
