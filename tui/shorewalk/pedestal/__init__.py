"""Make-believe pedestals: a circuit that behaves like one, what is wrong with it, and who stands before it."""
