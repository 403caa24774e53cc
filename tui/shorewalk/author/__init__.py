"""For whoever writes trees: a first tree, a preview, shortest walks, what recorded walks cover, drawings."""
