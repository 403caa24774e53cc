"""The log of a shared login: a person's own walks, worked out once behind the fence too, and nobody else's."""

from __future__ import annotations

import hashlib
import subprocess
import sys
from pathlib import Path

from shorewalk.journal import Journal
from shorewalk.journal.store import FILE

from .conftest import ARRIVAL, SITE, SUPPER, Clock, keeping

END = "=== walks that were replayed so far:"
BEHIND_THE_FENCE = f"""
END = {END!r}
import sys
from pathlib import Path
from shorewalk.guard.command import _raise_guard
from shorewalk.journal import Journal, understood
from shorewalk.log.kept import kept_walks
from shorewalk.log.stays import sites_of
from shorewalk.log.table import Table, site_lines
from shorewalk.lines import as_text
walks = Path(sys.argv[1])
own = walks / "people" / "ann"
_raise_guard(own, walks)
understood.BEGAN = 2**63
journal = Journal.open(own)
replayed = []
load = journal.load
journal.load = lambda *about: replayed.append(about[0]) or load(*about)
for _ in range(2):
    for site in sites_of(kept_walks(journal)):
        print(as_text(site_lines(site, Table(72, ascii_only=True))), END, sorted(replayed))
"""


def test_the_log_shows_a_persons_own_walks_and_keeps_what_it_works_out(tmp_path: Path) -> None:
    """Bob read 109.9 V and the owner 113.3 V at the same site: Ann sees her 111.8 V, the second time without a replay.

    The files of the others stay as they were, byte for byte.
    """
    ann, bob = tmp_path / "people" / "ann", tmp_path / "people" / "bob"
    for folder, volts in ((ann, "111.8"), (bob, "109.9"), (tmp_path, "113.3")):
        clock = Clock()
        journal = Journal.open(folder, clock=clock)
        keep = keeping(journal, clock)
        for day in (1, 2):
            keep(SUPPER, f"2024-05-0{day}T18:50:00", SITE, {"idle.hot_neutral": volts})
        if folder != ann:
            keep(ARRIVAL, "2024-05-03T14:00:00", SITE)
        journal.close()
    others = [bob / FILE, tmp_path / FILE]
    before = [hashlib.sha256(path.read_bytes()).hexdigest() for path in others]
    done = subprocess.run(
        [sys.executable, "-c", BEHIND_THE_FENCE, str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.stderr == ""
    first, second, rest = done.stdout.split(f" {END} [1, 2]\n")
    assert rest == ""
    assert first == second
    assert "111.8" in first
    assert "109.9" not in first
    assert "113.3" not in first
    assert [hashlib.sha256(path.read_bytes()).hexdigest() for path in others] == before
