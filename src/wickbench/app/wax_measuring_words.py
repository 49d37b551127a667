"""Measurements of a wax in words: what each gives, what they give together, and how."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_
from wickbench.app.wax_measures import work_out
from wickbench.app.wax_measuring_fields import WAY_SHORT
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.wax_measured import average

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.texts import Texts
    from wickbench.app.wax_measures import Bench, Measured, WaxMeasures
    from wickbench.domain.wax_measured import Average, Reading

_LINES: Final[Mapping[str, str]] = {
    "liquid": N_("Liquid, at 70 °C: {density}"),
    "set": N_("Set: {density}"),
}
_DOUBTS: Final[Mapping[str, str]] = {
    "repeats": N_("how well it repeats"),
    "volume": N_("the volume of the jar"),
    "line": N_("seeing where it stands"),
    "mass": N_("the step the scale reads to"),
    "scale": N_("the scale itself"),
    "temperature": N_("the temperature"),
    "slope": N_("how far from 70 °C it was"),
    "heights": N_("reading the two levels"),
    "liquid": N_("the density of the liquid wax"),
}
_ADVICE_OF: Final[Mapping[str, str]] = {"mass": "scale", "slope": "temperature"}
_LEAST_SHOWN: Final = 0.001
_FORMULAS: Final[Mapping[str, str]] = {
    "hot": N_(
        "Hot to the line: mass ÷ volume + 0.00066 × (temperature − 70 °C). Liquid waxes lose "
        "0.00062 to 0.00072 g/mL with each °C (densities of alkanes and fats, CRC Handbook)."
    ),
    "set": N_(
        "Water on the set wax: mass ÷ (volume − water × Z). Z is what a gram of water fills, "
        "weighed in air (ISO 8655-6)."
    ),
    "drop": N_(
        "Drop of the level: density of the liquid wax at that temperature × level while hot ÷ "
        "level once set, in a straight jar: the mass stays."
    ),
}
_JOINED: Final = N_(
    "The doubt behind ± joins these by the rules of the GUM (JCGM 100:2008); the density is within "
    "it in 95 of 100 cases. The mean’s scatter is t · s ÷ √n; what all measurements share does not "
    "shrink by repeating:"
)


def density_text(texts: Texts, g_per_ml: float, doubt: float | None = None) -> str:
    """A density with its doubt: "0.868 ± 0.004 g/mL"."""
    value = texts.number(g_per_ml, 3)
    if doubt is None:
        return f"{value} g/mL"
    return f"{value} ± {texts.number(max(doubt, _LEAST_SHOWN), 3)} g/mL"


def preview_text(texts: Texts, way: str, values: Mapping[str, object], bench: Bench) -> str:
    """What the readings typed so far give; empty while one is missing."""
    try:
        one = average([work_out(way, values, bench)])
    except DomainError as error:
        return "" if error.key == "measured.missing" else trouble_text(texts, error)
    return "" if one is None else _line(texts, "liquid" if way == "hot" else "set", one)


def trouble_text(texts: Texts, error: DomainError) -> str:
    """The sentence of an error; a missing field is named in the person's words."""
    if error.key == "measured.missing":
        error = OutOfRange(error.key, what=texts(str(error.data["what"])))
    return texts.say(error)


def _line(texts: Texts, which: str, found: Average) -> str:
    density = density_text(texts, found.g_per_ml, found.expanded_uncertainty)
    return texts(_LINES[which], density=density)


def result_lines(texts: Texts, measures: WaxMeasures, which: str) -> tuple[str, ...]:
    """The density of all measurements, how many, how far apart they lie, and whether it is used."""
    found: Average | None = getattr(measures, which)
    if found is None:
        return ()
    count = texts.plural("from {n} measurement", "from {n} measurements", found.n)
    if found.spread is not None:
        count = texts(
            N_("{count}, spread {spread}"),
            count=count,
            spread=density_text(texts, max(found.spread, _LEAST_SHOWN)),
        )
    lines = [f"{_line(texts, which, found)}, {count}"]
    if measures.in_use(which):
        lines.append(texts(N_("This density is used everywhere.")))
    return tuple(lines)


def odd_findings(texts: Texts, measures: WaxMeasures) -> tuple[Finding, ...]:
    """Measurements that lie far off the others."""
    odd = (measures.odd_of(which) for which in ("liquid", "set"))
    return tuple(
        Finding(Rank.WATCH, "measured.odd", {"day": texts.day(one.measured_on)})
        for one in odd
        if one is not None
    )


def advice_text(texts: Texts, measures: WaxMeasures, which: str) -> str:
    """That one measurement tells little, and what would make the doubt smaller."""
    found: Average | None = getattr(measures, which)
    if found is None:
        return ""
    biggest, _ = max(found.contributions, key=lambda part: part[1])
    keys = [f"measured.doubt-{_ADVICE_OF.get(biggest, biggest)}"]
    if found.n == 1:
        keys.insert(0, "measured.one")
    return " ".join(texts.say(Finding(Rank.NOTE, key)) for key in keys)


def way_text(texts: Texts, row: Measured) -> str:
    """Which way it was measured, in a word."""
    return texts(WAY_SHORT[row.way])


def row_density(texts: Texts, row: Measured) -> str:
    """What one measurement gives; empty while it cannot be worked out."""
    return "" if row.reading is None else density_text(texts, row.reading.g_per_ml)


def row_about(texts: Texts, row: Measured) -> str:
    """One measurement in full: its density with its doubt, what was read, or what is wrong."""
    if row.trouble is not None:
        return trouble_text(texts, row.trouble)
    return _about(texts, row, row.reading)


def _about(texts: Texts, row: Measured, reading: Reading | None) -> str:
    one = average([] if reading is None else [reading])
    parts = [] if one is None else [density_text(texts, one.g_per_ml, one.expanded_uncertainty)]
    parts += [
        texts.quantity(float(value), kind)
        for name, kind in _READ
        if (value := row.values.get(name)) is not None
    ]
    return " · ".join(parts)


_READ: Final = (
    ("mass_g", "mass"), ("volume_ml", "volume"), ("wax_c", "temperature"), ("water_g", "mass"),
    ("water_c", "temperature"), ("hot_mm", "length"), ("set_mm", "length"),
)  # fmt: skip


def how_measured(texts: Texts, measures: WaxMeasures, which: str) -> tuple[str, ...]:
    """How the density and its doubt were computed, with formula and source."""
    found: Average | None = getattr(measures, which)
    if found is None:
        return ()
    ways = {row.way for row in measures.rows if not row.left_out and row.reading is not None}
    own = [way for way in ("hot",) if which == "liquid"] or ["set", "drop"]
    parts = sorted(found.contributions, key=lambda part: -part[1])
    return (
        *(texts(_FORMULAS[way]) for way in own if way in ways),
        texts(_JOINED),
        *(f"{texts(_DOUBTS[name])}: {texts.number(u, 4)} g/mL" for name, u in parts),
    )
