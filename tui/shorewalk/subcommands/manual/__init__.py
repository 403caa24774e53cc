"""The manual, made from the commands themselves: as text, and as a page for `man`."""
