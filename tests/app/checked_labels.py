"""Labels laid out and checked without a workshop file, for tests of what rules want."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from wickbench.app.label_check import LabelCheck
from wickbench.app.label_making import typeface_shelf
from wickbench.app.required_texts import required_findings
from wickbench.app.settings import Settings
from wickbench.documents.label_layout import LaidOutLabel, lay_out_label
from wickbench.domain.catalog import Candle, Vessel
from wickbench.domain.labels import LabelDesign, TextElement
from wickbench.domain.net_weight import declared_for

if TYPE_CHECKING:
    from wickbench.domain.findings import Finding

MAKER = {
    "business_name": "Tallow & Tide",
    "business_street": "3 Quay Row",
    "business_city": "Saltby",
    "business_state": "ME",
    "business_postcode": "04000",
    "business_email": "hello@tallow.example",
}
SOLD = {"US": "sold_in_us", "EU": "sold_in_eu", "UK": "sold_in_uk"}
WHO = "Tallow & Tide, 3 Quay Row, Saltby, ME 04000, hello@tallow.example"


def settings_for(*regions: str, **more: object) -> Settings:
    """Settings of a business that sells in these regions."""
    sold = {name: int(region in regions) for region, name in SOLD.items()}
    return Settings({**MAKER, **sold, **more})


def jar(height_mm: float, diameter_mm: float) -> Vessel:
    """A straight jar whose whole outside is its label zone."""
    return Vessel(
        id=1, name="Tumbler", outer_height_mm=height_mm, outer_top_mm=diameter_mm,
        outer_bottom_mm=diameter_mm, straight_from_mm=0.0, straight_to_mm=height_mm,
    )  # fmt: skip


def net_text(**changes: object) -> TextElement:
    """The net weight in capitals, low on a label of 90 × 60 mm."""
    plain = TextElement(
        x_mm=5, y_mm=48, w_mm=80, h_mm=9, text="{net weight}", size_pt=16, min_size_pt=6, upper=True
    )
    return replace(plain, **changes)  # type: ignore[arg-type] - fields by name


def around_it() -> tuple[TextElement, ...]:
    """Identity, lot, name and place, out of the net weight's way."""
    return (
        TextElement(x_mm=5, y_mm=4, w_mm=80, h_mm=8, text="{identity}", size_pt=9),
        TextElement(x_mm=5, y_mm=14, w_mm=80, h_mm=5, text="{lot}", size_pt=7),
        TextElement(x_mm=5, y_mm=22, w_mm=80, h_mm=8, text=WHO, size_pt=7),
    )


@dataclass(frozen=True, kw_only=True)
class Case:
    """A label of 90 × 60 mm for a candle of 220 g in a jar 70 mm high and 80 mm wide.

    Its front panel is 0.4 × 70 × π × 80 mm = 70.4 cm², 10.9 sq in: 1/8 inch in the US.
    """

    net: TextElement | None = field(default_factory=net_text)
    others: tuple[Any, ...] = field(default_factory=around_it)
    regions: tuple[str, ...] = ("US",)
    declared_g: float | None = 220.0
    vessel: Vessel | None = field(default_factory=lambda: jar(70.0, 80.0))
    design: dict[str, Any] = field(default_factory=dict)
    values: dict[str, str] = field(default_factory=dict)
    caution: bool | None = True
    lid_mm: float | None = None
    paper: str = "#ffffff"

    def filled(self) -> dict[str, str]:
        """Values of the fields."""
        said = (
            declared_for(round(self.declared_g * 1000), self.regions) if self.declared_g else None
        )
        lines = (*said.lines, "") if said else ("", "")
        return {
            "identity": "Scented soy candle", "lot": "Lot 26-330-A1",
            "net_weight": said.text if said else "", "net_weight_first": lines[0],
            "net_weight_second": lines[1], **self.values,
        }  # fmt: skip

    def lay_out(self, design: LabelDesign) -> LaidOutLabel:
        """Lay a design out with the values of the case."""
        return lay_out_label(design, self.filled(), typeface_shelf().nearest)

    def check(self) -> LabelCheck:
        """The label as a check looks at it."""
        elements = (*self.others, self.net) if self.net is not None else self.others
        design = LabelDesign(
            **{"width_mm": 90, "height_mm": 60, "elements": elements, **self.design}
        )
        return LabelCheck(
            laid=self.lay_out(design),
            values=self.filled(),
            settings=settings_for(*self.regions),
            candle=Candle(id=1, name="Hearth", declared_net_g=self.declared_g, vessel_id=1),
            vessel=self.vessel,
            lid_mm=self.lid_mm,
            caution=self.caution,
            paper=self.paper,
        )


def found(case: Case) -> dict[str, Finding]:
    """What is wrong with a case, by the key without its beginning."""
    return {one.key.removeprefix("required."): one for one in required_findings(case.check()).wrong}
