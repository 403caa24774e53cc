"""The arithmetic of supply, each function with its source."""
