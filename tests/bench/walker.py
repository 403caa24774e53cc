"""Somebody who walks a recorded walk in a real terminal: what they wait for, and what they type."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from shorewalk.folders import demo_data
from shorewalk.marks import verdict_mark
from shorewalk.pages.options import options_of
from shorewalk.pages.question import left_words, view_of
from shorewalk.recorded import read_recorded
from shorewalk.screens.base import NARROW
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Answer, Read, Running, Unable
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk, begin

if TYPE_CHECKING:
    from .terminal import Terminal


def steps(name: str) -> Iterator[tuple[Walk, Answer | None]]:
    """Yield a recorded walk at every question with its answer, then at its ending."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        yield walk, answer
        walk = walk.answer(answer)
    yield walk, None


def asked(window: Terminal, question: int) -> Callable[[str], bool]:
    """Return whether this question was asked and an answer is waited for."""
    return lambda text: window.said(f"Question {question},") and text.endswith(">")


def number_of(walk: Walk, answer: Answer) -> str:
    """Return the number of an answer, as both front ends list them."""
    options = options_of(walk.now.node, walk.library.site, {})
    return str(next(option.number for option in options if option.answer == answer))


def keys_in_app(walk: Walk, answer: Answer) -> list[str]:
    """Return what somebody types in the app, a line at a time."""
    match answer:
        case Read(text):
            return [text]
        case Unable():
            return ["x"]
        case Running(loads):
            options = options_of(walk.now.node, walk.library.site, {})
            numbers = {option.load: str(option.number) for option in options if option.load}
            return [*(numbers[load] for load, count in loads for _ in range(count)), str(len(numbers) + 1)]
    return [number_of(walk, answer)]


def beginning(text: str, count: int = 3) -> str:
    """Return the first words, which stand on one line however narrow the window."""
    return " ".join(text.split()[:count])


def keys_in_plain(walk: Walk, answer: Answer) -> str:
    """Return the line that somebody types in plain text."""
    match answer:
        case Read(text):
            return text
        case Unable():
            return "x"
        case Running(loads=()):
            return "none"
        case Running(loads):
            options = options_of(walk.now.node, walk.library.site, {})
            numbers = {option.load: str(option.number) for option in options}
            return " ".join(numbers[load] for load, count in loads for _ in range(count))
    return number_of(walk, answer)


def last_option(walk: Walk) -> str:
    """Return the answer that stands last on the page; the prompt where one is typed."""
    for option in reversed(options_of(walk.now.node, walk.library.site, {})):
        return f"{option.number} {beginning(option.says, 2)}"
    return "Meter shows"


def shows(every: Iterable[str], one: Iterable[str]) -> Callable[[str], bool]:
    """Return whether a screen's text has all of `every` and one of `one`."""
    return lambda text: all(part in text for part in every) and any(part in text for part in one)


PAGE_DOWN = "\x1b[6~"
"""What reads on and never opens the menu: for pages that grow by themselves while they are read."""


def read_on(window: Terminal, key: str = "\r") -> str:
    """Press Enter as long as there is more below; return all that was on the screen."""
    said = window.text
    while "more below" in window.text:
        before = _page(window)
        window.type(key)
        said += " " + window.wait_until(_turned(window, before), "what is below")
    return said


def _turned(window: Terminal, before: list[str]) -> Callable[[str], bool]:
    return lambda _: _page(window) != before


def _page(window: Terminal) -> list[str]:
    """Return what is above the line: what is said under it may change by itself, and before the page does."""
    footer = max((at for at, line in enumerate(window.trimmed) if line.startswith("! ")), default=0)
    return window.trimmed[: max(0, footer - 3)]


def painted(walk: Walk, columns: int) -> Callable[[str], bool]:
    """Return whether this question, or this ending, is on the app's screen, to its last answer or to more below."""
    if walk.ended:
        word = verdict_mark(ending(walk).verdict).word.upper()
        return lambda text: word in text
    head = left_words(view_of(walk), narrow=columns < NARROW), beginning(walk.now.text)
    return shows(head, ("more below", last_option(walk)))


def give_in_app(window: Terminal, walk: Walk, answer: Answer) -> None:
    """Answer the question on the app's screen: read on where it has to be read whole, tick what is to be ticked."""
    if walk.now.cautions_full:
        read_on(window)
    *ticks, last = keys_in_app(walk, answer)
    for keys in ticks:  # each is seen to be taken before the next one is typed
        window.type(keys)
        window.wait_for_line(f"Number > {keys}")
        window.type("\r")
        window.wait_for_line("Number >")
    window.type(last if last == "x" else f"{last}\r")
