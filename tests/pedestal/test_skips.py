"""Not knowing leads to the safe side: skipped checks at a dangerous pedestal never end well unsaid."""

from __future__ import annotations

import random

import pytest

from shorewalk.pedestal.person import Person

from .drive import NOT_KNOWN, Json, Walked, says, walk_inside
from .table import STOPS, Case, cases


def check(case: Case, walked: Walked) -> None:
    """Never good to use; with care only where what was not ruled out names what is wrong here."""
    assert walked.verdict != "good-to-use", walked.tell()
    if walked.verdict == "use-with-care":
        named = {says(name) for name in case.fault.named}
        assert named & set(walked.end["not_ruled_out"]), walked.tell()


@pytest.mark.parametrize("case", cases(STOPS), ids=str)
def test_one_question_left_open_never_hides_the_fault(case: Case) -> None:
    """Each question of the honest walk in turn is answered unsure, unable or cannot."""
    honest = walk_inside(Person(case.fault.stand(case.outlet), case.outlet))
    for skipped in range(len(honest.said)):

        def skip(count: int, question: Json, skipped: int = skipped) -> Json | None:
            return NOT_KNOWN[question["kind"]] if count == skipped else None

        check(case, walk_inside(Person(case.fault.stand(case.outlet), case.outlet), skip))


@pytest.mark.parametrize("case", cases(STOPS), ids=str)
def test_random_not_knowing_never_hides_the_fault(case: Case) -> None:
    """Few or many questions left open, with and without peg, protector, detector and test load."""
    for seed in range(SEEDS):
        check(case, _walk_carelessly(case, seed))


SEEDS = 12


def _walk_carelessly(case: Case, seed: int) -> Walked:
    chance = random.Random(f"{seed} {case}")  # noqa: S311 (no secret)
    share = chance.choice([0.01, 0.03, 0.1, 0.3])
    lacks = chance.sample(["peg", "protector", "detector", "load"], chance.randint(0, 3))

    def forget(_: int, question: Json) -> Json | None:
        return NOT_KNOWN[question["kind"]] if chance.random() < share else None

    person = Person(case.fault.stand(case.outlet), case.outlet, lacks=frozenset(lacks))
    return walk_inside(person, forget)


def test_careless_walks_do_end_in_use_where_nothing_can_tell() -> None:
    """The two tests above are not empty: without a peg, the false ground of a whole pedestal is used with care."""
    case = next(case for case in cases(STOPS) if case.fault.id == "false ground of all outlets")
    walked = walk_inside(
        Person(case.fault.stand(case.outlet), case.outlet, lacks=frozenset(("peg", "detector")))
    )
    assert walked.verdict == "use-with-care", walked.tell()
    check(case, walked)
