"""What the readings of a walk rule out: which faults of the library could still give all of them."""

from .left import Left, RuleOut
from .telling import Telling

__all__ = ["Left", "RuleOut", "Telling"]
