"""The drawings that `faces` fills in.

Geometry after ANSI/NEMA WD 6, as told by guides, one of which has the hot of TT-30R on the left with the ground up; the
slant of its slots is from memory.

14-50R: two upright hots, a straight neutral on the centre line, ground opposite it. TT-30R: two straight
slots at 45 degrees, neutral left. 5-20R: a T-shaped neutral left, a shorter hot right. All ground down.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Art(NamedTuple):
    """A drawing in two sizes. `slots`: letter -> terminal. `optional`: rows that need a probe."""

    large: tuple[str, ...]
    small: tuple[str, ...]
    slots: Mapping[str, str]
    optional: str = ""
    turns: bool = False


THREE = {"N": "N", "L": "L", "G": "G"}

ART: Mapping[str, Art] = {
    "14-50r": Art(
        large=(
            ".............NN.............",
            ".............NN.nnnnnnnnnn..",
            "............................",
            ".........AA......BB.........",
            "aaaaaaaa.AA......BB.bbbbbbbb",
            ".........AA......BB.........",
            "............................",
            "............(GG).gggggggg...",
        ),
        small=(
            "........NN.nnnnn..",
            "aaaaa.AA..BB.bbbbb",
            "......AA..BB......",
            "........GG.ggggg..",
        ),
        slots={"N": "N", "A": "L1", "B": "L2", "G": "G"},
        turns=True,
    ),
    "tt-30r": Art(
        large=(
            "............................",
            "...........NN..LL...........",
            "nnnnnnn..NN......LL..lllllll",
            ".......NN..........LL.......",
            "............................",
            "............(GG).gggggggg...",
            "............................",
        ),
        small=(
            "nnnnn.NN..LL.lllll",
            ".....NN....LL.....",
            "..................",
            "........GG.ggggg..",
        ),
        slots=THREE,
        turns=True,
    ),
    "5-20r": Art(
        large=(
            "............................",
            "..........NN.....LL.........",
            "nnnnnnn.NNNN.....LL.llllllll",
            "..........NN................",
            "............................",
            "............(GG).gggggggg...",
            "............................",
        ),
        small=(
            "nnnnn.NN..LL.lllll",
            ".....NNN..LL......",
            "......NN..........",
            "........GG.ggggg..",
        ),
        slots=THREE,
        turns=True,
    ),
    "cord-end": Art(
        large=(
            "╭──────────╮................",
            "│..........├─AA.aaaaaaaaaa..",
            "│..........├─BB.bbbbbbbbbb..",
            "┤..........├─LL.llllllllll..",
            "┤..........├─NN.nnnnnnnnnn..",
            "│..........├─GG.gggggggggg..",
            "╰──────────╯................",
        ),
        small=(
            "╭──╮..............",
            "│..├─AA.aaaaaaaa..",
            "│..├─BB.bbbbbbbb..",
            "┤..├─LL.llllllll..",
            "┤..├─NN.nnnnnnnn..",
            "│..├─GG.gggggggg..",
            "╰──╯..............",
        ),
        slots={"A": "L1", "B": "L2", "L": "L", "N": "N", "G": "G"},
        optional="ABLNG",
    ),
    "skin": Art(
        large=(
            "╭──────────────────╮........",
            "│..▢▢▢...▢▢▢...╭──╮│........",
            "│..............│..│SS.sssss.",
            "╰──╭─╮─────╭─╮─┴──┴╯........",
            "───╰─╯─────╰─╯──────────────",
            ".............▼.EE.eeeeeeeeee",
            ".....(.).......OO.oooooooooo",
        ),
        small=(
            "╭─────────╮.......",
            "│.▢▢..▢▢..SS.sssss",
            "╰─╭╮───╭╮─╯.......",
            "──╰╯───╰╯─────────",
            "..▼.EE.eeeeeeeeeee",
            "(.).OO.ooooooooooo",
        ),
        slots={"S": "skin", "E": "earth", "O": "other-ground"},
        optional="EO",
    ),
    "pin": Art(
        large=(
            ".╭──────╮...................",
            "─┤......├───────............",
            "─┤......├─────PP.pppppppp...",
            ".╰──────╯...................",
            "............................",
            ".──────────────MM.mmmmmmmm..",
        ),
        small=(
            ".╭───╮............",
            "─┤...├──PP.pppppp.",
            ".╰───╯............",
            "────────MM.mmmmmm.",
        ),
        slots={"P": "pin", "M": "metal"},
    ),
    "battery": Art(
        large=(
            "mmmmmmmm............pppppppp",
            "...MM..................PP...",
            ".╭─┴┴──────────────────┴┴─╮.",
            ".│..-..................+..│.",
            ".│........................│.",
            ".╰────────────────────────╯.",
        ),
        small=(
            "mmmmmm......pppppp",
            "..MM..........PP..",
            "╭─┴┴──────────┴┴─╮",
            "│..-..........+..│",
            "╰────────────────╯",
        ),
        slots={"M": "minus", "P": "plus"},
    ),
    "other": Art(large=(), small=(), slots={}),
}
