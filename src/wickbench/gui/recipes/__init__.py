"""The docked catalog of recipes and their versions."""
