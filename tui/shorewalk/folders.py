"""Where the trees and the invented campground lie: in a wheel beside the package, else in the checkout."""

from __future__ import annotations

from pathlib import Path


def trees() -> Path:
    """Return the folder of decision trees."""
    return _find("trees")


def demo_data() -> Path:
    """Return the folder of the invented campground."""
    return _find("demo_data")


def _find(name: str) -> Path:
    package = Path(__file__).resolve().parent
    beside = package / name
    # Not importlib.resources: an editable install can leave a stale copy where that looks.
    return beside if beside.is_dir() else package.parents[1] / name
