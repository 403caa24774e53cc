"""How things stand: values, groups, resets, what is not known."""

from __future__ import annotations

from shorewalk import folders
from shorewalk.tree.facts import Site
from shorewalk.tree.site import read_site
from shorewalk.walk.state import at_begin, may, maybe, must, reach, shown


def test_group_leaves_every_member_possible(site: Site) -> None:
    """`cord: plugged` may be any outlet, is surely plugged, and is shown as the group."""
    standing = reach({}, (("cord", "plugged"),), site.states)
    assert must(standing, "cord", "plugged", site.states)
    assert may(standing, "cord", "pedestal-30", site.states)
    assert not must(standing, "cord", "pedestal-30", site.states)
    assert not may(standing, "cord", "unplugged", site.states)
    assert shown(standing, site.states) == {"cord": "plugged"}


def test_unknown_may_be_anything_and_is_nothing_surely(site: Site) -> None:
    """A state nobody named may have any value and surely has none."""
    assert may({}, "rig-main", "on", site.states)
    assert not must({}, "rig-main", "on", site.states)
    assert shown({}, site.states) == {}


def test_reaching_a_value_resets_others(site: Site) -> None:
    """The breaker going on undoes `shown-dead`, unless the same step says otherwise."""
    dead = reach({}, (("pedestal-breaker", "off"), ("shown-dead", "yes")), site.states)
    assert must(reach(dead, (("pedestal-breaker", "on"),), site.states), "shown-dead", "no", site.states)
    both = reach(dead, (("pedestal-breaker", "on"), ("shown-dead", "yes")), site.states)
    assert must(both, "shown-dead", "yes", site.states)


def test_a_step_done_or_not_leaves_both(site: Site) -> None:
    """After `cannot` the old and the new value stay possible, in what a reset touches too."""
    dead = reach({}, (("pedestal-breaker", "off"), ("shown-dead", "yes")), site.states)
    after = maybe(dead, (("pedestal-breaker", "on"),), site.states)
    for name, values in (("pedestal-breaker", ("off", "on")), ("shown-dead", ("no", "yes"))):
        assert all(may(after, name, value, site.states) for value in values)
        assert not any(must(after, name, value, site.states) for value in values)
    assert shown(after, site.states) == {}


def test_a_step_not_done_does_not_make_the_unknown_known(site: Site) -> None:
    """What was unknown before a step that could not be done stays unknown."""
    assert not must(maybe({}, (("rig-main", "off"),), site.states), "rig-main", "off", site.states)


def test_energised_is_cord_in_and_breaker_on(site: Site) -> None:
    """Energised needs both; either one surely missing means no; else it is not known."""
    on = reach({}, (("cord", "pedestal-30"), ("pedestal-breaker", "on")), site.states)
    assert must(on, "energised", "yes", site.states)
    assert not may(on, "energised", "no", site.states)
    out = reach(on, (("cord", "unplugged"),), site.states)
    assert must(out, "energised", "no", site.states)
    half = reach({}, (("cord", "plugged"),), site.states)
    assert may(half, "energised", "yes", site.states)
    assert may(half, "energised", "no", site.states)
    assert not must(half, "energised", "yes", site.states)


def test_some_states_begin_so_in_every_walk() -> None:
    """Nothing was read and no breaker was reset when a walk begins, unless the tree starts otherwise."""
    facts = read_site(folders.trees() / "site").states
    begins = at_begin((("cord", "plugged"),), facts)
    assert must(begins, "cautions", "unread", facts)
    assert must(begins, "reset", "unused", facts)
    assert shown(begins, facts) == {"cord": "plugged"}, "what always begins so is not worth a line"
    assert must(at_begin((("cautions", "read"),), facts), "cautions", "read", facts)
