"""Going through every walk there is: how it may stand, what happens on it, and which safety rule it breaks."""
