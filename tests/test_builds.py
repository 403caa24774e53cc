"""What is built: the same bytes whenever and wherever, from the checkout and from the source archive, and no junk."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tarfile
import zipfile
from collections import Counter
from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path, PurePosixPath

import pytest

TOP = Path(__file__).parent.parent
FOLDERS = ("tui", "trees", "demo_data", "tests")
FILES = ("README.md", "DEVELOPERS.md", "pyproject.toml", ".gitignore")
DOT_FILES = (".pre-commit-hooks.yaml", ".ci/run")
SUFFIXES = {".py", ".yaml", ".json", ".svg", ".tcss", ".typed", ".txt"}
"""Of what the package may hold."""

pytestmark = pytest.mark.skipif(
    not (TOP / "tui").is_dir() or not (find_spec("build") and find_spec("hatchling")),
    reason="nothing to build from here, or nothing to build with",
)


def copied(to: Path, when: int, mode: int) -> Path:
    """Return a copy of what is built from, all its files of one time, with other rights."""
    junk = shutil.ignore_patterns("__pycache__", ".*_cache", ".hypothesis")
    for name in FOLDERS:
        shutil.copytree(TOP / name, to / name, ignore=junk)
    for name in (*FILES, *DOT_FILES):
        (to / name).parent.mkdir(exist_ok=True)
        shutil.copyfile(TOP / name, to / name)
    for path in to.rglob("*"):
        if path.is_file():
            path.chmod(mode)
            os.utime(path, (when, when))
    return to


def built(source: Path, out: Path, *kinds: str, **env: str) -> dict[str, bytes]:
    """Build, without a network; return what was built, by the ending of its name."""
    subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", *kinds, "--outdir", str(out), str(source)],
        env={**{k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"}, **env},
        check=True,
        capture_output=True,
    )
    return {path.suffix: path.read_bytes() for path in out.iterdir()}


@pytest.fixture(scope="module")
def places(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The same sources in two places, of two times, with two kinds of rights."""
    return [
        copied(tmp_path_factory.mktemp("one") / "shorewalk", 1_700_000_000, 0o644),
        copied(tmp_path_factory.mktemp("another") / "deeper" / "checkout", 1_900_000_000, 0o600),
    ]


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """Where builds go."""
    return tmp_path_factory.mktemp


@pytest.fixture(scope="module")
def first(places: list[Path], out: Callable[[str], Path]) -> dict[str, bytes]:
    """A wheel and an archive of the sources, both from the checkout."""
    return built(places[0], out("first"), "--wheel", "--sdist")


@pytest.mark.parametrize("epoch", [{}, {"SOURCE_DATE_EPOCH": "1600000000"}])
def test_two_builds_are_the_same_bytes(
    places: list[Path], out: Callable[[str], Path], first: dict[str, bytes], epoch: dict[str, str]
) -> None:
    """Whether or not a time is set from outside: place, time and rights of the files do not get in."""
    one = built(places[0], out("one"), "--wheel", "--sdist", **epoch) if epoch else first
    assert set(one) == {".whl", ".gz"}
    assert built(places[1], out("another"), "--wheel", "--sdist", **epoch) == one


def test_a_wheel_from_the_archive_is_the_one_from_the_checkout(
    out: Callable[[str], Path], first: dict[str, bytes]
) -> None:
    """So whatever holds for the wheel holds for who builds it from the archive."""
    archive = out("archive") / "shorewalk.tar.gz"
    archive.write_bytes(first[".gz"])
    with tarfile.open(archive) as tar:
        tar.extractall(archive.parent, filter="data")
    (source,) = [path for path in archive.parent.iterdir() if path.is_dir()]
    assert built(source, out("again"), "--wheel")[".whl"] == first[".whl"]


def test_the_archive_holds_what_its_tests_need(
    places: list[Path], out: Callable[[str], Path], first: dict[str, bytes]
) -> None:
    """Every file of the folders and every dot-file that a test reads is in it."""
    archive = out("listed") / "shorewalk.tar.gz"
    archive.write_bytes(first[".gz"])
    with tarfile.open(archive) as tar:
        names = {PurePosixPath(name).relative_to(PurePosixPath(name).parts[0]) for name in tar.getnames()}
    sources = {path.relative_to(places[0]) for path in places[0].rglob("*") if path.is_file()}
    assert {PurePosixPath(path.as_posix()) for path in sources} <= names


def test_the_wheel_holds_no_junk(out: Callable[[str], Path], first: dict[str, bytes]) -> None:
    """Nothing but the package with its trees and its campground, nothing twice, and its own description."""
    wheel = out("junk") / "shorewalk.whl"
    wheel.write_bytes(first[".whl"])
    with zipfile.ZipFile(wheel) as zipped:
        names = zipped.namelist()
        about = zipped.read(next(name for name in names if name.endswith("METADATA"))).decode()
    package = [PurePosixPath(name) for name in names if not name.split("/")[0].endswith(".dist-info")]
    assert {path.parts[0] for path in package} == {"shorewalk"}
    assert {path.suffix for path in package} <= SUFFIXES
    assert not [path for path in package if any(part.startswith((".", "__pycache__")) for part in path.parts)]
    assert max(Counter(names).values()) == 1
    for field in (
        "Name: shorewalk",
        "Version: ",
        "Summary: ",
        "Requires-Python: ",
        "Description-Content-Type: text/m",
    ):
        assert f"\n{field}" in about
