"""What the ornaments and caution drawings are called that can be put onto a label."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

GROUP_WORDS: Final[Mapping[str, str]] = {
    "leaves": N_("Leaves and wreaths"),
    "flowers": N_("Flowers"),
    "spices": N_("Fruit and spices"),
    "sky": N_("Fire and sky"),
    "rules": N_("Dividing rules"),
    "corners": N_("Corners and brackets"),
}
ORNAMENT_WORDS: Final[Mapping[str, str]] = {
    "sprig": N_("Sprig"),
    "leaf-pair": N_("Pair of leaves"),
    "laurel-left": N_("Laurel, left half"),
    "laurel-right": N_("Laurel, right half"),
    "laurel": N_("Laurel, both halves"),
    "olive": N_("Olive twig"),
    "eucalyptus": N_("Eucalyptus"),
    "fern": N_("Fern"),
    "pine": N_("Pine twig"),
    "wheat": N_("Ear of wheat"),
    "wreath": N_("Wreath"),
    "wreath-open": N_("Wreath, open above"),
    "flower": N_("Small flower"),
    "daisy": N_("Daisy"),
    "lavender": N_("Lavender"),
    "vanilla": N_("Vanilla flower and pods"),
    "citrus": N_("Slice of citrus"),
    "coffee": N_("Coffee bean"),
    "anise": N_("Star anise"),
    "berries": N_("Three berries"),
    "honeycomb": N_("Honeycomb"),
    "flame": N_("Flame"),
    "candle": N_("Candle in a glass"),
    "drop": N_("Drop"),
    "star": N_("Star"),
    "stars": N_("Three stars"),
    "moon": N_("Crescent moon"),
    "moon-phases": N_("Phases of the moon"),
    "sun": N_("Sun with rays"),
    "sunrise": N_("Sunrise"),
    "snow": N_("Snow crystal"),
    "rule-diamond": N_("Rule with a diamond"),
    "rule-leaf": N_("Rule with leaves"),
    "rule-curl": N_("Rule with curls"),
    "rule-swell": N_("Swelling rule"),
    "rule-wave": N_("Waved rule"),
    "rule-dots": N_("Dotted rule"),
    "rule-double": N_("Double rule"),
    "corner-leaf": N_("Corner with twigs"),
    "corner-curl": N_("Corner with a curl"),
    "corner-lines": N_("Corner of lines"),
    "corner-fan": N_("Corner with a fan"),
    "brackets": N_("Pair of brackets"),
}
PICTOGRAM_WORDS: Final[Mapping[str, str]] = {
    "safety-alert": N_("General warning"),
    "never-unattended": N_("Never leave it unattended"),
    "away-from-combustibles": N_("Away from what can burn"),
    "away-from-children-and-pets": N_("Away from children and pets"),
    "trim-wick": N_("Trim the wick"),
    "max-hours": N_("Longest burn"),
    "heat-resistant-surface": N_("On a surface that stands heat"),
    "do-not-move": N_("Do not move it while it burns"),
}
