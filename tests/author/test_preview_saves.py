"""The author's preview on every save: what is saved is what is shown, and one stays where one was."""

from __future__ import annotations

import threading

import pytest
from textual import events

from shorewalk.author.seen import Seen, see
from shorewalk.lint import Report
from shorewalk.preview_app import PreviewApp
from shorewalk.screens.preview import PreviewScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.tree.source import Place, Problem

from ..app.conftest import shown, type_line
from .conftest import PATIENCE, Editor, Make, chosen, linted, node_of, save, until

SIZES = [(80, 24), (40, 20), (120, 40)]
BROKEN = Problem(Place("x.yaml", 1, 1), "It is broken.")


async def test_a_save_is_shown_and_the_pointer_stays(make: Make, editor: Editor) -> None:
    """After a save the same node is chosen, wherever it stands now; a finding is marked at its node."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await pilot.press("down", "down")
        assert chosen(app) == "marks"
        more = "nodes:\n  first: {step: Breathe., done: before_you_start, cannot: not_sure}\n"
        await save(pilot, editor, ("begin: before_you_start", "begin: first"), ("nodes:\n", more))
        assert chosen(app) == "marks"
        assert "first" in shown(app).split()
        await save(pilot, editor, ("sign: burn-marks", "sign: burnt-marks"))
        assert chosen(app) == "marks"
        text = shown(app)
        assert "1 error" in text
        assert 'There is no sign "burnt-marks".' in text
        (row,) = [line for line in text.splitlines() if "▸" in line]
        assert "■ ask     marks" in row


async def test_the_pointer_takes_the_place_of_a_node_that_is_gone(make: Make, editor: Editor) -> None:
    """Where the node that was chosen is no more, its neighbour is."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await pilot.press("down", "down")
        await save(pilot, editor, ("  marks:\n", "  scorch:\n"), ("goto: marks", "goto: scorch"))
        assert chosen(app) == "scorch"


@pytest.mark.parametrize("size", SIZES)
async def test_a_broken_file_shows_its_findings_and_comes_back(
    make: Make, editor: Editor, size: tuple[int, int]
) -> None:
    """What cannot be read is told with line and column; mended, the outline is back where it was."""
    app = make()
    async with app.run_test(size=size) as pilot:
        await until(pilot, lambda: linted(app))
        await pilot.press("down")
        await save(pilot, editor, ("because: It is", "becuase: It is"))
        text = " ".join(shown(app).split())
        assert 'The key "becuase" is not known here.' in text
        assert "2 errors" in text or "2 found" in text
        await save(pilot, editor, ("becuase:", "because:"))
        assert chosen(app) == "smell"
        assert "Nothing found." in shown(app)


@pytest.mark.parametrize("text", ["", "\0", "tree: [", "nodes: 3\n", "tree: low-at-supper\n"])
async def test_no_file_ends_the_preview(make: Make, editor: Editor, text: str) -> None:
    """Whatever is saved in the middle of typing, the preview says what is wrong, and mends with it."""
    app = make()
    sound = editor.text
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        editor.save(text)
        await until(pilot, lambda: linted(app) and app.preview.outline is None)
        assert f"{editor.file.name}" in shown(app)
        assert app.preview.findings
        editor.delete()
        await until(pilot, lambda: linted(app) and "There is no " in shown(app))
        editor.save(sound)
        await until(pilot, lambda: linted(app) and app.preview.outline is not None)


async def test_a_walk_goes_on_in_the_saved_file(make: Make, editor: Editor) -> None:
    """Answers that still fit are kept; of those that do not, the first is named; no question is lost."""
    app = make("before_you_start")
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        for _ in range(2):
            await type_line(pilot, "")  # the cautions to their end
        await type_line(pilot, "1")
        await type_line(pilot, "1")
        assert node_of(app) == "marks"
        await save(pilot, editor, ("scorch marks on", "burnt spots on"))
        assert node_of(app) == "marks"
        assert "burnt spots" in shown(app)
        assert "every answer fits" in shown(app)
        more = "  wet:\n    ask: Is it wet?\n    sign: tingle\n    choices:\n"
        more += '      "no": {says: "No", goto: smell}\n      "yes": {says: "Yes", goto: not_sure}\n'
        more += "    unsure: not_sure\n"
        await save(pilot, editor, ("done: smell", "done: wet"), ("  smell:\n", f"{more}  smell:\n"))
        assert node_of(app) == "wet"
        text = " ".join(shown(app).split())
        assert "1 of 2 answers fit. The first that does not was given at smell." in text


async def test_what_is_being_typed_stays(make: Make, editor: Editor) -> None:
    """A save in the other pane takes no key from whoever is answering."""
    app = make("smell")
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await pilot.press("1")
        await save(pilot, editor, ("Do you smell burning", "Does it smell of burning"))
        assert isinstance(app.screen, WalkScreen)
        assert app.screen.reply.value == "1"
        await type_line(pilot, "")
        assert node_of(app) == "marks"


async def test_a_save_right_behind_an_answer_loses_neither(make: Make, editor: Editor) -> None:
    """Read again while an answer is still on its way, and while the next question is: both count."""
    app = make()
    async with app.run_test(size=(120, 40)) as pilot:
        await until(pilot, lambda: linted(app))
        read = PreviewApp.Read(app.reads, see(editor.file))
        for key in ("2", "enter", "1"):
            app.post_message(events.Key(key, key if key.isdecimal() else None))
        app.post_message(read)
        app.post_message(events.Key("enter", None))
        app.post_message(read)
        await until(pilot, lambda: isinstance(app.screen, WalkScreen) and node_of(app) == "marks")


async def test_a_walk_waits_while_the_file_is_broken(make: Make, editor: Editor) -> None:
    """The findings lie open meanwhile; mended, the walk stands where it stood."""
    app = make("smell")
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        await type_line(pilot, "1")
        assert node_of(app) == "marks"
        await save(pilot, editor, ("sign: smell", "sgn: smell"))
        assert isinstance(app.screen, PreviewScreen)
        assert "your walk goes on then" in shown(app)
        await save(pilot, editor, ("sgn: smell", "sign: smell"))
        assert node_of(app) == "marks"
        await save(pilot, editor, ("  smell:\n", "  smelt:\n"), ("done: smell", "done: smelt"))
        assert isinstance(app.screen, PreviewScreen)
        assert "is gone" in " ".join(shown(app).split()) or app.kept is None


async def test_quick_saves_are_linted_once_more_not_each(make: Make, editor: Editor) -> None:
    """However quickly somebody saves, the findings shown in the end are those of the last save."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        sound = editor.text
        for wrong in range(5):
            editor.save(sound.replace("sign: smell", f"sign: smell-{wrong}"))
            app.read_again()
        await until(pilot, lambda: linted(app) and "smell-4" in str(app.preview.findings))
        editor.save(sound)
        await until(pilot, lambda: linted(app) and not app.preview.findings)


async def test_an_older_reading_gives_way_to_a_newer(make: Make, editor: Editor) -> None:
    """What a thread read before the last save is not shown, however late it comes."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        app.post_message(PreviewApp.Read(0, Seen(editor.file)))
        app.post_message(PreviewApp.Linted(0, Report(tuple(Seen(editor.file, problems=(BROKEN,)).findings))))
        await until(pilot, lambda: linted(app))
        assert app.preview.outline is not None
        assert not app.preview.findings


async def test_a_fault_of_ours_is_told_and_the_next_save_is_read(make: Make, editor: Editor) -> None:
    """Where reading itself stumbles the screen says so, instead of looking like a file that never changed."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        app.post_message(PreviewApp.Failed("a fault"))
        await until(pilot, lambda: "This could not be looked at: a fault" in shown(app))
        await save(pilot, editor, ("sign: burn-marks", "sign: burnt-marks"))
        assert "1 error" in shown(app)


async def test_what_was_not_looked_at_is_told(make: Make) -> None:
    """Where the linter could not finish, nobody takes silence for a sound tree."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        app.preview.show_findings((), "The rule x stopped at an error of its own.")
        await pilot.pause()
        assert "Not all could be looked at. The rule x stopped" in " ".join(shown(app).split())
        assert "Nothing found." not in shown(app)


def test_what_is_read_too_late_is_told_to_nobody(make: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the preview was left meanwhile, the thread that reads ends without a word."""
    app, tried = make(), list[object]()

    def gone(message: object) -> bool:
        tried.append(message)
        raise RuntimeError("Event loop is closed")

    monkeypatch.setattr(app, "post_message", gone)
    before = set(threading.enumerate())
    app.read_again()
    for thread in set(threading.enumerate()) - before:
        thread.join(PATIENCE)
    assert [type(message) for message in tried] == [PreviewApp.Read]
