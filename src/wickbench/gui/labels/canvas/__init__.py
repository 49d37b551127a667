"""The label as a drawing to be worked on: choose, move, size, turn and arrange by hand or key."""
