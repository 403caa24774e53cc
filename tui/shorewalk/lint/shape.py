"""What a judge is but for the names of the nodes it looks at: two of one shape can be met in the same cases."""

from __future__ import annotations

from collections.abc import Hashable

from shorewalk.tree.model import Judge, Node, Tree

from .names import answers_of


def shape_of(judge: Judge, tree: Tree, node: Node | None = None) -> Hashable:
    """Return something equal for two judges that differ in names alone; and in what stands for `node`, if given."""
    asked = (condition.node for row in judge.rows for condition in row.when)
    names = {name: at for at, name in enumerate(dict.fromkeys((*judge.of, *asked)))}
    answers = tuple(answers_of(tree.nodes[name]) if name in tree.nodes else None for name in names)
    rows = tuple(
        (
            row.way.grade,
            tuple((names[c.node], c.choice, c.from_, c.above, c.below, c.upto) for c in row.when),
            row.while_,
            row.worst,
            row.lacks,
        )
        for row in judge.rows
    )
    return rows, len(judge.of), answers, names.get(node.name) if node else None
