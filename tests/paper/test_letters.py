"""Letters that paper and text messages can show: nothing else comes out, and nothing plain is changed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.marks import GRADES, VERDICTS
from shorewalk.paper.letters import GSM, message_letters, plain_letters

PRINTABLE = "".join(map(chr, range(32, 127)))


@given(st.text())
def test_paper_gets_letters_it_has(text: str) -> None:
    """Whatever is typed comes out in Latin-1; done again, nothing changes."""
    plain = plain_letters(text)
    plain.encode("latin-1")
    assert plain_letters(plain) == plain


@given(st.text(PRINTABLE))
def test_plain_text_is_left_as_it_is(text: str) -> None:
    """What is plain already is not touched."""
    assert plain_letters(text) == text


@given(st.text())
def test_a_message_is_one_line_of_letters_that_count_once(text: str) -> None:
    """A text message takes one place for each letter, and there is one line of them."""
    line = message_letters(text)
    assert set(line) <= GSM - {"\n"}
    assert message_letters(line) == line


def test_marks_and_signs_keep_their_meaning() -> None:
    """Marks become what a terminal of ASCII shows; signs of electricity become words."""
    for mark in (*GRADES.values(), *VERDICTS.values()):
        assert plain_letters(mark.mark) == mark.ascii
    assert plain_letters("3 Ω ≤ 4 “Ω” – ±2 °C √2") == '3 ohm <= 4 "ohm" - ±2 °C sqrt 2'
    assert plain_letters("Łódź, Ñandú, ﬁne, 東") == "?ódz, Ñandú, fine, ?"
    assert message_letters("  Site [14]\n`Ñandú` ç € “quoted” ") == "Site (14) 'Ñandu' c ? \"quoted\""
    assert message_letters("Ωmega") == "Ωmega"


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("Site 12½", "Site 12 1/2"),
        ("½", "1/2"),
        ("½4", "1/2 4"),
        ("12\u00be B", "12 3/4 B"),
        ("⅟4", "1/4"),
        ("1⁄2", "1/2"),
        ("14²", "14?"),
        ("²14", "?14"),
        ("14①", "14?"),
        ("⑫", "?"),
        ("¹²", "??"),
        ("\uff11\uff14", "14"),
        ("L₁", "L1"),
    ],
)
def test_no_number_becomes_another_one(typed: str, told: str) -> None:
    """A fraction is written out apart from the number before it; what would run into a number is a question mark."""
    assert message_letters(typed) == told


def test_paper_changes_no_number_either() -> None:
    """Latin-1 has some fractions and small digits, which stay; the others are told as in a message."""
    assert plain_letters("12½ 14² 12⅓ 10⁵ ⑫") == "12½ 14² 12 1/3 10? ?"


def test_gsm_letters_are_the_alphabet_of_text_messages() -> None:
    """128 places less the escape and the carriage return (3GPP TS 23.038, table of the default alphabet)."""
    assert len(GSM) == 126
    assert set("ABCXYZabcxyz0189 @$%&'()*+,-./:;<=>?!\"#_éèùìòÇØøÅåÆæßÄÖÑÜäöñüà") <= GSM
    assert not GSM & set("[]{}\\^~|`€úç")
