"""Leaving a walk: it is kept whatever the answer, or, where the disk failed, can be kept elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shorewalk.heard_words import NO_NAME, goes_back, is_ours, leaves
from shorewalk.journal import at_risk
from shorewalk.reach import reach

from .base import PageScreen
from .choose import ChooseScreen

if TYPE_CHECKING:
    from shorewalk.journal import Keeper

    from .program import Program

KEPT = "Every answer is kept; the walk can go on later."
NOTHING_OFF = "Leaving switches nothing off and unplugs nothing."
LEAVE, LIST, ELSEWHERE, STAY = 1, 2, 3, 0
GONE = "The walk is gone when you leave, unless you keep it elsewhere."
GONE_HERE = "What was answered since is gone when you leave."
WHICH = (
    "Type a folder on a disk that can be written, as in /media/stick or ~/walks. It is made if it is not there.",
)


LONGEST = 4096
"""Letters a path may have."""


class FolderScreen(ChooseScreen):
    """Returns a folder as it was typed, or None for back."""

    prompt = "Folder"

    def __init__(self, *said: str) -> None:
        super().__init__("Keep it in which folder?", (*said, *WHICH), ((STAY, "Back"),), other=True)

    def give(self, text: str) -> None:
        if leaves(text) or goes_back(text):
            self.dismiss(None)
        elif is_ours(text) and text != str(STAY):
            self.tell(NO_NAME.format(typed=text))
        else:
            super().give(text)

    def on_mount(self) -> None:
        self.reply.max_length = LONGEST


class LeavingScreen(ChooseScreen):
    """Asks where to; `kept`: no answer is lost by leaving."""

    def __init__(self, text: tuple[str, ...], items: tuple[tuple[int, str], ...], *, kept: bool) -> None:
        super().__init__("Leave?", text, items)
        self._kept = kept

    def do_interrupt(self) -> None:
        """Ctrl-C a second time leaves, where nothing is lost by it."""
        self.dismiss(LEAVE if self._kept else None)


def ask_to_leave(app: Program, keeper: Keeper, *, at_start: bool = False) -> None:
    """Ask where to from a walk, or from the start while that walk is on no disk."""
    risk = at_risk(keeper.journal, keeper)
    failed = risk is not None
    elsewhere = failed and not reach().guarded
    problem = keeper.journal.problem
    kept = f"{problem} {GONE if elsewhere else GONE_HERE}" if failed else problem or KEPT
    items = [(LEAVE, "Leave shorewalk"), *([] if at_start else [(LIST, "To the list of symptoms")])]
    items += [(ELSEWHERE, "Keep this walk in another folder")] if elsewhere else []

    def decided(number: int | str | None) -> None:
        if number == LEAVE:
            app.exit(0)
        elif number == LIST:
            app.show_start()
        elif number == ELSEWHERE and risk:
            ask_for_folder(app, risk, at_start=at_start)

    screen = LeavingScreen((kept, NOTHING_OFF), (*items, (STAY, "Stay here")), kept=not problem)
    app.push_screen(screen, decided)


def ask_for_folder(app: Program, keeper: Keeper, *said: str, at_start: bool) -> None:
    """Ask for a folder to keep the walk in, until there is one that can be written, or none is typed."""
    from .start import StartScreen

    def typed(folder: int | str | None) -> None:
        if not isinstance(folder, str):
            ask_to_leave(app, keeper, at_start=at_start)
            return
        told = keeper.keep_in(folder)
        if keeper.journal.failed:
            ask_for_folder(app, keeper, told, at_start=at_start)
            return
        if at_start:
            app.journal.let_go()
        if isinstance(app.screen, StartScreen):
            app.screen.offer_afresh()
        if isinstance(app.screen, PageScreen):
            app.screen.tell(told, "ok")

    app.push_screen(FolderScreen(*said), typed)
