"""Text for terminals that show ASCII only."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as some

from shorewalk.letters import in_ascii, says_utf_8
from shorewalk.lines import cells
from shorewalk.marks import cannot_show_blocks


@given(some.text(some.characters(exclude_categories=["Cc", "Cs"])))
def test_it_is_ascii_and_as_wide(text: str) -> None:
    """Whatever comes is ASCII, and takes as many cells as before."""
    assert in_ascii(text).isascii()
    if not text.isascii():
        assert len(in_ascii(text)) == cells(text)


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("don’t", "don't"),
        ("“so”", '"so"'),
        ("a – b…", "a - b."),
        ("café", "cafe"),
        ("10 Ω, 5 µA, 45°", "10 ?, 5 ?A, 45?"),
    ],
)
def test_no_letter_becomes_another(text: str, plain: str) -> None:
    """Quotes and dashes are others, accents go; a sign that nothing stands for is a question mark, no letter."""
    assert in_ascii(text) == plain


@pytest.mark.parametrize(
    ("env", "utf_8"),
    [
        ({}, False),
        ({"LANG": "C"}, False),
        ({"LANG": "POSIX"}, False),
        ({"LANG": "en_US.ISO-8859-1"}, False),
        ({"LANG": "C.UTF-8"}, True),
        ({"LANG": "de_DE.utf8"}, True),
        ({"LC_CTYPE": "UTF-8"}, True),
        ({"LC_ALL": "C", "LC_CTYPE": "C.UTF-8", "LANG": "C.UTF-8"}, False),
        ({"LC_ALL": "", "LC_CTYPE": "", "LANG": "C.UTF-8"}, True),
    ],
)
def test_the_locale_says_whether_it_is_utf_8(env: dict[str, str], utf_8: bool) -> None:  # noqa: FBT001 (a case)
    """The first that is set of LC_ALL, LC_CTYPE and LANG; where none is, the locale is C."""
    assert says_utf_8(env, forced=False) is utf_8


def test_what_python_sets_is_not_what_was_said() -> None:
    """Where Python takes the locale for one of UTF-8, LC_CTYPE is its own; a name in LANG still counts."""
    assert not says_utf_8({"LANG": "C", "LC_CTYPE": "C.UTF-8"}, forced=True)
    both = {"LANG": "en_US.UTF-8", "LC_CTYPE": "C.UTF-8"}
    assert says_utf_8(both, forced=True, there=lambda _: False)
    assert not says_utf_8(both, forced=True, there=lambda _: True)  # so LC_CTYPE was C, and comes first


def test_a_locale_that_is_not_utf_8_gets_ascii(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever Python makes of the locale for itself."""
    monkeypatch.delenv("SHOREWALK_ASCII", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("LC_ALL", "POSIX")
    assert cannot_show_blocks()
