"""What `--help` says: the first question first, all of it legible on a phone."""

from __future__ import annotations

import re

import click
import pytest

from shorewalk.emergency import CARD
from shorewalk.exits import Exit
from shorewalk.subcommands import run_command
from shorewalk.subcommands.group import GROUPS, shorewalk

WIDTHS = (45, 80)
NAMES = tuple(shorewalk.commands)


def helped(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, width: int, *words: str
) -> list[str]:
    """Return the lines of help as they stand in a window of this width."""
    monkeypatch.setenv("COLUMNS", str(width))
    assert run_command([*words, "--help"]) == Exit.CLEAN
    return capsys.readouterr().out.splitlines()


@pytest.mark.parametrize("width", WIDTHS)
def test_help_answers_the_first_question_first(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, width: int
) -> None:
    """Somebody hurt stands first, then what to type, then the commands at the pedestal; 20 lines hold that much."""
    lines = helped(capsys, monkeypatch, width)
    first = " ".join(lines[:20])
    words = " ".join(first.split())
    places = [
        words.index(part)
        for part in ("Somebody hurt", CARD[0], "911", "shorewalk It asks", "At the pedestal")
    ]
    assert places == sorted(places)
    assert places[0] == 0


@pytest.mark.parametrize(("width", "height"), [(80, 24), (45, 25)])
def test_help_fits_one_screen(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, width: int, height: int
) -> None:
    """With the prompt below it nothing scrolls away: the first line is the one to read first."""
    assert len(helped(capsys, monkeypatch, width)) < height


@pytest.mark.parametrize(
    "words", [("practice",), ("walk",), ("walk", "the", "--plain"), ("practise", "creek-1")]
)
def test_no_list_is_broken_by_the_window(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    """Sites, trees and what to type instead stay within a phone's width, on a terminal."""
    monkeypatch.setenv("COLUMNS", "45")
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    run_command([*words])
    said = capsys.readouterr()
    lines = (said.out + said.err).splitlines()
    assert lines
    assert not [line for line in lines if len(line) > 45]


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", ["", *NAMES])
def test_no_line_of_help_is_broken_by_the_window(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, width: int, name: str
) -> None:
    """Every line is narrower than the window, and nothing is cut short."""
    lines = helped(capsys, monkeypatch, width, *filter(None, [name]))
    epilog = lines.index("Act now") if "Act now" in lines else len(lines)
    assert not [line for line in lines[:epilog] if len(line) >= width]
    assert not [line for line in lines if re.search(r"[a-z;:,]\.\.\.$", line)]


def test_every_command_stands_once_under_who_needs_it() -> None:
    """Each has a group, a short line of its own that fits beside its name, and a sentence of help."""
    listed = [command for group in GROUPS for command in group.commands]
    assert sorted(command.name or "" for command in listed) == sorted(NAMES)
    for command in listed:
        assert command.short_help, command.name
        assert len(command.short_help) <= 60, command.name
        assert command.help, command.name


@pytest.mark.parametrize("name", NAMES)
def test_every_option_says_what_it_does(name: str) -> None:
    """No option stands in help without words."""
    for param in shorewalk.commands[name].params:
        if isinstance(param, click.Option):
            assert param.help, f"{name} {param.opts}"


def test_help_is_a_command_too(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """`shorewalk help` and `shorewalk help walk` say what `--help` says there."""
    for words in ((), ("walk",)):
        wanted = helped(capsys, monkeypatch, 80, *words)
        assert run_command(["help", *words]) == Exit.CLEAN
        assert capsys.readouterr().out.splitlines() == wanted


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("practise creek-1", "shorewalk practice creek-1"),
        ("lnit", "shorewalk lint"),
        ("zap", "shorewalk walk zap"),
        ("arival", "shorewalk walk arrival"),
        ("lights dim", "shorewalk walk lights dim"),
        ("juniper/low.yaml", "shorewalk walk juniper/low.yaml"),
        ("help lnit", "shorewalk lint --help"),
    ],
)
def test_a_slip_gets_the_command_to_type(capsys: pytest.CaptureFixture[str], typed: str, told: str) -> None:
    """A command spelt wrongly gets the right one, a symptom in its place gets `walk` before it."""
    assert run_command(typed.split()) == Exit.USAGE
    assert told in " ".join(capsys.readouterr().err.split())


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("lint --explan", "--explan|How to type it: shorewalk lint --help"),
        ("walk --resume", "requires an argument. How to type it: shorewalk walk --help"),
        ("new", "Missing argument 'NAME'. How to type it: shorewalk new --help"),
        ("completion", "Missing argument 'SHELL'. Choose from: bash, zsh, fish."),
        ("trial --variants 0", "0 is not in the range 1 to 10000. How to type it: shorewalk trial --help"),
        ("--xyz", "--xyz|How to type it: shorewalk --help"),
    ],
)
def test_what_is_typed_wrongly_is_told_in_one_line(
    capsys: pytest.CaptureFixture[str], typed: str, told: str
) -> None:
    """What was found, what there is, and where it says how to type it."""
    assert run_command(typed.split()) == Exit.USAGE
    said = capsys.readouterr().err
    for part in told.split("|"):
        assert part in said
    assert said.count("\n") == 1
