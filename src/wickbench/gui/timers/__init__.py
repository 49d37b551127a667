"""Timers: the next one in the status line, the list of all, and the banner of those that ring."""
