"""What a tree is: YAML with positions, one immutable model, one graph."""
