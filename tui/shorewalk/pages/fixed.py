"""Pages that do not depend on a walk: the emergency card, the help, the menu, a question with few answers."""

from __future__ import annotations

from collections.abc import Sequence

from shorewalk.commands import AUTHORS, AUTHORS_TYPED, TYPED, Command, commands_on, key_name
from shorewalk.emergency import CARD
from shorewalk.glossary import GLOSSARY
from shorewalk.lines import BLANK, Line, Span, line, wrap
from shorewalk.marks import AGAIN, GRADES, NOTED, Mark

from .question import READABLE


def card_page(room: int) -> list[Line]:
    """Return the emergency card: the line that saves the helper first, and marked."""
    rows: list[Line] = []
    for number, action in enumerate(CARD, 1):
        role = "danger" if number == 1 else "strong" if number < 5 else "plain"
        rows += wrap(action, room, role, first=(Span(f"{number}  ", "number"),))
        rows += [BLANK] if number in (1, 4) else []
    return rows


def help_page(screen: str, room: int, *, ascii_only: bool) -> list[Line]:
    """Return the help: how to answer, the keys that work here, what the marks mean."""
    text = min(room, READABLE + 8)
    rows: list[Line] = [line(Span("How to answer", "group"))]
    for keys, what in AUTHORS_TYPED if screen in AUTHORS else TYPED:
        rows += _row(keys, what, text)
    rows += [BLANK, line(Span("Keys, while nothing is typed", "group"))]
    for command in commands_on(screen):
        rows += _row(command.keys[0], command.help, text)
    rows += [BLANK, line(Span("Marks", "group"))]
    for mark in FINDINGS.values() if screen in AUTHORS else (*GRADES.values(), AGAIN, NOTED):
        rows += wrap(
            MEANING[mark.word],
            text,
            "plain",
            first=(Span(f"{mark.cell(ascii_only=ascii_only)} {mark.word:<12}", mark.role),),
        )
    if screen not in AUTHORS:
        rows += [BLANK, line(Span("Words", "group"))]
        for word, meaning in GLOSSARY.items():
            rows += _row(word, meaning, text)
    rows += [BLANK, *wrap(SAFETY, text, "quiet")]
    return rows


FINDINGS = {
    "error": Mark("error", GRADES["stop"].mark, GRADES["stop"].ascii, "stop"),
    "warning": Mark("warning", GRADES["watch"].mark, GRADES["watch"].ascii, "watch"),
}
"""How a finding is marked, by its severity."""

MEANING = {
    "error": "mend it before anybody walks this tree",
    "warning": "look at it; nobody can be hurt by it",
    "good": "as it should be",
    "watch": "usable, but keep an eye on it",
    "stop": "not safe to use; the walk leads you out",
    "danger": "hands off, keep others away",
    "read again": "this reading counts for nothing",
    "noted": "kept; not a thing to grade",
}
SAFETY = (
    "Shore power can kill. This is general information. It does not replace a licensed electrician, your "
    "local codes or the makers' instructions, and it cannot see your pedestal."
)


def menu_page(
    title: str, text: Sequence[str], items: Sequence[tuple[int, str]], picked: int | None, room: int
) -> list[Line]:
    """Return a question of the program itself: a title, what there is to say, numbered answers."""
    rows = wrap(title, min(room, READABLE), "question")
    for paragraph in text:
        rows += [BLANK, *wrap(paragraph, min(room, READABLE))]
    rows.append(BLANK)
    for number, says in items:
        pointer, role, ahead = ("▸", "picked", "picked") if number == picked else (" ", "plain", "number")
        rows += wrap(says, min(room, READABLE), role, first=(Span(f"{pointer}{number:>2} ", ahead),))
    return rows


def footer_line(shown: Sequence[Command], after: str = "") -> Line:
    """Return the footer: keys and what they do. `after` is said of letters that need more than a press."""
    parts: list[Span] = []
    for command in shown:
        parts += [Span("  ")] if parts else []
        parts += [Span(key_name(command, after), "key"), Span(f" {command.label}", "quiet")]
    return tuple(parts)


def _row(keys: str, what: str, room: int) -> list[Line]:
    if room < 50:
        return [*wrap(keys, room, "key"), *wrap(what, room, first=(Span("  "),))]
    return wrap(what, room, first=(Span(f"{keys:<22}", "key"),))
