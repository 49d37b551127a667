"""Errors of the person's world: a key and data; the sentence is made by the texts of the app."""

from __future__ import annotations

from typing_extensions import override


class DomainError(Exception):
    """Something the person can mend.

    Attributes:
        key: names the sentence in ``wickbench.app.sentences``.
        data: values for its placeholders; the ending of a name says the unit
            (``_g``, ``_ml``, ``_mm``, ``_c``, ``_percent``, ``_money``).
    """

    def __init__(self, key: str, **data: object) -> None:
        super().__init__(key, data)
        self.key = key
        self.data = data

    @override
    def __str__(self) -> str:
        shown = ", ".join(f"{name}={value!r}" for name, value in self.data.items())
        return f"{self.key} ({shown})" if shown else self.key


class OutOfRange(DomainError):
    """A value that the trade or physics cannot have."""


class CannotRead(DomainError):
    """Typed text that has no reading in its field."""


class Ambiguous(CannotRead):
    """Typed text with more than one reading.

    Attributes:
        readings: pairs of the text that would be unambiguous and its value in the kind's unit.
    """

    def __init__(self, key: str, readings: tuple[tuple[str, float], ...], **data: object) -> None:
        super().__init__(key, **data)
        self.readings = readings
