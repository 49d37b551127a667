"""The trade: frozen values and free functions. No files, no clock, no Qt, no SQL."""
