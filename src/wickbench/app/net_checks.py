"""Filled candles on the scale: what the weighings of one candle say about its net weight."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.app.standards import net_rules
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_texts import masses
from wickbench.app.vessel_weighings import reads_to_g
from wickbench.domain.catalog import WeighingRow
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.net_checks import check_weighed
from wickbench.domain.net_evidence import NetEvidence, NetWeighing, net_evidence
from wickbench.domain.rounding import half_up
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_MG_PER_G = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class NetChecks:
    """What the weighings say.

    Attributes:
        evidence: net weights, and which weighings count.
        net_by_row: net weight by the row's key; ``None`` where it does not count.
        reads_to_g: step of the coarsest scale used.
        declared_g: what the label says; ``None`` while nothing is declared.
        findings: everything worth saying, most pressing first.
    """

    evidence: NetEvidence
    net_by_row: Mapping[int, float | None]
    reads_to_g: float
    declared_g: float | None
    findings: tuple[Finding, ...]


def view_checks(
    rows: Sequence[Mapping[str, Any]],
    declared_g: float | None,
    shelf: Shelf,
    settings: Settings,
) -> NetChecks:
    """Work the rows of a candle out, stored or as they are being typed.

    Args:
        rows: values of the table, with ``id``.
        declared_g: declared net weight of the candle.
        shelf: for the scales.
        settings: regions sold in.
    """
    step_g = _step_g(rows, shelf)
    found = net_evidence([_weighing(row) for row in rows], scale_reads_to_g=step_g)
    return NetChecks(
        evidence=found,
        net_by_row={int(row["id"]): net for row, net in zip(rows, found.nets_g, strict=True)},
        reads_to_g=step_g,
        declared_g=declared_g,
        findings=sort_findings(
            [*found.findings, *_against_label(found, declared_g, settings, step_g)]
        ),
    )


def _weighing(row: Mapping[str, Any]) -> NetWeighing:
    return NetWeighing(
        row.get("vessel_no"), row.get("empty_g"), row.get("filled_g"), bool(row.get("own_tare"))
    )


def _step_g(rows: Sequence[Mapping[str, Any]], shelf: Shelf) -> float:
    names = ("id", "empty_g", "filled_g", "scale_id")
    picked: list[dict[str, Any]] = [{name: row.get(name) for name in names} for row in rows]
    return reads_to_g([WeighingRow(**values) for values in picked], shelf)


def _against_label(
    found: NetEvidence, declared_g: float | None, settings: Settings, step_g: float
) -> Iterator[Finding]:
    """What the weighings that count say about the declared weight, each sentence once."""
    if declared_g is None or not found.counted_g or found.lowest_g is None:
        return
    declared_mg = int(half_up(declared_g * _MG_PER_G))
    told: dict[str, Finding] = {}
    for region in settings.regions:
        try:
            said = check_weighed(net_rules(), declared_mg, found.counted_g, region)
        except DomainError as error:
            said = (Finding(Rank.WATCH, error.key, error.data),)
        told |= {one.key: one for one in said if one.key not in told}
    yield from told.values()
    if abs(found.lowest_g - declared_g) < step_g:
        data = {"step_g": step_g, "lowest_g": found.lowest_g, "declared_g": declared_g}
        yield Finding(Rank.NOTE, "net-evidence.scale-too-coarse", data)


# -- in words --------------------------------------------------------------------------------------
def check_lines(checks: NetChecks, texts: Texts) -> tuple[str, ...]:
    """Mean and lowest against the declared weight, and how well the scale tells."""
    found = checks.evidence
    if found.mean_g is None or found.lowest_g is None:
        return ()
    mean, lowest, declared = masses(texts, _digits(checks, found.mean_g, found.lowest_g))
    said = texts.plural(
        N_("{n} filled candle counts: {mean}."),
        N_("{n} filled candles count: {mean} on average, the lightest {lowest}."),
        len(found.counted_g),
        mean=mean,
        lowest=lowest,
    )
    lines = [said]
    if declared:
        lines.append(texts(N_("Declared: {declared}."), declared=declared))
    (step,) = masses(texts, [checks.reads_to_g])
    lines.append(
        texts(N_("The scale reads to {step}, so each net weight is sure to ± {step}."), step=step)
    )
    return tuple(lines)


def _digits(checks: NetChecks, *values: float) -> list[float | None]:
    """Values rounded to the scale's step, and the declared weight as it is."""
    step = checks.reads_to_g
    return [*(round(half_up(value / step) * step, 3) for value in values), checks.declared_g]


def net_text(net_g: float | None, checks: NetChecks, texts: Texts) -> str:
    """The net weight of one row with the digits of the scale; a dash where it does not count."""
    if net_g is None:
        return "–"
    return masses(texts, [round(net_g, 3), checks.reads_to_g])[0]


_TARES = N_(
    "An average empty weight does not count: empty vessels of one box differ by 2 to 4 percent of "
    "their weight (common practice), and that goes into the net weight in full. Equal empty "
    "weights count only where the scale's step makes them likely."
)
_RULES = N_(
    "Against the label: EU and UK the packers' rules (Directive 76/211/EEC, SI 2006/659), US 16 "
    "CFR 500.25 and NIST Handbook 133. Local rules and a licensed assessor decide."
)


def how_checked(checks: NetChecks, texts: Texts) -> tuple[str, ...]:
    """How net weights and their doubt were computed, with sources."""
    found = checks.evidence
    if found.mean_g is None:
        return ()
    net = texts(
        N_(
            "Net weight = filled − the same jar empty with its wick. Two readings of a scale with "
            "the step d leave u = d ÷ √6 = {u} g (JCGM 100:2008, F.2.2.1), and never more than d."
        ),
        u=texts.number(found.step_error_g, 2),
    )
    return (net, *_spread(found, texts), texts(_TARES), texts(_RULES))


def _spread(found: NetEvidence, texts: Texts) -> tuple[str, ...]:
    if found.spread_g is None:
        return ()
    data = {"s": texts.number(found.spread_g, 2), "n": str(len(found.counted_g))}
    return (texts(N_("From candle to candle: s = {s} g, of {n}."), **data),)


# -- the scale -------------------------------------------------------------------------------------
def scale_of(workspace: Workspace, candle: int) -> int | None:
    """The scale that the newest filled candle was weighed on."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "net_check", {"candle_id": candle}, ("id",))
    scale = rows[-1]["scale_id"] if rows else None
    return None if scale is None else int(str(scale))


def set_scale(
    workspace: Workspace, candle: int, scale: int | None, *, origin: object = None
) -> None:
    """Say which scale all filled candles of a kind were weighed on."""
    with workspace.step(N_("Choose the scale of the filled candles"), origin=origin) as connection:
        for row in records.fetch_all(connection, "net_check", {"candle_id": candle}, ("id",)):
            records.update(connection, "net_check", int(str(row["id"])), {"scale_id": scale})
