"""What is worked out from the answers of a walk: how many of them still fit, and the readings in force."""

from __future__ import annotations

import json
import zlib
from dataclasses import dataclass, fields
from operator import attrgetter

from shorewalk.walk.known import Known
from shorewalk.walk.walk import Walk
from shorewalk.walk.wording import BREAKER_OFF, LOAD_ON


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading in force. `about` is what it is about, its load aside; `time` is ISO 8601 in UTC."""

    about: str
    loaded: bool
    dead: bool  # read with the breaker off
    time: str
    known: Known


@dataclass(frozen=True, slots=True)
class Worked:
    """`fit` answers of a walk are understood; None: its trees cannot be read. `known` are its readings in force."""

    fit: int | None = None
    known: tuple[Known, ...] = ()

    def readings(self, changed: str) -> tuple[Reading, ...]:
        """Return the readings in the order taken; without a time of its own, one is of `changed`."""
        return tuple(_reading(known, changed) for known in self.known)


def worked(walk: Walk | None) -> Worked:
    """Work it out from a walk; None is one whose trees cannot be read."""
    if walk is None:
        return Worked()
    in_force = (each for each in walk.now.known if each.place and each.value is not None and not each.void)
    return Worked(len(walk.answers), tuple(in_force))


def _reading(known: Known, changed: str) -> Reading:
    return Reading(
        about=known.says.removesuffix(f", {LOAD_ON}").removesuffix(f", {BREAKER_OFF}"),
        loaded=known.load not in (None, "none"),
        dead=known.says.endswith(f", {BREAKER_OFF}"),
        time=known.time or changed,
        known=known,
    )


NAMES = tuple(each.name for each in fields(Known))
_values = attrgetter(*NAMES)


def packed(out: Worked) -> bytes:
    """Return it as bytes, for the journal."""
    return zlib.compress(json.dumps([out.fit, [_values(known) for known in out.known]]).encode())


def unpacked(data: bytes) -> Worked | None:
    """Return what was packed; None where that is damaged."""
    try:
        fit, rows = json.loads(zlib.decompress(data))
        if not all(len(row) == len(NAMES) for row in rows):
            return None
        return Worked(fit, tuple(Known(*row) for row in rows))
    except (zlib.error, ValueError, TypeError):
        return None
