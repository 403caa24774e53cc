"""A walk is a list of answers; everything else is folded from it."""
