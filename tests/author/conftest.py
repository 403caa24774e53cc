"""A small tree, an author with an editor, and the preview that follows what is saved."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from shorewalk.author.new import write_new
from shorewalk.preview_app import PreviewApp
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.walk import WalkScreen

from ..app.conftest import shown

PATIENCE = 20.0
"""Seconds after which a screen that shows nothing new is taken for stuck. Never waited for in a good run."""
LOOK = 0.01
"""Seconds between two looks at whether it is ready."""

Make = Callable[..., PreviewApp]

END = """\
  {name}:
    end: leave-as-is
    because: It is so.
    safe_action: Leave it as it is.
    call: park
    say: Please look.
"""
"""An ending of a small tree."""


class Editor:
    """Whoever writes the file, in the other pane."""

    def __init__(self, file: Path) -> None:
        self.file = file

    @property
    def text(self) -> str:
        """What is saved."""
        return self.file.read_text(encoding="utf-8")

    def save(self, text: str) -> None:
        """Write the file over."""
        self.file.write_text(text, encoding="utf-8")

    def delete(self) -> None:
        """Take the file away."""
        self.file.unlink()


@pytest.fixture
def editor(tmp_path: Path) -> Editor:
    """An author with a small tree that lints clean."""
    return Editor(write_new("low-at-supper", tmp_path).file)


@pytest.fixture
def make(editor: Editor, monkeypatch: pytest.MonkeyPatch) -> Make:
    """How to make the preview of it."""
    monkeypatch.delenv("NO_COLOR", raising=False)

    def made(node: str | None = None, *, of: Path | None = None, ascii_only: bool = False) -> PreviewApp:
        return PreviewApp(of or editor.file, node, every=0.01, ascii_only=ascii_only)

    return made


async def until(pilot: Pilot[int], ready: Callable[[], bool]) -> None:
    """Let the program go on until it is ready; its threads answer when they can."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        await pilot.pause(LOOK)  # without a time it would wait until the threads, too, are idle
        if ready():
            await pilot.pause(0)
            return
    assert isinstance(pilot.app, PreviewApp)
    raise AssertionError(f"This never came to be. The screen:\n{shown(pilot.app)}")


def linted(app: PreviewApp) -> bool:
    """Tell whether the file was read and the linter has spoken of it."""
    return app.preview.seen is not None and not app.preview.checking


def chosen(app: PreviewApp) -> str | None:
    """Return the node under the pointer."""
    return app.preview.chosen.name if app.preview.chosen else None


def node_of(app: PreviewApp) -> str:
    """Return the node where the walk stands."""
    assert isinstance(app.screen, WalkScreen | EndingScreen)
    return app.screen.walk.now.node.name


async def save(pilot: Pilot[int], editor: Editor, *changes: tuple[str, str]) -> None:
    """Save the file changed, and wait until it is read and linted."""
    app, text = pilot.app, editor.text
    assert isinstance(app, PreviewApp)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    before = app.seen
    editor.save(text)
    await until(pilot, lambda: app.seen is not before and linted(app))
