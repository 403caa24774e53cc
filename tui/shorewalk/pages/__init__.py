"""What each screen says, as lines: pure functions of what is known, without a terminal."""
