"""The sag against the load: drawn with its limits across it, or in a sentence."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from shorewalk.lines import BLANK, Line, Span, line
from shorewalk.tree.facts import Site
from shorewalk.walk.known import Worked

if TYPE_CHECKING:
    from shorewalk.plots import Plot

HEIGHT = 13
WHERE = {"sag-percent": "pedestal", "rig-sag-percent": "rig"}
"""Where a sag was read, by what it was worked out as."""
PLACES = {"pedestal": "at the pedestal", "rig": "in the rig"}
DRAWN = "k shows the sag drawn against the load."


def sag_plot(percent: float, amps: float, where: str, site: Site) -> Plot:
    """Return the plot of a sag of `percent` that `amps` made, `where`: at the pedestal or in the rig."""
    from shorewalk.electrics.sag import TEST_AMPS  # no question waits for what only a plot needs
    from shorewalk.plots import Curve, Plot

    most = max(15.0, 1.5 * amps)
    xs = tuple(most * step / 40 for step in range(41))
    return Plot(
        f"Sag {PLACES[where]} against the load",
        "amps",
        "% lost",
        (Curve("this supply", xs, tuple(percent / amps * x for x in xs)),),
        tuple((value, f"{says} from {value:g} % at 12.5 A") for says, value in _limits(where, site)),
        (amps, percent),
        TEST_AMPS,
    )


def sags_in(worked: Iterable[Worked]) -> dict[str, tuple[float, float]]:
    """Return where a sag was worked out for a known load, with its percent and the amps that made it.

    Where there are several (two legs), the greatest for each ampere.
    """
    found: dict[str, tuple[float, float]] = {}
    for each in worked:
        given, where = dict(each.inputs), WHERE.get(each.out)
        if where is None or each.using != "sag_percent_scaled":
            continue
        amps = given["amps"]
        percent = 100 * (given["unloaded"] - given["loaded"]) / given["unloaded"]
        if percent > 0 and percent / amps > _slope(found.get(where)):
            found[where] = percent, amps
    return found


def sag_lines(worked: Iterable[Worked], site: Site, room: int, *, ascii_only: bool) -> list[Line]:
    """Return the plots of what sagged, under each other; nothing where nothing did."""
    from shorewalk.plots import draw

    rows: list[Line] = []
    for where, (percent, amps) in sags_in(worked).items():
        title, *drawn = draw(
            sag_plot(percent, amps, where, site), room, ascii_only=ascii_only, height=HEIGHT
        ).splitlines()
        rows += [BLANK, line(Span(title, "group")), *(line(Span(row, "plain")) for row in drawn)]
    return rows


def sags_in_words(worked: Iterable[Worked], site: Site) -> list[str]:
    """Return the same in a sentence for each place."""
    from shorewalk.electrics.sag import TEST_AMPS

    return [
        f"Sag {PLACES[where]} against the load, a straight line: {10 * percent / amps:.1f} % for each 10 A, "
        f"{TEST_AMPS * percent / amps:.1f} % at 12.5 A. At 12.5 A "
        + ", ".join(f"{says} is from {value:g} %" for says, value in _limits(where, site))
        + "."
        for where, (percent, amps) in sags_in(worked).items()
    ]


def _slope(sag: tuple[float, float] | None) -> float:
    return sag[0] / sag[1] if sag else 0.0


def _limits(where: str, site: Site) -> list[tuple[str, float]]:
    return [
        (says, site.limits[f"sag-{where}-{end}"].value) for end, says in (("ok", "watch"), ("stop", "stop"))
    ]
