"""A plot in text, drawn by plotext: lines, limits across them, and where the typed numbers lie."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .lines import cut

MARKERS = "*ox#%"
ASCII_FRAME = str.maketrans("┌┐└┘├┤┬┴┼─│", "+++++++++-|")
HEIGHT = 18
"""Lines of a plot, its frame and numbers among them."""


@dataclass(frozen=True, slots=True)
class Curve:
    """A line of a plot."""

    says: str
    x: tuple[float, ...]
    y: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Plot:
    """Lines over one axis, and limits across them (a value and its name), which count at `judged_at`.

    With `spots` the points of a curve are not joined. `across` and `up` are the ends of the axes, where they do not
    begin at zero and end with the last point; `every` is the step of the numbers across.
    """

    title: str
    x_says: str
    y_says: str
    curves: tuple[Curve, ...]
    limits: tuple[tuple[float, str], ...] = ()
    mark: tuple[float, float] | None = None
    judged_at: float | None = None
    spots: bool = False
    across: tuple[float, float] | None = None
    up: tuple[float, float] | None = None
    every: float | None = None


def draw(plot: Plot, room: int, *, ascii_only: bool, height: int = HEIGHT) -> str:
    """Return the plot, `room` cells wide; each line of it has a letter or a braille stroke, named below."""
    import plotext

    plotext.clear_figure()
    plotext.theme("clear")
    plotext.plot_size(room, height)
    names: list[str] = []
    for number, curve in enumerate(plot.curves):
        mark = MARKERS[number % len(MARKERS)]
        single = len(plot.curves) == 1 and not ascii_only and not plot.spots
        put = plotext.scatter if plot.spots else plotext.plot
        put(list(curve.x), list(curve.y), marker="braille" if single else mark)
        names.append(curve.says if single else f"{mark} {curve.says}")
    for value, _ in plot.limits:
        plotext.hline(value)
    if plot.mark:
        plotext.scatter([plot.mark[0]], [plot.mark[1]], marker="@")
    if plot.judged_at is not None:
        plotext.vline(plot.judged_at)
    highest = max([value for value, _ in plot.limits] + [max(curve.y) for curve in plot.curves])
    lowest = min(0.0, *(min(curve.y) for curve in plot.curves))
    left, right = plot.across or (0.0, max(max(curve.x) for curve in plot.curves))
    bottom, top = plot.up or (lowest, 1.05 * highest)
    plotext.ylim(bottom, top)
    plotext.xlim(left, right)
    plotext.xticks(_steps(left, right, plot.every) if plot.every else round_steps(right, 4))
    plotext.yticks(_between(bottom, top, height // 3) if plot.up else round_steps(top, height // 3))
    drawn = "\n".join(line.rstrip() for line in plotext.uncolorize(plotext.build()).split("\n"))
    across = [f"--- {says} ({value:.3g})" for value, says in plot.limits]
    if plot.judged_at is not None:
        across.append(f"| judged at {plot.judged_at:g}")
    yours = [f"@ yours ({plot.mark[0]:.3g}, {plot.mark[1]:.3g})"] if plot.mark else []
    below = [f"across: {plot.x_says}; up: {plot.y_says}", *names, *across, *yours]
    text = "\n".join(
        [cut(plot.title, room, "..."), drawn.rstrip(), *(cut(line, room, "...") for line in below)]
    )
    return (text.translate(ASCII_FRAME) if ascii_only else text) + "\n"


def _between(bottom: float, top: float, about: int) -> list[float]:
    """Return about so many round numbers from `bottom` to `top`."""
    step = round_steps(top - bottom, about)[1]
    first, last = math.ceil(bottom / step), math.floor(top / step)
    return [round(step * number, 6) for number in range(first, last + 1)]


def _steps(left: float, right: float, every: float) -> list[float]:
    return [left + every * number for number in range(int((right - left) / every) + 1)]


def round_steps(most: float, about: int) -> list[float]:
    """Return about so many round numbers from 0 to `most`: steps of 1, 2 or 5 and their tens."""
    rough = most / about
    ten = 10.0 ** math.floor(math.log10(rough))
    step = next(ten * each for each in (1, 2, 5, 10) if ten * each >= rough)
    return [round(step * number, 6) for number in range(int(most / step) + 1)]
