"""What stands on the shelf and what is made of it, as frozen values; ``None``: not filled in."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from wickbench.domain.recipes import Load

MATERIAL_KINDS = (
    "wax",
    "fragrance",
    "wick",
    "dye",
    "additive",
    "lid",
    "sheet",
    "packaging",
    "supplies",
)
WEIGHED_KINDS = frozenset({"wax", "fragrance", "dye", "additive"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Wax:
    """What is known of a wax. Estimates stand in until the maker measures."""

    wax_class: str | None = None
    liquid_g_per_ml: float | None = None
    liquid_measured: bool = False
    set_g_per_ml: float | None = None
    set_measured: bool = False
    melts_from_c: float | None = None
    melts_to_c: float | None = None
    max_load: Load | None = None
    heat_to_c: float | None = None
    add_oil_c: float | None = None
    pour_c: float | None = None
    cure_days: int | None = None
    flash_c: float | None = None
    finish: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fragrance:
    """What the data sheet and the certificate say of an oil."""

    density_g_per_ml: float | None = None
    flash_c: float | None = None
    ifra_12_percent: float | None = None
    ifra_amendment: str | None = None
    vanillin_percent: float | None = None
    scent_family: str | None = None
    ingredients: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wick:
    """A wick by kind, series and size; diameters are the vessel's inner diameter it suits."""

    wick_kind: str | None = None
    series: str | None = None
    size: str | None = None
    diameter_from_mm: float | None = None
    diameter_to_mm: float | None = None
    trim_mm: float | None = None
    neck_mm: float | None = None
    width_mm: float | None = None
    length_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dye:
    """A dye; shares are percent of wax."""

    form: str | None = None
    usual_percent: float | None = None
    max_percent: float | None = None
    colour_name: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive:
    """An additive; shares are percent of wax."""

    purpose: str | None = None
    density_g_per_ml: float | None = None
    usual_percent: float | None = None
    max_percent: float | None = None
    melts_c: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lid:
    """A lid by what it fits and measures."""

    lid_material: str | None = None
    fits_mm: float | None = None
    diameter_mm: float | None = None
    mass_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetMeasures:
    """A sticker sheet as typed, maybe incomplete; ``sheets.StickerSheet`` is the valid one."""

    page: str | None = None
    page_w_mm: float | None = None
    page_h_mm: float | None = None
    left_mm: float | None = None
    top_mm: float | None = None
    columns: int | None = None
    rows: int | None = None
    pitch_x_mm: float | None = None
    pitch_y_mm: float | None = None
    sticker_w_mm: float | None = None
    sticker_h_mm: float | None = None
    shape: str | None = None
    corner_mm: float | None = None
    surface: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Packaging:
    """A box or bag by what goes in."""

    packaging_kind: str | None = None
    holds: int | None = None
    inside_w_mm: float | None = None
    inside_d_mm: float | None = None
    inside_h_mm: float | None = None
    mass_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplies:
    """Anything else used up: gloves, wipes, glue dots."""

    used_for: str | None = None
    unit: str | None = None


Details = Wax | Fragrance | Wick | Dye | Additive | Lid | SheetMeasures | Packaging | Supplies


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """Anything bought and used up."""

    id: int
    kind: str
    name: str
    details: Details
    supplier: str | None = None
    code: str | None = None
    note: str | None = None
    colour: str | None = None
    archived: bool = False
    lead_days: int | None = None
    lead_in_workdays: bool = False

    @property
    def weighed(self) -> bool:
        """Whether it is bought and used by weight; anything else is counted."""
        return self.kind in WEIGHED_KINDS


@dataclass(frozen=True, slots=True)
class Price:
    """What a quantity cost, freight included: (amount, quantity), never a price per gram.

    ``paid_e4`` in 1/10 000 of the currency unit; ``quantity`` in mg or pieces.
    """

    paid_e4: int
    quantity: int

    def of(self, quantity: int) -> Fraction:
        """Cost of a quantity (mg or pieces) in 1/10 000 of the currency unit, exact."""
        return Fraction(self.paid_e4 * quantity, self.quantity)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighingRow:
    """One row of the weighings table, as typed and maybe incomplete."""

    id: int
    level: str = "line"
    vessel_no: int | None = None
    empty_g: float | None = None
    filled_g: float | None = None
    water_c: float | None = None
    scale_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """What is poured into. Heights are measured from the inside of the base."""

    id: int
    name: str
    supplier: str | None = None
    code: str | None = None
    note: str | None = None
    archived: bool = False
    lead_days: int | None = None
    lead_in_workdays: bool = False
    vessel_kind: str | None = None
    glass: str | None = None
    candle_rated: bool = False
    rated_by: str | None = None
    nominal_ml: float | None = None
    nominal_text: str | None = None
    height_mm: float | None = None
    fill_mm: float | None = None
    outer_height_mm: float | None = None
    outer_top_mm: float | None = None
    outer_bottom_mm: float | None = None
    base_mm: float | None = None
    straight_from_mm: float | None = None
    straight_to_mm: float | None = None
    empty_g: float | None = None
    cells: int = 1
    lid_text: str | None = None
    lid_id: int | None = None
    base_fillet_mm: float | None = None
    push_up_mm: float | None = None
    diameters: tuple[tuple[float, float], ...] = ()
    weighings: tuple[WeighingRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipePart:
    """One line of a version: wax and fragrance in parts, dye and additive in percent of wax."""

    id: int
    role: str
    item_id: int | None
    parts: float | None = None
    of_wax_percent: float | None = None
    position: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeVersion:
    """One version of a recipe; frozen once a pour, test or print used it."""

    id: int
    recipe_id: int
    name: str
    number: int = 1
    state: str = "idea"
    frozen: bool = False
    load: Load | None = None
    heat_to_c: float | None = None
    add_oil_c: float | None = None
    pour_c: float | None = None
    stir_min: int | None = None
    cure_days: int | None = None
    note: str | None = None
    parts: tuple[RecipePart, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TestRecord:
    """A verdict on a candle and what it was given on."""

    __test__ = False  # not a test class, whatever a test runner thinks of the name

    id: int
    state: str
    tested_by: str | None = None
    tested_on: str | None = None
    note: str | None = None
    made_of: dict[str, object] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Candle:
    """What is sold: recipe × vessel × wicks × lid."""

    id: int
    name: str
    code: str | None = None
    version_id: int | None = None
    vessel_id: int | None = None
    lid_id: int | None = None
    wick_ids: tuple[int, ...] = ()
    extras: tuple[tuple[int, int], ...] = ()
    declared_net_g: float | None = None
    fill_to: str | None = None
    identity: str | None = None
    note: str | None = None
    price_money: float | None = None
    jar_label_id: int | None = None
    lid_label_id: int | None = None
    caution_label_id: int | None = None
    archived: bool = False
    tests: tuple[TestRecord, ...] = field(default=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment:
    """Scales, pots, heat sources and printers as rows in presented names, maybe incomplete."""

    scales: tuple[dict[str, object], ...] = ()
    pots: tuple[dict[str, object], ...] = ()
    heat_sources: tuple[dict[str, object], ...] = ()
    thermometers: tuple[dict[str, object], ...] = ()
    printers: tuple[dict[str, object], ...] = ()
