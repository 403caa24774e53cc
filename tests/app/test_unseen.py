"""No text gets from the app to a terminal with a character that the terminal would obey, or that turns text about."""

from __future__ import annotations

import unicodedata
from dataclasses import replace

from textual import events

from shorewalk.tree.library import Library
from shorewalk.tree.model import Step
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin
from shorewalk.widgets.reply import Reply

from .conftest import Make

HOSTILE = "a\x1b]0;owned\x07b\u202ec\x9b31md\u2028e\u200bf"
SEEN = "a?]0;owned?b?c?31md?e?f"


def _drawn(text: str) -> set[str]:
    return {letter for letter in text if unicodedata.category(letter) in ("Cc", "Cf", "Zl", "Zp", "Cs")}


async def test_a_paste_is_taken_as_text(make: Make, library: Library) -> None:
    """The line takes a paste with a question mark for whatever cannot be seen."""
    app = make(begin(library, "small", parse_meter("basic")))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        reply = app.screen.query_one(Reply)
        reply.post_message(events.Paste(HOSTILE.replace("\u2028", "")))
        await pilot.pause()
        assert reply.value == SEEN.replace("d?e", "de")


async def test_a_tab_is_a_blank(make: Make, library: Library) -> None:
    """A pasted tab is as wide in the line as on the terminal; what is erased leaves nothing behind."""
    app = make(begin(library, "small", parse_meter("basic")))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        app.post_message(events.Paste("11\t8.5"))
        await pilot.pause()
        reply = app.screen.query_one(Reply)
        assert reply.value == "11 8.5"
        assert reply.render_line(0).text.rstrip() == "11 8.5"
        await pilot.press(*["backspace"] * 6, "1")
        assert reply.render_line(0).text.rstrip() == "1"


async def test_text_of_a_tree_that_was_not_read_from_a_file_is_drawn_as_text(
    make: Make, library: Library
) -> None:
    """Were such text to come past the reading of files, no line on the screen would hold it."""
    walk = begin(library, "small", parse_meter("basic"))
    node = walk.now.node
    assert isinstance(node, Step)
    tree = library.tree("small")
    made = replace(
        tree, nodes={**tree.nodes, node.name: replace(node, text=HOSTILE, hint=HOSTILE, why=HOSTILE)}
    )
    library._trees["small"] = made
    app = make(begin(library, "small", parse_meter("basic")))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        strips = app.screen._compositor.render_strips()
        drawn = "".join(segment.text for strip in strips for segment in strip)
        assert "owned" in drawn
        assert not _drawn(drawn)
