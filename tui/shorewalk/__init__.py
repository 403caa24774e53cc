"""A terminal guide for whoever stands at a power pedestal."""

__version__ = "0.1.0"
