"""What a question about loads offers can be answered: nobody picks a line and is told that it is none."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from shorewalk.folders import demo_data
from shorewalk.pages.options import Option, options_of
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library
from shorewalk.tree.model import Tally
from shorewalk.walk.answers import Running
from shorewalk.walk.walk import Walk, begin

NOTHING = Running(())


@pytest.fixture(scope="module")
def tallies(library: Library) -> dict[tuple[str, str], Walk]:
    """A walk to every question about loads that recorded walks come to, by its tree and node."""
    found: dict[tuple[str, str], Walk] = {}
    for path in sorted((demo_data() / "walks").glob("*.yaml")):
        if "running: {" in path.read_text(encoding="utf-8"):
            one = read_recorded(path, library)
            walk = begin(library, one.walk, one.meter)
            for _, _, answer, time in one.answers:
                if isinstance(walk.now.node, Tally):
                    found.setdefault((walk.now.tree, walk.now.node.name), walk)
                walk = walk.answer(answer, time)
    return found


def _answers(walk: Walk, **ticked: int) -> Iterator[Option]:
    node = walk.now.node
    assert isinstance(node, Tally)
    return (option for option in options_of(node, walk.library.site, ticked) if option.answer)


def test_all_that_is_offered_is_taken(tallies: dict[tuple[str, str], Walk]) -> None:
    """Each line that answers, with nothing ticked and with one load, leads on from every such question."""
    assert len({tree for tree, _ in tallies}) > 5
    for walk in tallies.values():
        load = walk.now.node.loads[0]  # type: ignore[attr-defined]
        for option in (*_answers(walk), *_answers(walk, **{load: 1})):
            assert option.answer
            assert walk.answer(option.answer).now.node != walk.now.node, option.says


def test_nothing_is_offered_where_it_may_have_been_so(tallies: dict[tuple[str, str], Walk]) -> None:
    """The air conditioner may have run alone. A load that a sum divides by was something."""
    offers = {key: NOTHING in [option.answer for option in _answers(walk)] for key, walk in tallies.items()}
    assert offers["air-conditioner", "others"]
    assert not offers["air-conditioner", "motor"]
    assert not offers["air-conditioner", "load.which_load"]
    assert [option.says for option in _answers(tallies["air-conditioner", "motor"])] == ["Not sure"]
