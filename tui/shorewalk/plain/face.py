"""Where the probes go on the face of an outlet, in words read off its drawing."""

from __future__ import annotations

from shorewalk.faces import Picture, art_of

NEAR = 0.15
"""A slot this near the middle, as a share of the face, is neither left nor right, top nor bottom."""


def probes_in_words(picture: Picture) -> str:
    """Return which way up the face is and where each probe goes on it; nothing where there is no face."""
    if not art_of(picture.place).turns:
        return ""
    spots = [
        f"{probe} goes {_spot(picture, terminal)}"
        for probe, terminal in (("black", picture.black), ("red", picture.red))
        if terminal in art_of(picture.place).slots.values()
    ]
    if not spots:
        return ""
    where = ", ".join(spots)
    if picture.ground_up is None:
        return f"With the round hole at the bottom: {where}. If it is at the top, all is turned upside down."
    return f"Round hole at the {'top' if picture.ground_up else 'bottom'}: {where}."


def _spot(picture: Picture, terminal: str) -> str:
    """Return `upper left`, `bottom middle` and the like."""
    art = art_of(picture.place)
    letter = next(letter for letter, name in art.slots.items() if name == terminal)
    slots = [(x, y) for y, row in enumerate(art.large) for x, cell in enumerate(row) if cell in art.slots]
    mine = [(x, y) for x, y in slots if art.large[y][x] == letter]
    across = _share([x for x, _ in mine], [x for x, _ in slots])
    down = _share([y for _, y in mine], [y for _, y in slots])
    if picture.ground_up:
        across, down = -across, -down
    side = "" if abs(across) < NEAR else "left" if across < 0 else "right"
    level = "" if abs(down) < NEAR else "upper" if down < 0 else "lower"
    if side:
        return f"{level} {side}".strip()
    return {"upper": "top middle", "lower": "bottom middle", "": "in the middle"}[level]


def _share(mine: list[int], every: list[int]) -> float:
    """Return how far the middle of a slot is from the middle of all of them, as a share of their span."""
    middle = (min(every) + max(every)) / 2
    return ((min(mine) + max(mine)) / 2 - middle) / (max(every) - min(every))
