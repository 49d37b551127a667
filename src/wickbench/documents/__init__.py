"""Paper: text shaped once, laid out in millimetres, drawn on a surface, written as PDF."""
