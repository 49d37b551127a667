"""Leftovers: what is left of which mix, where it goes, and jars layered from it."""
