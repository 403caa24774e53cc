"""What whoever writes trees asks of them: every ending with the shortest walk to it, what is not walked yet, drawings."""
