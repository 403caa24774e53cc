"""Past walks and their readings: listed, compared by site, exported, deleted. Practice is never among them."""
