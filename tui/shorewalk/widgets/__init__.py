"""The pieces the screens are made of."""
