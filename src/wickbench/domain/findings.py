"""What the program noticed: ranked, with a key and data for its sentence."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import IntEnum


class Rank(IntEnum):
    """How much a finding matters; higher comes first on screen."""

    NOTE = 1
    WATCH = 2
    STOPS = 3


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to tell the person.

    Attributes:
        rank: stops you, watch, or note.
        key: names the sentence in ``wickbench.app.sentences``.
        data: values for its placeholders; name endings say the unit as in ``DomainError``.
        about: what it is about, for example ``("pot", 2)``; empty for the whole.
    """

    rank: Rank
    key: str
    data: Mapping[str, object] = field(default_factory=dict)
    about: tuple[object, ...] = ()


def sort_findings(findings: list[Finding]) -> tuple[Finding, ...]:
    """What stops you first; within a rank in the order they were found."""
    return tuple(sorted(findings, key=lambda finding: -finding.rank))
