"""How it looks is chosen before the first screen, stepped through by a key, and kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk import cli
from shorewalk.app import ShorewalkApp
from shorewalk.exits import Exit
from shorewalk.looks import LOOKS, keep_look, kept_look, look_of, looks_here
from shorewalk.starting import Usage
from shorewalk.walk.walk import Walk

from .conftest import Make, press, shown, type_line

COLOURS = {"TERM": "xterm-256color"}


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home folder of its own, on a terminal of many colours."""
    for name in ("NO_COLOR", "SHOREWALK_LOOK", "COLORFGBG", "COLORTERM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("SHOREWALK_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.mark.parametrize(
    ("env", "look"),
    [
        (COLOURS, "dusk"),
        (COLOURS | {"COLORFGBG": "0;15"}, "daylight"),
        (COLOURS | {"COLORFGBG": "15;default;0"}, "dusk"),
        (COLOURS | {"COLORFGBG": "0;15", "SHOREWALK_LOOK": "dusk"}, "dusk"),
        (COLOURS | {"SHOREWALK_LOOK": "terminal"}, "terminal"),
        (COLOURS | {"SHOREWALK_LOOK": ""}, "dusk"),
        (COLOURS | {"NO_COLOR": "1", "SHOREWALK_LOOK": "contrast"}, "plain"),
        ({"TERM": "xterm-direct"}, "dusk"),
        ({"TERM": "linux", "COLORTERM": "truecolor"}, "dusk"),
        ({"TERM": "linux", "SHOREWALK_LOOK": "daylight"}, "terminal"),
        *(
            ({"TERM": term}, "terminal")
            for term in ("linux", "ansi", "xterm-16color", "screen", "tmux", "xterm")
        ),
        *(({"TERM": term}, "plain") for term in ("vt100", "vt220", "dumb", "unknown", "", "xterm-mono")),
        *(({"TERM": term}, "dusk") for term in ("alacritty", "foot-extra", "xterm-kitty", "xterm-ghostty")),
        ({"TERM": "vt100", "COLORTERM": "truecolor"}, "plain"),
        ({}, "plain"),
    ],
)
def test_what_fits_the_terminal_is_chosen(env: dict[str, str], look: str) -> None:
    """Asked for, else as the terminal's ground is; what the terminal cannot show gives way to what it can."""
    assert look_of(env) == look


def test_a_wrong_name_is_told_with_those_there_are(monkeypatch: pytest.MonkeyPatch) -> None:
    """One line: where it was named, what was named, what is allowed. Nothing is opened."""
    monkeypatch.setenv("SHOREWALK_LOOK", "noon")
    with pytest.raises(Usage) as error:
        ShorewalkApp()
    assert str(error.value) == (
        'SHOREWALK_LOOK: there is no look "noon". There are: dusk, daylight, contrast, terminal.'
    )


async def test_a_key_steps_through_the_looks_and_the_last_is_kept(make: Make, home: Path) -> None:
    """`v` shows the next look at once and says its name; the next start begins with it."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        grounds = set()
        for look in [*list(LOOKS)[1:], "dusk", "daylight"]:
            await type_line(pilot, "v")
            await pilot.pause()
            assert app.theme == look
            assert f"Look: {look}" in shown(app)
            style = app.screen.reading.rich_style  # type: ignore[attr-defined]
            grounds.add((style.color, style.bgcolor))
    assert len(grounds) == len(LOOKS)
    assert kept_look() == "daylight"
    assert make().theme == "daylight"
    assert (home / "look").read_text(encoding="utf-8") == "daylight\n"


async def test_the_look_is_in_the_menu_of_a_question(make: Make, at_reading: Walk) -> None:
    """By number too, and what is typed next is still an answer."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert "12 Another look" in shown(app)
        await type_line(pilot, "12")
        assert app.theme == "daylight"
        await press(pilot, "118")
        assert "118" in shown(app)


async def test_where_there_are_no_colours_there_is_one_look(
    make: Make, monkeypatch: pytest.MonkeyPatch, home: Path
) -> None:
    """The key says so, and nothing is kept."""
    at_start = make()
    monkeypatch.setenv("NO_COLOR", "1")
    app = ShorewalkApp(library=at_start.library, journal=at_start.journal, folder=at_start.folder)
    async with app.run_test(size=(80, 24)) as pilot:
        assert app.theme == "plain"
        await type_line(pilot, "v")
        assert "no colours" in shown(app)
    assert not (home / "look").exists()


def test_a_look_that_cannot_be_kept_is_no_error(tmp_path: Path) -> None:
    """A folder that cannot be made leaves the look as it is for now; what is damaged is not read."""
    (tmp_path / "file").write_text("", encoding="utf-8")
    keep_look("daylight", tmp_path / "file" / "below")
    assert kept_look(tmp_path / "file" / "below") is None
    (tmp_path / "look").write_bytes(b"\xff\xfe no look")
    assert kept_look(tmp_path) is None


def test_every_look_is_told_of() -> None:
    """What can be chosen is what many colours can show."""
    assert looks_here(COLOURS) == tuple(LOOKS)


@pytest.mark.parametrize(
    "words", [["--look", "noon"], ["walk", "tingle", "--look=noon"], ["--look", "noon", "--plain"]]
)
def test_an_option_with_a_wrong_name_opens_nothing(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """At the start and in a walk: one line that says what there is, and the exit code for a wrong command line."""
    assert cli.run(words) == Exit.USAGE
    said = capsys.readouterr().err
    assert said == '--look: there is no look "noon". There are: dusk, daylight, contrast, terminal.\n'


@pytest.mark.parametrize("words", [["--look", "daylight"], ["walk", "tingle", "--look=daylight"]])
def test_an_option_says_how_it_looks(words: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """What is on the command line comes before the environment, and needs no more than the quick way in."""
    monkeypatch.setenv("SHOREWALK_LOOK", "contrast")
    assert cli.walk_options(words)
    seen: list[str] = []

    def opened(_: object) -> int:
        seen.append(look_of())
        return 0

    monkeypatch.setattr("shorewalk.walking._in_app", opened)
    monkeypatch.setattr("shorewalk.walking.draws_nothing", lambda: False)
    assert cli.run(words) == Exit.CLEAN
    assert seen == ["daylight"]
