"""The author's preview: the outline of one file with its findings, and a walk from any node of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.message import Message

from shorewalk.author.outline import Outline, Row
from shorewalk.author.pointer import Pointer
from shorewalk.author.seen import Seen
from shorewalk.lines import Line
from shorewalk.lint.finding import Finding, Severity
from shorewalk.pages.fixed import FINDINGS
from shorewalk.pages.outline import counted, findings_page, node_side, outline_page, place_words

from .base import NARROW, SHORT, PageScreen

SEARCH = "/"
"""What is typed before a word to look for: letters alone are commands."""


class PreviewScreen(PageScreen):
    """Shows what it is given, read anew on every save; the node chosen stays chosen while it is there.

    `walk_from` begins a walk, at once: what is typed next is for its first question.
    """

    kind = "preview"
    prompt = "Node"

    @dataclass
    class Opened(Message):
        """The screen is there to show things on."""

    def __init__(self, walk_from: Callable[[Row], None]) -> None:
        super().__init__()
        self._walk_from = walk_from
        self.seen: Seen | None = None
        self.findings: Sequence[Finding] = ()
        self.checking = True
        self.waiting = False
        """Whether a walk waits for the file to be mended."""
        self._in_full = False
        self._pointer = Pointer()

    # What is shown.

    @property
    def outline(self) -> Outline | None:
        """The nodes, where the file can be read."""
        return self.seen.outline if self.seen else None

    @property
    def chosen(self) -> Row | None:
        """The node under the pointer."""
        return self.outline.row(self._pointer.name) if self.outline else None

    @property
    def in_full(self) -> bool:
        """Whether the findings are shown rather than the outline: always where there is no outline."""
        return self._in_full or (self.seen is not None and self.outline is None)

    @property
    def reads_on(self) -> bool:  # type: ignore[override]
        """Enter reads on in the findings; in the outline it walks."""
        return self.in_full

    @property
    def heading(self) -> str:  # type: ignore[override]
        """The file, and what it is about."""
        if self.seen is None:
            return "Reading the file"
        return f"{self.seen.file.name}: {self.outline.title}" if self.outline else self.seen.file.name

    def left(self) -> str:
        if self.checking:
            return "checking" + ("..." if self.app.ascii_only else "…")
        return counted(self.findings) if self.size.width >= NARROW else f"{len(self.findings)} found"

    def page(self, room: int, _height: int) -> list[Line]:
        if self.seen is None:
            return []
        if self.in_full or not self.outline:
            return findings_page(self.findings, str(self.seen.file), room, ascii_only=self.app.ascii_only)
        return outline_page(
            self.outline, self._pointer.name, self._by_node, room, ascii_only=self.app.ascii_only
        ).lines

    def side(self, room: int, _height: int) -> list[Line]:
        row = self.chosen
        if row is None:
            return []
        return node_side(row, self._by_node.get(row.name, ()), room, ascii_only=self.app.ascii_only)

    def guide(self, room: int) -> str:
        if self.in_full:
            return self._mend() if self.outline is None else "Enter goes back to the outline."
        if self.waiting:
            return self._mend()
        if room < SHORT:
            return "Number, Enter: walk from there."
        return "Up, Down, a number or /word chooses a node. Enter walks from it."

    def _mend(self) -> str:
        return f"Mend the file and save it{'; your walk goes on then' if self.waiting else ''}."

    @property
    def _by_node(self) -> dict[str, list[Finding]]:
        return self.outline.findings_by_node(self.findings) if self.outline else {}

    # What it is given.

    def on_mount(self) -> None:
        self.post_message(self.Opened())

    def show_seen(self, seen: Seen) -> None:
        """Show the file as it is now; until the linter has spoken, with what keeps it from being read."""
        self.seen, self.checking = seen, True
        self.findings = seen.findings
        if self.outline:
            self._pointer.over(self.outline.rows)
        self._draw()

    def show_findings(self, findings: Sequence[Finding], stopped: str = "") -> None:
        """Show what the linter says of it; `stopped` says what kept it from looking at all of it."""
        self.findings, self.checking = findings, False
        self._in_full = self._in_full and bool(findings)
        self._draw()
        if stopped:
            self.tell(f"Not all could be looked at. {stopped}")
        elif not findings:
            self.tell("Nothing found.", "ok")
        elif not self.in_full:
            self._tell_of(min(findings, key=lambda finding: finding.severity is not Severity.ERROR))

    def _tell_of(self, finding: Finding) -> None:
        where = place_words(finding, str(self.seen.file) if self.seen else "")
        self.tell(f"{where} {finding.message}", FINDINGS[finding.severity].role)

    def _draw(self) -> None:
        self.set_class(self.in_full, "-whole")
        self.reading.more_words = "more below: Enter" if self.in_full else "more below: Down"
        if self.in_full:
            self.tell()
        self.show_all(top=None)
        self._reveal()

    # What happens.

    def choose(self, place: int) -> None:
        """Put the pointer on a node, by its place in the outline."""
        if not self.outline or self.in_full:
            return
        self._pointer.to(place)
        self.sheets["side"].renew()
        self.reading.renew(top=None)
        self._reveal()

    def _reveal(self) -> None:
        """Scroll as far as it takes to see the node that is chosen."""
        name = self._pointer.name
        if not self.outline or self.in_full or name is None:
            return
        size, sheet = self.reading.size, self.reading
        page = outline_page(self.outline, name, self._by_node, size.width, ascii_only=self.app.ascii_only)
        at = page.at[name] + len(sheet.lines) - len(page.lines)
        if at - 1 < sheet.top:
            sheet.scroll_lines(at - 1 - sheet.top)  # with the heading over it
        elif at >= sheet.top + size.height - 1:
            sheet.scroll_lines(at - sheet.top - size.height + 2)  # over the line that says there is more

    async def action_scroll(self, step: int) -> None:
        if self.in_full:
            await super().action_scroll(step)
        else:
            self.choose(self._pointer.place + step)

    async def action_page(self, step: int) -> None:
        if self.in_full:
            await super().action_page(step)
        else:
            self.choose(self._pointer.place + step * max(1, self.reading.size.height - 2))

    def typed(self, text: str) -> None:
        if text.isdecimal():
            self.choose(int(text) - 1)
        elif text.startswith(SEARCH) and text != SEARCH:
            self._seek(text[1:])

    def give(self, text: str) -> None:
        rows = self.outline.rows if self.outline else ()
        if text.startswith(SEARCH):
            self._seek(text[1:])
        elif not text.isdecimal() or not 1 <= int(text) <= len(rows):
            self.tell(f'"{text}" is not one of the numbers here. /{text} looks for a node.')
        else:
            self.choose(int(text) - 1)
            self.do_walk()

    def rest(self) -> None:
        if self.in_full:
            self.do_findings()
        else:
            self.do_walk()

    def escape(self) -> None:
        if self._in_full:
            self.do_findings()

    def do_walk(self) -> None:
        """Walk from the node that is chosen."""
        if self.chosen and not self.in_full:
            self._walk_from(self.chosen)

    def do_findings(self) -> None:
        """Show all findings in full, or the outline again."""
        self._in_full = not self._in_full and self.outline is not None
        self._draw()
        self.reading.renew(top=0 if self.in_full else None)
        self._reveal()

    def do_next(self) -> None:
        """Choose the next node with a finding."""
        place = self._pointer.next_of(self._by_node)
        if place is None:
            self.tell(
                "No node has a finding." if not self.findings else "The findings are in no node of this file."
            )
            return
        self.choose(place)
        self._tell_of(self._by_node[self._pointer.rows[place].name][0])

    def do_leave(self) -> None:
        """Leave the preview."""
        self.app.exit(0)

    def _seek(self, word: str) -> None:
        found = self._pointer.seek(word)
        if found is None:
            self.tell(f'No node has "{word}" in its name or words.')
        else:
            self.tell()
            self.choose(found)
