"""How linting grows with a tree, beside `yamllint -d relaxed` on the same file.

In `tests/`: `python -m bench.scale`.

Not a test: nothing here fails. Whole processes are timed in turn, A B A B, and medians compared, so that a machine
which drifts slows both. Memory is the most that a process held, as the kernel tells it.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from .synthetic import synthetic

SIZES = {100: 7, 1_000: 5, 10_000: 3}  # nodes, and how often each is run
TOOLS = Path(sys.executable).parent
COMMANDS = {
    "lint": [str(TOOLS / "shorewalk"), "lint"],
    "yamllint": [str(TOOLS / "yamllint"), "-d", "relaxed"],
}


def ran(words: list[str]) -> tuple[float, float]:
    """Run a command; return its seconds and the most memory it held, in MB."""
    began = time.perf_counter()
    with subprocess.Popen(words, stdout=subprocess.DEVNULL) as child:
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        raise SystemExit(f"{' '.join(words)} ended with {child.returncode}.")
    return time.perf_counter() - began, usage.ru_maxrss / 1024


def main() -> None:
    """Measure and print."""
    before = 0.0
    sys.stdout.write(f"{'nodes':>7}{'lint':>9}{'yamllint':>10}{'ratio':>7}{'growth':>8}{'memory':>9}\n")
    for nodes, runs in SIZES.items():
        with tempfile.TemporaryDirectory() as folder:
            file = Path(folder) / "scale.yaml"
            file.write_text(synthetic(nodes), encoding="utf-8")
            timed = [[ran([*words, str(file)]) for words in COMMANDS.values()] for _ in range(runs)]
        lint, other = (median(each[at][0] for each in timed) for at in (0, 1))
        memory = max(each[0][1] for each in timed)
        growth = f"{lint / before:.1f}" if before else ""
        sys.stdout.write(
            f"{nodes:7}{lint:7.2f} s{other:8.2f} s{lint / other:7.2f}{growth:>8}{memory:6.0f} MB\n"
        )
        sys.stdout.flush()
        before = lint


if __name__ == "__main__":
    main()
