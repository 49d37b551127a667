"""The findings of a print run parted: what counts, what was left as it is, and whose each is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from wickbench.app.run_findings import once
from wickbench.app.set_aside import LeftAlone, Owned, SetAside, fingerprint, may_set_aside, settle
from wickbench.domain.findings import Finding

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.print_runs import RunLine

_EMPTY: Final = "label.field-empty"
_FIELDS: Final = "fields"


@dataclass(frozen=True, slots=True, kw_only=True)
class RunTold:
    """What there is to say of a run.

    Attributes:
        findings: what counts, worst first.
        left: what was left as it is.
        owners: labels and candles of each finding that may be left, by `told_key`.
    """

    findings: tuple[Finding, ...] = ()
    left: tuple[LeftAlone, ...] = ()
    owners: Mapping[tuple[str, str], tuple[Owned, ...]] = field(default_factory=dict)

    def owners_of(self, finding: Finding) -> tuple[Owned, ...]:
        """The labels and candles that a finding was told of; none for what may not be left."""
        return self.owners.get(told_key(finding), ())


def run_told(
    found: Sequence[Finding], lines: Sequence[RunLine], aside: Sequence[SetAside]
) -> RunTold:
    """Part the findings of a run.

    Args:
        found: every finding; ``about`` begins with the line's key or the entry's number.
        lines: the run's line of each entry.
        aside: what was left as it is.
    """
    owned = [_owned(one, lines) for one in found]
    settled = settle([one for one in owned if one is not None], aside)
    loose = [one for one, owner in zip(found, owned, strict=True) if owner is None]
    told = once([*(one.finding for one in settled.found), *loose])
    owners = {told_key(one): owners_in(one, settled.found) for one in told}
    return RunTold(findings=told, left=settled.left, owners=owners)


def told_key(finding: Finding) -> tuple[str, str]:
    """What makes two findings the same to a reader."""
    return finding.key, fingerprint(finding)


def owners_in(finding: Finding, owned: Sequence[Owned]) -> tuple[Owned, ...]:
    """Those of the findings that one sentence tells of; none for what may not be left."""
    fields = finding.data.get(_FIELDS)
    if isinstance(fields, tuple):  # several empty fields, told in one
        return tuple(
            one
            for one in owned
            if one.finding.key == _EMPTY and one.finding.data.get("field") in fields
        )
    if not may_set_aside(finding):
        return ()
    key = told_key(finding)
    return tuple(one for one in owned if told_key(one.finding) == key)


def _owned(finding: Finding, lines: Sequence[RunLine]) -> Owned | None:
    line = None
    match finding.about:
        case ("entry", int(number), *_) if number < len(lines):
            line = lines[number]
        case ("line", int(key), *_):
            line = next((one for one in lines if one.id == key), None)
    if line is None or line.label_id is None:
        return None
    return Owned(finding=finding, label_id=line.label_id, candle_id=line.candle_id)
