"""The three ways to measure a wax: what is done step by step, and what is typed at each."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickbench.app.fields import Choice, FieldSpec, field
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_TABLE: Final = "wax_measurement"

WAY_NAMES: Final[Mapping[str, str]] = {
    "hot": N_("Hot to the line"),
    "set": N_("Water on the set wax"),
    "drop": N_("Drop of the level"),
}
WAY_SHORT: Final[Mapping[str, str]] = {
    "hot": N_("hot"),
    "set": N_("water"),
    "drop": N_("drop"),
}
"""For a column."""
WAY_ABOUT: Final[Mapping[str, str]] = {
    "hot": N_("Gives the density of the liquid wax: what fills to the line depend on."),
    "set": N_("Gives the density of the set wax, its pores and sinkholes counted in."),
    "drop": N_("Gives the density of the set wax by how far its level sinks in a straight jar."),
}


def _vessel(step: str) -> FieldSpec:
    return field(_TABLE, "vessel_id", N_("Jar"), "choice", hint=step)


def _volume(step: str) -> FieldSpec:
    return field(
        _TABLE, "volume_ml", N_("Or its volume to the line"), "volume", low=5, high=20_000,
        hint=step,
    )  # fmt: skip


def _mass(step: str) -> FieldSpec:
    return field(_TABLE, "mass_g", N_("Wax in the jar"), "mass", low=1, high=25_000, hint=step)


def _wax_c(step: str) -> FieldSpec:
    return field(
        _TABLE, "wax_c", N_("Temperature of the wax"), "temperature", low=25, high=160, hint=step
    )


_SCALE = field(_TABLE, "scale_id", N_("Scale"), "reference", refers_to="scale")

_FIELDS: Final[Mapping[str, tuple[FieldSpec, ...]]] = {
    "hot": (
        _vessel(
            N_(
                "1. Choose a jar whose fill line was weighed with water. Stand it dry on the scale "
                "and tare."
            )
        ),
        _volume(""),
        _wax_c(N_("2. Melt the wax, without oil, and stir. Pour up to the line and read at once.")),
        _mass(N_("3. Read the scale.")),
        _SCALE,
    ),
    "set": (
        _vessel(
            N_(
                "1. Choose a jar whose fill line was weighed with water. Tare it, pour wax without "
                "oil to a finger below the line."
            )
        ),
        _volume(""),
        _mass(N_("2. Read the scale, then let it set for a day.")),
        field(
            _TABLE, "water_g", N_("Water on top"), "mass", low=0, high=25_000,
            hint=N_(
                "3. Stand the jar on the scale and tare again. Open the sinkholes, fill water up "
                "to the line, let bubbles rise, read the scale."
            ),
        ),
        field(
            _TABLE, "water_c", N_("Temperature of the water"), "temperature", low=0, high=40,
            hint=N_("4. Measure the water."),
        ),
        _SCALE,
    ),
    "drop": (
        field(
            _TABLE, "hot_mm", N_("Level while hot"), "length", low=5, high=1000,
            hint=N_(
                "1. Pour wax without oil into a straight jar. Mark the level and measure it from "
                "the inside of the base."
            ),
        ),
        _wax_c(N_("2. Measure the wax at once.")),
        field(
            _TABLE, "set_mm", N_("Level once set"), "length", low=1, high=1000,
            hint=N_("3. Let it set for a day and measure again, halfway between rim and dip."),
        ),
    ),
}  # fmt: skip

NEEDED: Final[Mapping[str, tuple[str, ...]]] = {
    "hot": ("mass_g", "wax_c"),
    "set": ("mass_g", "water_g", "water_c"),
    "drop": ("hot_mm", "set_mm", "wax_c"),
}


def labels_of(way: str) -> dict[str, str]:
    """Msgid of each field's label, by its name."""
    return {spec.name: spec.label for spec in _FIELDS[way]}


def fields_of(way: str, jars: Iterable[tuple[str, str]]) -> tuple[FieldSpec, ...]:
    """What is asked, in the order of the work.

    Args:
        way: "hot", "set" or "drop".
        jars: word and name of each jar whose line was weighed.
    """
    offered = tuple(Choice(value=key, label=name) for key, name in jars)
    return tuple(
        replace(spec, choices=offered) if spec.name == "vessel_id" else spec
        for spec in _FIELDS[way]
    )
