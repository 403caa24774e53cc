"""Whether the recorded walks notice a damage that the linter leaves: one of them no longer ends as recorded."""

from __future__ import annotations

from functools import cached_property

from shorewalk.folders import demo_data
from shorewalk.recorded import Recorded, read_recorded
from shorewalk.replay import replay
from shorewalk.tree.source import TreeError

from .damaged import DamagedLibrary, Sound


class Walks:
    """The recorded walks, by what they pass through."""

    def __init__(self, sound: Sound) -> None:
        self.sound = sound

    @cached_property
    def recorded(self) -> list[Recorded]:
        """All recorded walks of the shipped trees."""
        paths = sorted(demo_data().glob("walks/*.yaml"))
        return [read_recorded(path, self.sound.library) for path in paths]

    def notice(self, library: DamagedLibrary, trees: list[str]) -> str:
        """Return the first recorded walk that goes otherwise, or nothing."""
        for recorded in self.recorded:
            if recorded.walk in trees or self.sound.jumps(recorded.walk) & set(trees):
                try:
                    _, problems = replay(recorded, library)
                except (TreeError, KeyError) as error:
                    return f"{recorded.file}: {error}"
                if problems:
                    return str(problems[0])
        return ""
