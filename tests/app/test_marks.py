"""Grades and verdicts: a word and a one-cell mark, with a form for terminals that show ASCII only."""

from __future__ import annotations

from shorewalk.lines import cells
from shorewalk.marks import AGAIN, GRADES, NOTED, VERDICTS, grade_mark, verdict_mark
from shorewalk.theme import ROLES
from shorewalk.tree import model
from shorewalk.walk.ending import VERDICTS as SPOKEN


def test_every_grade_and_verdict_has_a_mark() -> None:
    """None of the tree's grades or verdicts is without a word and a mark."""
    assert set(GRADES) == set(model.GRADES)
    assert set(VERDICTS) == set(model.VERDICTS)


def test_marks_are_one_cell_and_their_other_form_is_ascii() -> None:
    """A mark takes one cell; where blocks cannot be shown, another sign of one cell stands for it."""
    for mark in (*GRADES.values(), *VERDICTS.values(), NOTED, AGAIN):
        assert cells(mark.mark) == cells(mark.ascii) == 1
        assert mark.ascii.isascii()
        assert mark.role in ROLES or mark.role == "plain"


def test_grades_differ_by_word_and_by_both_marks() -> None:
    """Two grades are never told apart by colour alone."""
    marks = [*GRADES.values(), NOTED, AGAIN]
    for forms in ([m.word for m in marks], [m.mark for m in marks], [m.ascii for m in marks]):
        assert len(set(forms)) == len(marks)


def test_a_verdict_is_called_the_same_everywhere() -> None:
    """The screen and the saved record use the same words for a verdict."""
    assert {name: verdict_mark(name).word for name in SPOKEN} == SPOKEN


def test_a_void_reading_is_no_good_one() -> None:
    """A reading that counts for nothing shows so, whatever its grade was."""
    assert grade_mark("ok", void=True) is AGAIN
    assert grade_mark(None) is NOTED
