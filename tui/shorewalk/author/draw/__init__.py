"""Drawing a tree or part: what is in it as boxes and arrows, an outline of them, and one writer a format."""
