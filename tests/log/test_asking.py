"""When the site is asked for."""

from __future__ import annotations

import pytest

from shorewalk.journal import Journal, Keeper
from shorewalk.journal.where import Where
from shorewalk.log.asking import asking
from shorewalk.tree.library import shipped

from .conftest import SITE, SUPPER, Clock, Keep

ACT_FIRST = ("somebody-hurt", "tingle", "something-broke", "hot-plug", "some-bright", "storm")


def asked(journal: Journal, tree: str) -> bool:
    return asking(tree, journal.walks(), shipped().site, journal.clock()) is not None


@pytest.mark.parametrize("tree", ACT_FIRST)
def test_nobody_who_must_act_is_asked(journal: Journal, tree: str) -> None:
    """Whoever felt a tingle is not asked which site this is."""
    assert not asked(journal, tree)


def test_who_leaves_is_not_asked(journal: Journal) -> None:
    """It would be of no use any more."""
    assert not asked(journal, "leaving")


@pytest.mark.parametrize("where", [SITE, Where(visited="2024-05-01")], ids=["said", "passed by"])
def test_it_is_asked_once_in_a_stay(journal: Journal, keep: Keep, clock: Clock, where: Where) -> None:
    """Once it was said or passed by, no more for a day; then it is asked again, with the last site offered."""
    assert asked(journal, "voltage-low")
    keep(SUPPER, "2024-05-01T18:00:00", where)
    assert not asked(journal, "voltage-low")
    clock.set("2024-05-04T18:00:00")
    again = asking("voltage-low", journal.walks(), shipped().site, clock())
    assert again is not None
    assert (again.offered.site if again.offered else None) == where.site


def test_who_arrives_is_asked(journal: Journal, keep: Keep) -> None:
    """They may have come from another site this morning; that one is offered."""
    keep(SUPPER, "2024-05-01T18:00:00", SITE)
    question = asking("arrival", journal.walks(), shipped().site, journal.clock())
    assert question is not None
    assert question.offered is not None
    assert question.offered.says == "site 14, Someday Flats"


def test_a_walk_by_the_command_line_counts_as_no_answer(journal: Journal, keep: Keep) -> None:
    """Where nobody was asked, the question is still to come."""
    number = keep(SUPPER, "2024-05-01T18:00:00")
    assert not any(Keeper(journal, number).placing.where[:2])
    assert asked(journal, "voltage-low")
