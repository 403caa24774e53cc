"""What one does with the make-believe meter, by number."""

from __future__ import annotations

ACTS = (
    (1, "Turn the dial"),
    (2, "The black probe to the next slot"),
    (3, "The red probe to the next slot"),
    (4, "Read again"),
    (5, "Both probes out"),
    (0, "Back to the question"),
)
