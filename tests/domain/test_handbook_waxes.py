"""Our estimates of waxes against handbook values of the pure substances that they are made of."""

from __future__ import annotations

from itertools import pairwise

import pytest

from wickbench.domain.densities import LIQUID_SLOPE_G_PER_ML_C, liquid_density, lund_density
from wickbench.domain.heat import Portion, energy_kj, wax_of_class
from wickbench.domain.quantities import parse
from wickbench.domain.shapes import straight
from wickbench.domain.shrinkage import set_level_mm, set_share
from wickbench.domain.water import z_factor
from wickbench.domain.wax_classes import WAX_CLASSES

# n-alkanes, kg/m³ at 60, 70, 80 and 90 °C: general-purpose property library ``thermo``.
ALKANES = {
    "C20": (756.9, 750.7, 744.5, 738.2),
    "C22": (768.2, 761.6, 755.0, 748.5),
    "C24": (772.2, 765.3, 758.4, 751.5),
    "C26": (771.9, 765.4, 758.9, 752.3),
}
# C28 melts at 61 °C: only 70, 80, 90 °C can be trusted, and the lowest below stands for 60.
C28 = (769.9, 763.7, 757.4, 751.2)

# CRC Handbook of Chemistry and Physics, densities of liquids, g/mL at °C.
LIQUID_ALKANES = {
    "n-C23": (0.7785, 48), "n-C26": (0.7783, 60), "n-C27": (0.7796, 60), "n-C31": (0.781, 68),
    "n-C36": (0.7803, 80),
}  # fmt: skip
FATTY_ACIDS = {
    "lauric": (0.8679, 50), "myristic": (0.8622, 54), "palmitic": (0.8527, 62),
    "behenic": (0.8223, 90),
}  # fmt: skip
TRIGLYCERIDES = {
    "trilaurin": (0.8986, 55), "trimyristin": (0.8848, 60), "tripalmitin": (0.8752, 70),
    "tristearin": (0.8559, 90),
}  # fmt: skip


def at_70(name: str) -> float:
    """A handbook density carried to 70 °C with the slope that the program uses for every wax."""
    known, celsius = {**LIQUID_ALKANES, **FATTY_ACIDS, **TRIGLYCERIDES}[name]
    return known + LIQUID_SLOPE_G_PER_ML_C * (celsius - 70)


# -- how density falls as wax warms --------------------------------------------------------------
@pytest.mark.parametrize("row", [*ALKANES.values(), C28], ids=[*ALKANES, "C28"])
def test_the_slope_carries_an_alkane_over_thirty_degrees(row: tuple[float, ...]) -> None:
    at_reference = row[1] / 1000
    for celsius, kg_per_m3 in zip((60, 70, 80, 90), row, strict=True):
        assert liquid_density(at_reference, celsius) == pytest.approx(kg_per_m3 / 1000, abs=8.5e-4)


def test_alkanes_fall_by_what_the_slope_says() -> None:
    # -0.62 to -0.69 kg/m³/K; volume grows by 8.2 to 9.0·10⁻⁴ for each °C.
    slopes = [(row[0] - row[-1]) / 30 for row in (*ALKANES.values(), C28)]
    assert min(slopes) == pytest.approx(0.62, abs=6e-3)
    assert max(slopes) == pytest.approx(0.69, abs=6e-3)
    assert min(slopes) < 1000 * LIQUID_SLOPE_G_PER_ML_C < max(slopes)
    growths = [slope / row[1] for slope, row in zip(slopes, (*ALKANES.values(), C28), strict=True)]
    assert 8.1e-4 < min(growths) < max(growths) < 9.1e-4
    ours = LIQUID_SLOPE_G_PER_ML_C / WAX_CLASSES["paraffin"].liquid_g_per_ml
    assert min(growths) < ours < max(growths)


# CoolProp has the methyl esters of the fatty acids of waxes: kg/m³ as computed there, and in CRC.
@pytest.mark.parametrize(
    ("ester", "celsius", "kg_per_m3", "crc"),
    [
        ("MethylStearate", 40, 850.2, 849.8),
        ("MethylStearate", 50, 842.8, None),
        ("MethylStearate", 90, 813.7, None),
        ("MethylPalmitate", 75, 827.5, 824.7),
    ],
)
def test_esters_by_coolprop_and_the_handbook(
    ester: str, celsius: float, kg_per_m3: float, crc: float | None
) -> None:
    from CoolProp.CoolProp import PropsSI

    def density(at: float) -> float:
        return float(PropsSI("D", "T", 273.15 + at, "P", 101325, ester)) / 1000

    assert density(celsius) == pytest.approx(kg_per_m3 / 1000, abs=5e-5)
    # Carried from 70 °C with our slope: a fatty ester falls by 0.70 to 0.73 kg/m³ for each °C.
    assert liquid_density(density(70), celsius) == pytest.approx(kg_per_m3 / 1000, abs=2.3e-3)
    if crc is not None:
        assert density(celsius) == pytest.approx(crc / 1000, rel=4e-3)


def test_methyl_stearate_falls_by_three_quarters_of_a_gram_per_litre() -> None:
    from CoolProp.CoolProp import PropsSI

    warm, hot = (PropsSI("D", "T", 273.15 + at, "P", 101325, "MethylStearate") for at in (50, 90))
    slope = (warm - hot) / 40
    assert slope == pytest.approx(0.727, abs=1e-3)
    # Our one slope for all waxes is off by no more than a tenth of it.
    assert pytest.approx(slope / 1000, rel=0.1) == LIQUID_SLOPE_G_PER_ML_C


def test_ten_degrees_change_the_filling_by_three_quarters_of_a_percent() -> None:
    for name in ("soy", "paraffin", "coconut"):
        liquid = WAX_CLASSES[name].liquid_g_per_ml
        share = 1 - liquid_density(liquid, 80) / liquid
        assert share == pytest.approx(0.0075, abs=1.2e-3)


# -- estimates of the classes --------------------------------------------------------------------
@pytest.mark.parametrize("name", LIQUID_ALKANES)
def test_paraffins_of_the_handbook_lie_in_the_class(name: str) -> None:
    low, high = WAX_CLASSES["paraffin"].liquid_range_g_per_ml
    assert low <= at_70(name) <= high


def test_the_estimate_of_paraffin_is_in_the_middle_of_its_alkanes() -> None:
    found = [at_70(name) for name in LIQUID_ALKANES]
    assert min(found) < WAX_CLASSES["paraffin"].liquid_g_per_ml < max(found)


def test_longer_acids_and_fats_are_lighter_and_the_classes_stand_in_the_same_order() -> None:
    acids = [at_70(name) for name in FATTY_ACIDS]
    fats = [at_70(name) for name in TRIGLYCERIDES]
    assert all(shorter > longer for shorter, longer in pairwise(acids))
    assert all(shorter > longer for shorter, longer in pairwise(fats))
    # Stearic acid, of the stearin class, stands between palmitic and behenic acid.
    assert at_70("behenic") < WAX_CLASSES["stearin"].liquid_g_per_ml < at_70("palmitic")
    # Hydrogenated soy is nearly tristearin, palm stands between it and tripalmitin, coconut
    # between trimyristin and trilaurin.
    assert WAX_CLASSES["soy"].liquid_g_per_ml == pytest.approx(at_70("tristearin"), abs=2e-3)
    palm = WAX_CLASSES["palm"].liquid_g_per_ml
    assert at_70("tristearin") < palm < at_70("tripalmitin")
    assert at_70("trimyristin") < WAX_CLASSES["coconut"].liquid_g_per_ml < at_70("trilaurin")


# Saponification and iodine value of each class's fat, by Lund's formula at 70 °C.
@pytest.mark.parametrize(
    ("name", "saponification", "iodine"),
    [("soy", 190, 2), ("soy", 190, 55), ("coconut", 255, 2), ("palm", 203, 10),
     ("rapeseed", 188, 3), ("rapeseed", 174, 3)],
)  # fmt: skip
def test_estimates_of_vegetable_waxes_are_lunds(
    name: str, saponification: float, iodine: float
) -> None:
    by_lund = lund_density(saponification, iodine, 70)
    low, high = WAX_CLASSES[name].liquid_range_g_per_ml
    assert low <= by_lund <= high
    assert WAX_CLASSES[name].liquid_g_per_ml == pytest.approx(by_lund, abs=6e-3)


# Specific heats in kJ/kg/K: liquid at 80 °C (C22 to C28 2.31 to 2.38, stearic 2.30, palmitic 2.32,
# tristearin 2.22, tripalmitin 2.18) and solid at 20 °C (stearic 1.76, palmitic 1.80, lauric 2.02):
# property library ``thermo``.
@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("paraffin", 2.31, 2.38), ("stearin", 2.30, 2.32), ("soy", 2.18, 2.22), ("palm", 2.18, 2.22)],
)
def test_specific_heats_of_liquids(name: str, low: float, high: float) -> None:
    ours = wax_of_class(name).kj_per_kg_c
    assert low - 0.05 <= ours <= high + 0.05


def test_specific_heats_of_solids() -> None:
    assert 1.76 <= WAX_CLASSES["stearin"].solid_heat_kj_per_kg_c <= 1.80 + 0.01
    assert WAX_CLASSES["coconut"].solid_heat_kj_per_kg_c == pytest.approx(2.02, abs=0.05)


def test_specific_heats_of_fats_by_ward() -> None:
    """Ward et al., JAOCS 1952: liquid 0.463 + 0.0011 t, solid 0.404 + 0.001 t cal/g/K (tung oil);
    1 cal = 4.184 J: 2.28 kJ/kg/K at 75 °C."""
    liquid, solid = (4.184 * (0.463 + 0.0011 * 75), 4.184 * (0.404 + 0.001 * 20))
    assert liquid == pytest.approx(2.28, abs=5e-3)
    for name in ("soy", "rapeseed", "palm", "coconut"):
        wax = WAX_CLASSES[name]
        assert wax.liquid_heat_kj_per_kg_c == pytest.approx(liquid, rel=0.05)
        assert wax.solid_heat_kj_per_kg_c == pytest.approx(solid, rel=0.15)


# Heats of fusion in kJ/kg (CRC Handbook): C22 157, C24 161, C26 164, C28 165; tristearin (α) 171.6,
# tripalmitin 170.2, stearic 215.1, palmitic 209.4, lauric 181.2; coconut oil 105 ± 11 (Kahwaji and
# White, Applied Sciences 9 (2019) 1627). The transition of alkanes below their melting point adds
# about 60 to 90: from memory.
def test_latent_heats_of_the_classes() -> None:
    def latent(name: str) -> float:
        return WAX_CLASSES[name].latent_heat_kj_per_kg

    assert 157 < latent("paraffin") < 165 + 90
    assert 209.4 <= latent("stearin") <= 215.1
    for name in ("soy", "rapeseed", "palm"):  # partly hydrogenated: less than the pure fats
        assert 90 < latent(name) < 170.2
    assert latent("coconut") == pytest.approx(105, abs=11)
    order = ["coconut", "coconut_soy", "soy", "palm", "paraffin", "stearin"]
    assert [latent(name) for name in order] == sorted(latent(name) for name in order)


def test_melting_takes_the_greater_part_of_the_heat() -> None:
    # C20 takes 247 kJ/kg in all (CRC Handbook): the most that any wax of ours is given.
    for name, wax in WAX_CLASSES.items():
        assert wax.latent_heat_kj_per_kg < 247
        whole = energy_kj([Portion(wax_of_class(name), 1000, 20)], 82)
        assert 0.35 < wax.latent_heat_kj_per_kg / whole < 0.75


def test_flash_points_are_the_lowest_of_the_class() -> None:
    # Paraffin 199 to 249 °C, beeswax 204.4 °C (FAO); palmitic acid 192 °C (CRC Handbook).
    flash = {name: wax.flash_c for name, wax in WAX_CLASSES.items() if wax.flash_c is not None}
    assert flash == {"paraffin": 199, "beeswax": 204, "stearin": 192}


# -- setting -------------------------------------------------------------------------------------
def test_solid_fat_by_the_chocolate_makers_book() -> None:
    """Cocoa butter: solid 0.96 to 0.99, liquid 0.88 to 0.90 g/mL (Beckett, Industrial Chocolate
    Manufacture and Use): 8.7 % of the volume at the middle of both."""
    assert 1 - set_share(0.89, 0.975) == pytest.approx(0.087, abs=5e-4)
    # In a vessel part of that becomes pores: classes of fat lose less at the surface, but their
    # ranges reach that far.
    for name in ("soy", "rapeseed", "palm"):
        wax = WAX_CLASSES[name]
        assert wax.shrink_percent < 8.7
        assert 1 - set_share(wax.liquid_range_g_per_ml[0], wax.set_range_g_per_ml[1]) > 0.087


def test_two_percent_along_is_six_of_volume() -> None:
    """Lovegren and Feuge, JAOCS 1965: at most 2 % of length after setting, 5.88 % of volume.
    Tristearin: γ→α 2.3 %, α→β 0.8 % (Bailey and Kraemer 1944). Paraffin: 14 % in all."""
    after_setting = 1 - 0.98**3
    assert 1 - set_share(0.77, 0.90) == pytest.approx(0.14, abs=5e-3)
    for name in ("soy", "rapeseed", "palm"):
        low, high = WAX_CLASSES[name].set_range_g_per_ml
        # The range of set densities leaves room for the slow shrinking of the crystals.
        assert 1 - low / high > 1 - (1 - 0.023) * (1 - 0.008)
        assert 1 - low / high == pytest.approx(after_setting, abs=0.025)


def test_nine_pounds_fill_ten_sixteen_ounce_jars() -> None:
    """A general encyclopedia's rule for soy wax implies 0.8628 g/mL: the liquid density, though it
    quotes 0.90 for the wax."""
    implied = parse("9 lb", "mass") / parse("160 fl oz", "volume")
    assert implied == pytest.approx(0.8628, abs=5e-5)
    low, high = WAX_CLASSES["soy"].liquid_range_g_per_ml
    assert low <= implied <= high
    assert implied < WAX_CLASSES["soy"].set_range_g_per_ml[0]


def test_the_drop_in_a_straight_jar_is_the_shrinkage() -> None:
    # Δh/h = 1 - ρ_hot/ρ_set in a jar of one width, whatever the width.
    for wide_mm in (50.0, 90.0):
        level = set_level_mm(straight(wide_mm, 100), 80, 0.77, 0.90)
        assert 1 - level / 80 == pytest.approx(1 - set_share(0.77, 0.90))


def test_set_density_by_water_on_the_wax() -> None:
    """200 g set in a jar of 250 mL to its line; 30 g of water at 20 °C fill it up. By hand with
    Z 1.0029 (ISO 8655-6): 250 - 30.09 = 219.91 mL, so 0.90945 g/mL."""
    wax_ml = 250 - 30 * z_factor(20)
    assert 200 / wax_ml == pytest.approx(0.90945, abs=2e-5)


# -- working with it: common practice, no source -------------------------------------------------
POUR_C = {
    "soy": (49, 63), "coconut": (50, 65), "coconut_soy": (52, 68), "paraffin": (68, 82),
    "paraffin_soy": (60, 75), "beeswax": (68, 75), "palm": (85, 98), "rapeseed": (55, 65),
}  # fmt: skip
CURE_DAYS = {
    "paraffin": (1, 3), "paraffin_soy": (3, 7), "soy": (7, 14), "coconut": (5, 14),
    "beeswax": (1, 3), "rapeseed": (7, 14), "palm": (3, 7),
}  # fmt: skip
ADD_OIL_C = {"soy": (74, 85), "paraffin": (77, 85), "coconut": (65, 82), "beeswax": (70, 75)}
MELTS_C = {
    "soy": (46, 54), "coconut": (38, 48), "coconut_soy": (42, 50), "palm": (52, 62),
    "rapeseed": (44, 56), "paraffin_soy": (47, 54), "beeswax": (62, 65), "stearin": (61.8, 69.3),
    "paraffin": (46, 68),
}  # fmt: skip


def test_temperatures_and_times_are_those_of_the_trade() -> None:
    assert {name: WAX_CLASSES[name].pour_c for name in POUR_C} == POUR_C
    assert {name: WAX_CLASSES[name].cure_days for name in CURE_DAYS} == CURE_DAYS
    assert {name: WAX_CLASSES[name].add_oil_c for name in ADD_OIL_C} == ADD_OIL_C
    assert {name: WAX_CLASSES[name].melts_c for name in MELTS_C} == MELTS_C
