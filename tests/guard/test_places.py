"""Where a shared login may read and write."""

from __future__ import annotations

from pathlib import Path

from shorewalk.folders import trees
from shorewalk.guard.places import places


def test_walks_that_lie_among_programs_are_still_nobody_elses() -> None:
    """Where walks are kept in a folder that programs are read from, only the own ones may be read."""
    walks = Path("/usr/share/walks")
    allowed = places(walks / "people" / "ann", walks)
    assert allowed.may_read("/usr/share/zoneinfo/UTC")
    assert allowed.may_read("/usr/share/walks/people/ann/walks.sqlite3")
    for other in ("people/bob/walks.sqlite3", "people/anna/walks.sqlite3", "walks.sqlite3", "people", ""):
        assert not allowed.may_read(f"/usr/share/walks/{other}")
        assert not allowed.may_read(f"/usr/share/walks/people/ann/../../{other}")


def test_programs_are_read_and_never_written() -> None:
    """Trees and libraries are read; nothing of them is changed, and no library is loaded from the own folder."""
    own = Path("/srv/walks/people/ann")
    allowed = places(own, own.parents[1])
    tree = str(trees() / "arrival.yaml")
    assert allowed.may_read(tree)
    assert not allowed.may_write(tree)
    assert allowed.may_write(str(own / "saved" / "mine"))
    assert allowed.may_load("/usr/lib/libm.so.6")
    assert not allowed.may_load(str(own / "mine.so"))
    assert not allowed.may_read("/home/somebody/.ssh/id_ed25519")
