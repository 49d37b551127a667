"""Business details and settings, each on a page of its own."""
