"""The emergency card, after sources that agree on rescue from electric shock.

Found: a public medical encyclopedia as quoted, a hospital network, an electric cooperative.
"""

from __future__ import annotations

from shorewalk.emergency import CARD
from shorewalk.pages.fixed import card_page


def test_the_first_line_saves_the_helper() -> None:
    """The first line of a danger card is the stop action."""
    assert CARD[0].startswith("Do not touch anybody who is in contact")


def test_at_most_nine_lines_of_instruction() -> None:
    """NASA CR-177549 and CAA CAP 676 (found): at most nine lines of instruction on a screen."""
    assert len(CARD) <= 9


def test_sentences_are_short() -> None:
    """US plain-language rules (found): sentences of fifteen to twenty words at most."""
    sentences = [sentence for line in CARD for sentence in line.rstrip(".").split(". ")]
    assert all(len(sentence.split()) <= 20 for sentence in sentences)


def test_the_card_fits_an_ordinary_terminal() -> None:
    """At 80x24 the card is read without scrolling: 76 cells and 19 lines are there for it."""
    assert len(card_page(76)) <= 18
