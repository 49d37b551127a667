"""The page of candles: what is sold, how heavy it is said to be, whether it passed its tests."""
