"""How bad an answer to a question is: what the tree gives it, and never milder than its sign is."""

from __future__ import annotations

from .facts import Site
from .model import Ask, Choice, worse


def grade_of_choice(node: Ask, choice: Choice, site: Site) -> str | None:
    """Return the grade of one answer; `None`: it has none."""
    sign = site.signs.get(node.sign)
    return worse(choice.way.grade, sign.answers.get(choice.id) if sign else None)


def worst_of_choices(node: Ask, site: Site) -> str | None:
    """Return the grade of the worst answer that there is."""
    worst: str | None = None
    for choice in node.choices:
        worst = worse(worst, grade_of_choice(node, choice, site))
    return worst


def grade_of_unsure(node: Ask, site: Site) -> str | None:
    """Return the grade of not knowing: the worst of all the answers, unless the way names one."""
    return (node.unsure and node.unsure.grade) or worst_of_choices(node, site)
