"""The app at a make-believe pedestal: the same screens, a meter beside them, nothing kept."""

from __future__ import annotations

from typing import Any

from .app import ShorewalkApp
from .journal import Keeper
from .pedestal.hands import Hands
from .screens.base import PageScreen
from .screens.practising import PracticeEnding, PracticeWalk
from .walk.walk import Walk


class PracticeApp(ShorewalkApp):
    """Walks one tree at one bench. `last` is where the walk came to."""

    def __init__(self, walk: Walk, keeper: Keeper, hands: Hands, **how: Any) -> None:
        super().__init__(walk, keeper, **how)
        self.hands, self.last = hands, walk

    def _screen_of(self, walk: Walk, keeper: Keeper) -> PageScreen:
        self.last = walk
        if walk.ended:
            return PracticeEnding(walk, keeper, self.hands)
        return self._question(walk, keeper)

    def _question(self, walk: Walk, keeper: Keeper, **more: Any) -> PageScreen:
        return PracticeWalk(walk, keeper, self.hands, **more)

    def show_start(self) -> None:
        """There is no list of symptoms in practice: this is the way out."""
        self.exit(0)
