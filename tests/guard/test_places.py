"""Where a shared login may read and write."""

from __future__ import annotations

from pathlib import Path

from shorewalk.folders import trees
from shorewalk.guard.places import Places, places


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


def test_a_link_among_programs_leads_to_nobody(tmp_path: Path) -> None:
    """What is read is where a path leads in the end: a link in a folder of programs is no way to walks."""
    other, programs = tmp_path / "people" / "bob", tmp_path / "programs"
    for folder in (other, programs):
        folder.mkdir(parents=True)
    (other / "walks.sqlite3").touch()
    (programs / "file").touch()
    (programs / "way").symlink_to(other)
    (programs / "same").symlink_to(other / "walks.sqlite3")
    (programs / "file-too").symlink_to("file")
    walks = f"{tmp_path}/people/"
    allowed = Places((f"{walks}ann/",), (walks,), (f"{programs}/",), {})
    for _ in range(2):  # where a folder lies is worked out once
        assert allowed.may_read(f"{programs}/file")
        assert allowed.may_read(f"{programs}/file-too")
        for name in (
            "way",
            "way/walks.sqlite3",
            "way/../bob/walks.sqlite3",
            "same",
            "../people/bob/walks.sqlite3",
        ):
            assert not allowed.may_read(f"{programs}/{name}"), name
            assert not allowed.may_load(f"{programs}/{name}"), name
