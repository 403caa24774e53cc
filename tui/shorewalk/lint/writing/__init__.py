"""How findings and rules are told: to people, to programs, to services."""
