"""The sheet draws only what changed, and scrolls what does not fit."""

from __future__ import annotations

import pytest
from textual.app import App, ComposeResult
from textual.geometry import Region

from shorewalk.lines import Line, Span, line
from shorewalk.widgets.sheet import MORE, Sheet


def numbered(count: int, changed: int | None = None) -> list[Line]:
    return [line(Span("changed" if number == changed else f"line {number}")) for number in range(count)]


class OneSheet(App[None]):
    """A sheet in a window of its own. `lines`: what it shows."""

    def __init__(self, lines: list[Line]) -> None:
        super().__init__()
        self.lines = lines

    def compose(self) -> ComposeResult:
        yield Sheet(lambda _width, _height: self.lines, id="sheet", cue=True)


def text(sheet: Sheet) -> list[str]:
    return [sheet.render_line(y).text.rstrip() for y in range(sheet.size.height)]


async def test_only_changed_lines_are_drawn_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """A new text in one line asks for that line alone; the same text asks for nothing."""
    app = OneSheet(numbered(4))
    async with app.run_test(size=(20, 4)) as pilot:
        await pilot.pause()
        sheet = app.query_one(Sheet)
        drawn: list[tuple[Region, ...]] = []
        monkeypatch.setattr(sheet, "refresh", lambda *regions: drawn.append(regions))
        sheet.renew()
        assert drawn == []
        app.lines = numbered(4, changed=2)
        sheet.renew()
        assert drawn == [(Region(0, 2, 7, 1),)]


async def test_what_does_not_fit_is_announced_and_reached() -> None:
    """Where there is more the last line says so; paging shows every line and then the end."""
    app = OneSheet(numbered(8))
    async with app.run_test(size=(20, 4)) as pilot:
        await pilot.pause()
        sheet = app.query_one(Sheet)
        assert text(sheet) == ["line 0", "line 1", "line 2", MORE]
        assert not sheet.seen_whole
        seen = set(text(sheet))
        while sheet.more:
            sheet.page(1)
            seen |= set(text(sheet))
        assert {f"line {number}" for number in range(8)} <= seen
        assert sheet.seen_whole
        assert text(sheet)[-1] == "the end"


async def test_control_characters_never_reach_the_terminal() -> None:
    """What a person pasted cannot move the cursor or ring the bell."""
    app = OneSheet([line(Span("a\x1b[2Jb\x07c"))])
    async with app.run_test(size=(20, 4)) as pilot:
        await pilot.pause()
        sheet = app.query_one(Sheet)
        assert text(sheet)[0] == "a?[2Jb?c"
