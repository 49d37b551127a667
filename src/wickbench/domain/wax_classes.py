"""What to expect of a wax of a generic class until the one on the shelf has been measured.

Every number here is an estimate that the person can overwrite; none may be shown as a fact of a
wax. Densities and heats were estimated from handbook values of the pure substances; melting, cure,
pour and oil temperatures are common practice without a source, except: beeswax melts at 62 to
65 °C and has a flash point of 204 °C (FAO), the acids of stearin melt at 61.8 and 69.3 °C with
flash points of 192 and 196 °C (CRC Handbook).
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxDefaults:
    """Estimates for one class of wax; each range is (lowest, highest).

    Attributes:
        liquid_g_per_ml: density while liquid, at 70 °C.
        liquid_range_g_per_ml: where the waxes of the class lie.
        set_g_per_ml: apparent density once set, at 20 °C, pores counted in.
        set_range_g_per_ml: where the waxes of the class lie.
        melts_c: melting or congealing range.
        heat_to_c: how far it is usually heated to take up oil and lose air.
        add_oil_c: when the oil is usually stirred in.
        pour_c: when it is usually poured.
        cure_days: usual cure time.
        solid_heat_kj_per_kg_c: specific heat while solid.
        liquid_heat_kj_per_kg_c: specific heat while liquid.
        latent_heat_kj_per_kg: heat taken up by melting.
        flash_c: flash point, the lowest of the class; None: look at the wax's data sheet.
        finish: how it is usually finished: ``"single"`` pour, ``"top_up"`` for the sinkholes, or
            ``"second"`` pour; common practice, no source.
    """

    liquid_g_per_ml: float
    liquid_range_g_per_ml: Range
    set_g_per_ml: float
    set_range_g_per_ml: Range
    melts_c: Range
    heat_to_c: float
    add_oil_c: Range
    pour_c: Range
    cure_days: tuple[int, int]
    solid_heat_kj_per_kg_c: float
    liquid_heat_kj_per_kg_c: float
    latent_heat_kj_per_kg: float
    flash_c: float | None = None
    finish: str = "single"

    @property
    def estimate(self) -> bool:
        """Always true: shown as an estimate until the person's own value replaces it."""
        return True

    @property
    def shrink_percent(self) -> float:
        """How much of its hot volume it loses as it sets, by the two densities."""
        return 100.0 * (1.0 - self.liquid_g_per_ml / self.set_g_per_ml)


WAX_CLASSES: Mapping[str, WaxDefaults] = MappingProxyType(
    {
        "soy": WaxDefaults(
            liquid_g_per_ml=0.87,
            liquid_range_g_per_ml=(0.855, 0.885),
            set_g_per_ml=0.9,
            set_range_g_per_ml=(0.89, 0.97),
            melts_c=(46.0, 54.0),
            heat_to_c=85.0,
            add_oil_c=(74.0, 85.0),
            pour_c=(49.0, 63.0),
            cure_days=(7, 14),
            solid_heat_kj_per_kg_c=1.9,
            liquid_heat_kj_per_kg_c=2.2,
            latent_heat_kj_per_kg=120.0,
        ),
        "paraffin": WaxDefaults(
            liquid_g_per_ml=0.77,
            liquid_range_g_per_ml=(0.75, 0.79),
            set_g_per_ml=0.9,
            set_range_g_per_ml=(0.88, 0.92),
            melts_c=(46.0, 68.0),
            heat_to_c=85.0,
            add_oil_c=(77.0, 85.0),
            pour_c=(68.0, 82.0),
            cure_days=(1, 3),
            solid_heat_kj_per_kg_c=2.1,
            liquid_heat_kj_per_kg_c=2.3,
            latent_heat_kj_per_kg=190.0,
            flash_c=199.0,
            finish="second",
        ),
        "beeswax": WaxDefaults(
            liquid_g_per_ml=0.84,
            liquid_range_g_per_ml=(0.82, 0.85),
            set_g_per_ml=0.96,
            set_range_g_per_ml=(0.958, 0.97),
            melts_c=(62.0, 65.0),
            heat_to_c=75.0,
            add_oil_c=(70.0, 75.0),
            pour_c=(68.0, 75.0),
            cure_days=(1, 3),
            solid_heat_kj_per_kg_c=2.0,
            liquid_heat_kj_per_kg_c=2.2,
            latent_heat_kj_per_kg=170.0,
            flash_c=204.0,
            finish="top_up",
        ),
        "coconut": WaxDefaults(
            liquid_g_per_ml=0.885,
            liquid_range_g_per_ml=(0.87, 0.9),
            set_g_per_ml=0.915,
            set_range_g_per_ml=(0.9, 0.95),
            melts_c=(38.0, 48.0),
            heat_to_c=82.0,
            add_oil_c=(65.0, 82.0),
            pour_c=(50.0, 65.0),
            cure_days=(5, 14),
            solid_heat_kj_per_kg_c=2.0,
            liquid_heat_kj_per_kg_c=2.2,
            latent_heat_kj_per_kg=105.0,
        ),
        "coconut_soy": WaxDefaults(
            liquid_g_per_ml=0.875,
            liquid_range_g_per_ml=(0.86, 0.89),
            set_g_per_ml=0.905,
            set_range_g_per_ml=(0.89, 0.96),
            melts_c=(42.0, 50.0),
            heat_to_c=82.0,
            add_oil_c=(65.0, 82.0),
            pour_c=(52.0, 68.0),
            cure_days=(5, 14),
            solid_heat_kj_per_kg_c=1.9,
            liquid_heat_kj_per_kg_c=2.2,
            latent_heat_kj_per_kg=115.0,
        ),
        "palm": WaxDefaults(
            liquid_g_per_ml=0.873,
            liquid_range_g_per_ml=(0.86, 0.88),
            set_g_per_ml=0.915,
            set_range_g_per_ml=(0.9, 0.97),
            melts_c=(52.0, 62.0),
            heat_to_c=98.0,
            add_oil_c=(85.0, 95.0),
            pour_c=(85.0, 98.0),
            cure_days=(3, 7),
            solid_heat_kj_per_kg_c=1.8,
            liquid_heat_kj_per_kg_c=2.2,
            latent_heat_kj_per_kg=150.0,
            finish="top_up",
        ),
        "stearin": WaxDefaults(
            liquid_g_per_ml=0.845,
            liquid_range_g_per_ml=(0.84, 0.855),
            set_g_per_ml=0.941,
            set_range_g_per_ml=(0.93, 0.95),
            melts_c=(61.8, 69.3),
            heat_to_c=85.0,
            add_oil_c=(75.0, 85.0),
            pour_c=(72.0, 85.0),
            cure_days=(1, 3),
            solid_heat_kj_per_kg_c=1.8,
            liquid_heat_kj_per_kg_c=2.3,
            latent_heat_kj_per_kg=210.0,
            flash_c=192.0,
            finish="second",
        ),
        "rapeseed": WaxDefaults(
            liquid_g_per_ml=0.866,
            liquid_range_g_per_ml=(0.855, 0.88),
            set_g_per_ml=0.9,
            set_range_g_per_ml=(0.89, 0.96),
            melts_c=(44.0, 56.0),
            heat_to_c=85.0,
            add_oil_c=(70.0, 85.0),
            pour_c=(55.0, 65.0),
            cure_days=(7, 14),
            solid_heat_kj_per_kg_c=1.9,
            liquid_heat_kj_per_kg_c=2.2,
            latent_heat_kj_per_kg=120.0,
        ),
        "paraffin_soy": WaxDefaults(
            liquid_g_per_ml=0.817,
            liquid_range_g_per_ml=(0.8, 0.835),
            set_g_per_ml=0.9,
            set_range_g_per_ml=(0.88, 0.94),
            melts_c=(47.0, 54.0),
            heat_to_c=85.0,
            add_oil_c=(74.0, 85.0),
            pour_c=(60.0, 75.0),
            cure_days=(3, 7),
            solid_heat_kj_per_kg_c=2.0,
            liquid_heat_kj_per_kg_c=2.25,
            latent_heat_kj_per_kg=155.0,
        ),
        "other": WaxDefaults(
            liquid_g_per_ml=0.85,
            liquid_range_g_per_ml=(0.75, 0.9),
            set_g_per_ml=0.9,
            set_range_g_per_ml=(0.88, 0.97),
            melts_c=(40.0, 70.0),
            heat_to_c=85.0,
            add_oil_c=(55.0, 85.0),
            pour_c=(50.0, 85.0),
            cure_days=(1, 14),
            solid_heat_kj_per_kg_c=2.0,
            liquid_heat_kj_per_kg_c=2.2,
            latent_heat_kj_per_kg=150.0,
        ),
    }
)
