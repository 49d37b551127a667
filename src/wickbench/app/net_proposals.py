"""Ways to mend the net weight and other texts of a label at once.

Each is tried on a layout before it is offered: the finding must go and nothing new go wrong, all
text still fit, nothing touch what it did not touch before. Each is applied as one undoable act.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_check import LabelCheck
from wickbench.app.label_elements import row_at
from wickbench.app.label_rules import REQUIRED
from wickbench.app.label_store import element_values
from wickbench.app.labels import editable_version
from wickbench.app.net_lines import covers_something, printed_beside
from wickbench.app.net_ways import ways_of
from wickbench.app.required_texts import required_findings
from wickbench.app.text_ways import WANTED
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import AnyElement, LabelDesign
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.net_way import Way
    from wickbench.app.workspace import Workspace
    from wickbench.documents.label_layout import LaidOutLabel

LayOut = Callable[[LabelDesign], "LaidOutLabel"]
MOST_OFFERS: Final = 3
MENDED: Final = frozenset(
    f"{REQUIRED}{key}"
    for key in (
        "figures-small",
        "figures-small-panel",
        "net-missing",
        "net-too-much",
        "net-differs",
        "net-no-ounces",
        "net-no-grams",
        "net-word",
        "net-metric-first",
        "net-decimals",
        "net-fraction",
        "net-no-fractions",
        "net-crowded",
        "net-high",
        "net-turned",
        "net-not-in-front",
        "net-pale",
        *WANTED,
    )
)
"""Keys of the findings for which ways are looked for."""
DOES_NOT_FIT: Final = "label.text-too-long"
TOO_SMALL: Final = frozenset(
    {f"{REQUIRED}figures-small", f"{REQUIRED}figures-small-panel", DOES_NOT_FIT}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class NetProposal:
    """A way that was tried and works.

    Attributes:
        key: tells it from the others of a finding.
        words: msgid of what it does.
        data: for the words.
        at: place of the element that it changes; ``None`` when it adds one.
        element: as it will stand.
    """

    key: str
    words: str
    data: Mapping[str, object] = field(default_factory=dict)
    at: int | None
    element: AnyElement


def net_proposals(check: LabelCheck, finding: Finding, lay_out: LayOut) -> tuple[NetProposal, ...]:
    """Ways to mend a finding about the net weight that work, the simplest first.

    Args:
        check: the label as it is.
        finding: one of its findings.
        lay_out: lays a design out with the values of the check.
    """
    if not is_mended(check, finding):
        return ()
    own = [one for one in check.regions if one in str(finding.data.get("region", ""))]
    for regions in (check.regions, tuple(own)):
        found = _working(check, finding, regions, lay_out)
        if found:
            return found
    return ()


def _working(
    check: LabelCheck, finding: Finding, regions: tuple[str, ...], lay_out: LayOut
) -> tuple[NetProposal, ...]:
    """Ways that work, with type as high as these regions ask for."""
    before = _troubles(check)
    found: list[NetProposal] = []
    parts: list[frozenset[str]] = []
    for way in ways_of(check, finding):
        if any(known <= way.parts for known in parts):
            continue  # a simpler way that is part of this one works already
        trial = _Trial(check, finding, before, lay_out)
        proposal = trial.of(way, way.sizes(check, regions))
        if proposal is not None:
            found.append(proposal)
            parts.append(way.parts)
        if len(found) == MOST_OFFERS:
            break
    return tuple(found)


def is_mended(check: LabelCheck, finding: Finding) -> bool:
    """Whether ways are looked for: what rules want, and a net weight that does not fit."""
    line = check.declared
    mine = line is not None and finding.about == ("element", line.at)
    return finding.key in MENDED or (finding.key == DOES_NOT_FIT and mine)


def apply_proposal(
    workspace: Workspace, label_id: int, proposal: NetProposal, *, origin: object = None
) -> None:
    """Change the label as proposed: one undoable act.

    Raises:
        OutOfRange: the element is no longer there.
    """
    with workspace.step(N_("Mend a label"), origin=origin) as connection:
        version, design = editable_version(connection, label_id)
        values: dict[str, Any] = element_values(proposal.element)
        if proposal.at is None:
            place = {"version_id": version, "position": len(design.elements)}
            records.insert(connection, "label_element", {**place, **values})
        else:
            row = row_at(connection, version, proposal.at)
            records.update(connection, "label_element", int(str(row["id"])), values)


def changed_design(check: LabelCheck, way: Way) -> LabelDesign:
    """The design with one way taken."""
    design = check.laid.design
    if way.at is None:
        return replace(design, elements=(*design.elements, way.element))
    elements = [*design.elements]
    elements[way.at] = way.element
    return replace(design, elements=tuple(elements))


@dataclass(frozen=True, slots=True)
class _Trial:
    """What a way is tried against."""

    check: LabelCheck
    finding: Finding
    before: frozenset[object]
    lay_out: LayOut

    def of(self, way: Way, sizes: tuple[float, ...]) -> NetProposal | None:
        """The way at the first size at which it mends and breaks nothing."""
        for size_pt in sizes:
            sized = way.at_size(size_pt)
            if self._mends(sized):
                data = {**way.data, **({"size": size_pt} if size_pt else {})}
                return NetProposal(
                    key=way.key, words=way.words, data=data, at=way.at, element=sized.element
                )
        return None

    def _mends(self, way: Way) -> bool:
        try:
            laid = self.lay_out(changed_design(self.check, way))
        except DomainError:
            return False
        after = _troubles(replace(self.check, laid=laid))
        added = len(laid.design.elements) - 1
        if way.at is None and covers_something(laid, added):
            return False
        mended = _same(self.finding) not in after and not _stopped(laid, way.at)
        return mended and (way.whatever or after <= self.before)


def _stopped(laid: LaidOutLabel, at: int | None) -> bool:
    """Whether the element cannot be printed, as it could not before either."""
    about = ("element", len(laid.design.elements) - 1 if at is None else at)
    return any(one.rank is Rank.STOPS and one.about == about for one in laid.findings)


def _troubles(check: LabelCheck) -> frozenset[object]:
    """What is wrong, each by its key, region and element, without its numbers."""
    told = [one for one in check.laid.findings if one.rank is not Rank.NOTE]
    return frozenset([*map(_same, (*told, *required_findings(check).wrong)), *_touching(check)])


def _same(finding: Finding) -> tuple[object, ...]:
    return finding.key, finding.data.get("region", ""), finding.about


def _touching(check: LabelCheck) -> Iterator[object]:
    """Whether the net weight's ink lies over any other."""
    line = check.declared
    ink = line.ink if line is not None else None
    if line is None or ink is None:
        return
    if any(ink.meets(other) for other in printed_beside(check.laid, line)):
        yield "touching", line.at
