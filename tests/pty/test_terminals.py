"""Every terminal: by name, by size, by locale. Each walk goes from the start to an ending.

Not every name at every size in every locale: every name is seen at every size, for the window changes its size at
every question; every name with a locale of UTF-8 and with one that is not; every locale at every size.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import partial
from itertools import cycle
from typing import TYPE_CHECKING

import pytest

from shorewalk.exits import Exit
from shorewalk.pages.options import options_of
from shorewalk.sections import headers_in, sections_of
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Measure
from shorewalk.walk.message import ending

from ..bench.terminal import UTF_8
from ..bench.walker import PAGE_DOWN, asked, beginning, give_in_app, keys_in_plain, painted, read_on, steps

if TYPE_CHECKING:
    from .conftest import Open, Terminal

TERMS = (
    "xterm-256color",
    "xterm-direct",
    "xterm-16color",
    "linux",
    "vt100",
    "vt220",
    "screen",
    "screen-256color",
    "tmux",
    "tmux-256color",
)
SIZES = ((80, 24), (40, 16), (40, 20), (45, 25), (60, 20), (120, 40), (200, 60))
OTHERS: tuple[dict[str, str], ...] = ({"LANG": "C"}, {"LC_ALL": "POSIX"}, {"LANG": "en_US.ISO-8859-1"}, {})
"""Locales that are not UTF-8: two that are always there, one that is not installed here, none at all."""
COURSE = "lights-dim-battery-empty"

CASES = [
    pytest.param(term, locale, number, id=f"{term}-{'-'.join(locale.values()) or 'unset'}")
    for number, term in enumerate(TERMS)
    for locale in (UTF_8, OTHERS[number % len(OTHERS)])
]
CODES = re.compile(rb"\x1b\[([\d;]*)m")
MARKS = {b"", b"0", b"1", b"4", b"7"}
"""Codes that a terminal without colours has too."""


def unclipped(window: Terminal, columns: int, rows: int, prompt: str) -> bool:
    """Tell whether the prompt and the two ways out are where they belong, and nothing is beyond the window."""
    footer = window.trimmed[rows - 1]
    return (
        f"{prompt} >" in window.text
        and footer.startswith("! emergency")
        and "q leave" in footer
        and not any(line[columns:].strip() for line in window.screen.display)
        and not any(line.strip() for line in window.screen.display[rows:])
    )


def both(there: Callable[[str], bool], fits: Callable[[], bool]) -> Callable[[str], bool]:
    """Return whether the question is there and everything is where it belongs."""
    return lambda text: there(text) and fits()


def walked(window: Terminal, sizes: Iterator[tuple[int, int]]) -> None:
    """Walk from the start to the ending, at another size at every question."""
    window.wait_for("What is going on?")
    names = [header.name for header in headers_in(sections_of(shipped()))]
    window.type(f"{names.index('lights-dim') + 1}")
    window.wait_for("Which one >")
    window.type("\r")
    window.wait_for("Enter alone")  # which site; passed by
    window.type("\r")
    for walk, answer in steps(COURSE):
        columns, rows = next(sizes)
        window.resize(columns, rows)
        prompt = "Meter shows" if isinstance(walk.now.node, Measure) else "Number"
        fits = partial(unclipped, window, columns, rows, prompt)
        window.wait_until(both(painted(walk, columns), fits), walk.now.text)
        said = read_on(window, PAGE_DOWN if answer is None else "\r")
        assert fits(), "\n".join(window.lines)
        if answer is None:
            assert beginning(ending(walk).safe_action, 2) in said
            break
        for option in options_of(walk.now.node, walk.library.site, {}):
            assert f"{option.number} {beginning(option.says, 2)}" in said
        give_in_app(window, walk, answer)
    window.type("7\r")
    window.wait_for("1 Leave shorewalk")
    window.type("1\r")
    assert window.wait_for_exit() == Exit.CLEAN


@pytest.mark.parametrize(("term", "locale", "number"), CASES)
def test_a_walk_at_every_size(terminal: Open, term: str, locale: dict[str, str], number: int) -> None:
    """Question, answers, prompt and the ways out are there at each; the letters and colours are the terminal's."""
    sizes = cycle((*SIZES[number % len(SIZES) :], *SIZES[: number % len(SIZES)]))
    columns, rows = next(sizes)
    window = terminal(term=term, locale=locale, columns=columns, rows=rows, beyond=(20, 8))
    walked(window, sizes)
    codes = {code for match in CODES.findall(window.wire) for code in match.split(b";")}
    if locale is not UTF_8 or term in ("linux", "vt100", "vt220"):
        assert window.wire.isascii()
    if term in ("vt100", "vt220"):
        assert codes <= MARKS
    elif "256" not in term and term != "xterm-direct":
        assert codes - MARKS
        assert not {b"38", b"48"} & codes
    else:
        assert {b"38", b"48"} <= codes


@pytest.mark.parametrize("term", ["dumb", "unknown", None])
def test_a_terminal_of_which_nothing_is_known_gets_plain_text(terminal: Open, term: str | None) -> None:
    """Bare `shorewalk` asks in sentences: ASCII where the locale is not UTF-8, and no code that moves or colours."""
    window = terminal(term=term, locale={"LANG": "C"})
    window.wait_until(lambda text: text.endswith(">"))
    window.type("tingle\r")
    for walk, answer in steps("tingle-at-the-door"):
        if answer is None:
            break
        window.wait_until(asked(window, walk.now.step), walk.now.text)
        window.type(f"{keys_in_plain(walk, answer)}\r")
    window.wait_for("The end:")
    assert window.wire.isascii()
    assert b"\x1b" not in window.wire
