"""Letters stand out from their ground, in every look, in as many colours as a terminal may have."""

from __future__ import annotations

from pathlib import Path

import pytest
from rich.color import Color, ColorSystem, parse_rgb_hex
from rich.style import Style
from rich.terminal_theme import TerminalTheme

from shorewalk.looks import PLAIN, TERMINAL
from shorewalk.theme import PALETTES, ROLES, SIXTEEN, filled, styles

LEAST = {"dusk": 4.5, "daylight": 4.5, "contrast": 7.0}
"""WCAG 2.1, success criteria 1.4.3 and 1.4.6."""
DEPTHS = [ColorSystem.TRUECOLOR, ColorSystem.EIGHT_BIT]

# The sixteen colours as the VGA hardware showed them and as the X terminal does.
VGA = "000000 aa0000 00aa00 aa5500 0000aa aa00aa 00aaaa aaaaaa 555555 ff5555 55ff55 ffff55 5555ff ff55ff 55ffff ffffff"
X11 = "000000 cd0000 00cd00 cdcd00 0000ee cd00cd 00cdcd e5e5e5 7f7f7f ff0000 00ff00 ffff00 5c5cff ff00ff 00ffff ffffff"


def sixteen(colours: str) -> TerminalTheme:
    """Return a theme of sixteen colours, the first and the eighth of which are the terminal's own."""
    dark, *_, pale = eight = [parse_rgb_hex(colour) for colour in colours.split()[:8]]
    bright = [parse_rgb_hex(colour) for colour in colours.split()[8:]]
    return TerminalTheme(dark, pale, [*eight], [*bright])


def light(color: Color, theme: TerminalTheme | None = None) -> float:
    """Return the relative luminance (WCAG 2.1)."""
    parts = [value / 255 for value in color.get_truecolor(theme)]
    linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Color, other: Color, theme: TerminalTheme | None = None) -> float:
    high, low = sorted((light(one, theme), light(other, theme)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def least_of(look: str, depth: ColorSystem) -> float:
    """Return the least contrast of a look: each role, and what is plain, on each ground it stands on."""

    def shown(name: str) -> Color:
        return Color.parse(PALETTES[look][name]).downgrade(depth)

    pairs = [
        (role.color, ground)
        for role in (*ROLES.values(), ROLES["strong"])
        for ground in ([role.ground] if role.ground else ["background", "panel"])
    ]
    cursor = ("background", "lamp")
    return min(contrast(shown(one), shown(other)) for one, other in [*pairs, cursor])


@pytest.mark.parametrize("depth", DEPTHS, ids=lambda depth: depth.name)
@pytest.mark.parametrize("look", PALETTES)
def test_letters_stand_out_from_their_ground(look: str, depth: ColorSystem) -> None:
    """At least 4.5 to 1, in the look for much contrast 7 to 1, also where 256 colours come nearest to it."""
    assert least_of(look, depth) >= LEAST[look]


def test_the_documented_figures_are_measured() -> None:
    """What DEVELOPERS says of each look is the least that is found, in true colours and in 256."""
    told = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    for look in PALETTES:
        true, few = (f"{least_of(look, depth):.3g}" for depth in DEPTHS)
        assert f"{look} {true} / {few}" in told
    least = min(
        contrast(Color.parse(letters), Color.parse(ground), sixteen(colours))
        for colours in (VGA, X11)
        for letters, ground in SIXTEEN.values()
    )
    assert f"16 colours {least:.3g} (" in told


@pytest.mark.parametrize("look", PALETTES)
def test_grades_are_three_colours(look: str) -> None:
    """Good, watch and stop differ by colour too, in 256 colours as well."""
    for depth in DEPTHS:
        three = {
            Color.parse(PALETTES[look][ROLES[role].color]).downgrade(depth)
            for role in ("ok", "watch", "stop")
        }
        assert len(three) == 3


@pytest.mark.parametrize("colours", [VGA, X11], ids=["VGA", "X11"])
def test_sixteen_colours_can_be_read(colours: str) -> None:
    """A colour is used as a ground, with letters of ours on it: 4 to 1 or more, whatever the terminal's own are."""
    theme = sixteen(colours)
    for name, (letters, ground) in SIXTEEN.items():
        assert contrast(Color.parse(letters), Color.parse(ground), theme) >= 4.0, name


def test_sixteen_colours_use_none_on_an_unknown_ground() -> None:
    """No letters are coloured on the terminal's own ground, which may be dark or light."""
    for style in styles(TERMINAL).values():
        assert (style.color is None) == (style.bgcolor is None)
        assert not (style.bold and style.color == Color.parse("black"))


def test_no_colours_are_none() -> None:
    """Where there are no colours no role has one, and what had a coloured ground is reversed."""
    assert all(style.color is None and style.bgcolor is None for style in styles(PLAIN).values())
    assert set(filled(PLAIN)) == {name for name, role in ROLES.items() if role.ground}
    assert all(styles(PLAIN)[name].reverse for name in filled(PLAIN))


@pytest.mark.parametrize("look", PALETTES)
def test_codes_are_dark_on_light(look: str) -> None:
    """A camera reads dark squares on a light ground, in every look."""
    code: Style = styles(look)["code"]
    assert code.color
    assert code.bgcolor
    assert light(code.color) < light(code.bgcolor)
