"""Wickbench: the bench program of a one-person candle workshop."""
