"""Two whole screens of the preview as text, each with a sentence of what an author should see.

After a wanted change: `SHOREWALK_REDRAW=1 pytest tests/author/test_preview_screens.py`, then read the files.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from ..app.conftest import shown
from .conftest import Editor, Make, linted, until

SCREENS = Path(__file__).parent / "screens"
CASES: dict[str, tuple[tuple[int, int], bool, str]] = {
    "outline-80x24": (
        (80, 24),
        False,
        "Every node under its heading, the endings by verdict; the one with the error marked, and what it is.",
    ),
    "outline-40x20": ((40, 20), True, "The same in ASCII on a phone: numbers, marks, names; nothing cut."),
}


@pytest.mark.parametrize("name", CASES)
async def test_a_whole_screen(make: Make, editor: Editor, name: str) -> None:
    """The screen is what it was when somebody last looked at it and found it right."""
    size, ascii_only, _ = CASES[name]
    editor.save(editor.text.replace("sign: burn-marks", "sign: burnt-marks"))
    app = make(ascii_only=ascii_only)
    async with app.run_test(size=size) as pilot:
        await until(pilot, lambda: linted(app))
        await pilot.press("n")
        await pilot.pause()
        text = shown(app)
    kept = Editor(SCREENS / f"{name}.txt")
    if os.environ.get("SHOREWALK_REDRAW"):
        kept.save(text)
    assert text == kept.text


def test_every_file_is_a_case() -> None:
    """No screen is kept that no test looks at."""
    assert {file.stem for file in SCREENS.glob("*.txt")} == set(CASES)
