"""The bench: one ingredient at a time, large, with waxy hands."""
