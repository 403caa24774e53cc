"""Limits that the system itself holds."""

from __future__ import annotations

import resource

LARGEST = 32 * 2**20
"""Bytes a file may come to, the walks' own included: a walk takes some 20 kB, and a disk must not be filled."""


def set_limits() -> None:
    """Leave no memory on the disk where the program ends badly, and let no file grow without end."""
    for what, most in ((resource.RLIMIT_CORE, 0), (resource.RLIMIT_FSIZE, LARGEST)):
        _, hard = resource.getrlimit(what)
        least = most if hard == resource.RLIM_INFINITY else min(most, hard)
        resource.setrlimit(what, (least, least))
