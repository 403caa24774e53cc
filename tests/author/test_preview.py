"""The author's preview: the outline of a file, and walks from any node of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.author.new import write_new
from shorewalk.preview_app import PreviewApp
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.help import HelpScreen
from shorewalk.screens.preview import PreviewScreen

from ..app.conftest import press, shown, type_line
from .conftest import Editor, Make, chosen, linted, node_of, save, until

SIZES = [(80, 24), (40, 20), (120, 40)]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("ascii_only", [False, True])
async def test_the_outline_has_every_node_and_the_endings_by_verdict(
    make: Make, size: tuple[int, int], *, ascii_only: bool
) -> None:
    """Kind and name of each node, headings, verdicts in words; in ASCII where it must be; nothing is cut."""
    app = make(ascii_only=ascii_only)
    async with app.run_test(size=size) as pilot:
        await until(pilot, lambda: linted(app))
        text = shown(app)
    words = text.split()
    for name in ("before_you_start", "smell", "marks", "all_clean", "not_sure", "burning"):
        assert name in words
    for said in (
        "Before you start",
        "Ends: ",
        "Leave the cord as it is",
        "Hands off",
        "Emergency",
        "Nothing found.",
    ):
        assert said in text
    assert text.isascii() is ascii_only
    assert all(len(line) <= size[0] for line in text.splitlines())


async def test_a_walk_from_a_node_as_if_its_states_held(make: Make) -> None:
    """The number of a node walks from it with the real question; `q` comes back to the outline, and that node."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await type_line(pilot, "3")
        assert node_of(app) == "marks"
        text = shown(app)
        assert "scorch marks" in text
        assert "as if: cautions read, cord plugged" in text
        await type_line(pilot, "2")
        assert node_of(app) == "not_sure"
        await press(pilot, "b")
        assert node_of(app) == "marks"
        await press(pilot, "q")
        assert isinstance(app.screen, PreviewScreen)
        assert chosen(app) == "marks"


async def test_findings_are_gone_through_from_the_keyboard(make: Make, editor: Editor) -> None:
    """`n` goes to the next node with a finding, `f` shows all of them in full and the outline again."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await save(
            pilot,
            editor,
            ("sign: burn-marks", "sign: burnt-marks"),
            ('call: park\n    say: "[Site {site}: ]We smell', 'call: park\n    say: "[Site {sit}: ]We smell'),
        )
        await press(pilot, "n")
        assert chosen(app) == "marks"
        await press(pilot, "n")
        assert chosen(app) == "burning"
        await press(pilot, "f")
        assert "to do:" in shown(app)
        await press(pilot, "f")
        assert "burning" in shown(app).split()
        await press(pilot, "?")
        assert isinstance(app.screen, HelpScreen)


async def test_a_word_finds_a_node_and_nonsense_is_told(make: Make) -> None:
    """`/word` looks in names and texts; what is no number is answered in a sentence."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await type_line(pilot, "/scorch")
        assert chosen(app) == "marks"
        await type_line(pilot, "/zeppelin")
        assert 'No node has "zeppelin"' in shown(app)
        await type_line(pilot, "99")
        assert '"99" is not one of the numbers here.' in shown(app)


async def test_a_part_is_walked_in_the_tree_that_puts_it_in(
    make: Make, editor: Editor, tmp_path: Path
) -> None:
    """Alone it is only looked at; put in, the walk stands in the tree, at the part's node."""
    part = write_new("first-look", tmp_path, part=True).file
    app = make(of=part)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await type_line(pilot, "2")
        assert "No tree here puts this part in" in shown(app)
        use = "  look: {part: first-look, exits: {clear: smell, doubt: not_sure}}\n  smell:\n"
        await save(pilot, editor, ("  smell:\n", use), ("done: smell", "done: look"))
        await type_line(pilot, "2")
        assert node_of(app) == "look.marks"


async def test_a_walk_may_begin_at_its_end(make: Make) -> None:
    """From an ending there is nothing to take back, and the screen says so."""
    app = make("all_clean")
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        assert isinstance(app.screen, EndingScreen)
        await press(pilot, "b")
        assert "nothing to take back" in shown(app)


async def test_without_colour_nothing_is_lost(make: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    """With NO_COLOR the same letters stand there."""
    monkeypatch.setenv("NO_COLOR", "1")
    app = PreviewApp(make().file, every=0.01, ascii_only=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        assert app.no_color
        assert "> 1" in shown(app) or ">1" in shown(app)
