"""A tree on paper: a numbered checklist to take along where there is no computer."""
