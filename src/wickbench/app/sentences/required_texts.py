"""Sentences about what rules want on a label: net weight, maker, identity, lot, caution."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "required.net-missing": N_(
        "The net weight is not on this label. Add the field {{net weight}}."
    ),
    "required.net-no-ounces": N_(
        "“{text}” has no ounces: sold in {region}, the net weight stands in ounces by weight and "
        "in grams."
    ),
    "required.net-no-grams": N_(
        "“{text}” has no grams: sold in {region}, the net weight stands in grams."
    ),
    "required.net-too-much": N_(
        "“{text}” promises more than the declared net weight, “{right}”. Of two figures the larger "
        "one counts."
    ),
    "required.net-differs": N_("“{text}” is not the declared net weight, “{right}”."),
    "required.net-word": N_("“{text}” does not say “net”. Put the word before the figure."),
    "required.net-metric-first": N_(
        "“{text}” has ounces before grams: sold in {region}, grams come first."
    ),
    "required.net-ounces-larger": N_(
        "“{text}” is larger than the grams: sold in {region}, ounces only stand beside them. Make "
        "it no larger."
    ),
    "required.net-decimals": N_("“{text}” has more than {most} decimals. Round it down."),
    "required.net-fraction": N_(
        "“{text}” has a fraction that is none of the usual ones: halves, quarters, eighths, "
        "sixteenths or thirty-seconds of an ounce or a pound, in lowest terms."
    ),
    "required.net-no-fractions": N_(
        "“{text}” has a fraction: sold in {region}, the net weight stands in decimals."
    ),
    "required.net-plain": N_(
        "“{words}” stands with the net weight, and no word may make it larger or vaguer. Take it "
        "away."
    ),
    "required.net-fluid": N_(
        "Fluid ounces measure a volume. A candle is sold by weight: write ounces by weight."
    ),
    "required.net-not-alone": N_(
        "“{text}” stands on a line with other words. Give the net weight lines of its own."
    ),
    "required.net-crowded": N_(
        "Something comes too near to the net weight. Keep {above_mm} free above and below it, and "
        "{beside_mm} on either side."
    ),
    "required.net-high": N_(
        "The net weight stands too high: it belongs in the lowest {percent} % of the label’s area, "
        "here below {from_mm} from the top. Move it down."
    ),
    "required.net-turned": N_(
        "The net weight does not stand level. Set it in straight lines along the base."
    ),
    "required.net-not-in-front": N_(
        "The net weight reaches round the side of the vessel. Move it to the middle of the label, "
        "which faces people."
    ),
    "required.net-pale": N_(
        "The net weight hardly differs from what lies behind it. Choose a darker or lighter colour."
    ),
    "required.net-narrow": N_(
        "The letters of the net weight are more than three times as high as wide. Choose a wider "
        "typeface."
    ),
    "required.figures-small": N_(
        "The figures of the net weight are {height} mm high; sold in {region}, they are at least "
        "{least} mm at this weight."
    ),
    "required.figures-small-panel": N_(
        "The net weight is {height} mm high, measured on its figures and letters; sold in "
        "{region}, it is at least {least} mm ({inches} in) on a front panel of {area_cm2} cm²."
    ),
    "required.figures-well": N_(
        "Figures of the net weight {height} mm high; sold in {region}, at least {least} mm at this "
        "weight."
    ),
    "required.figures-well-panel": N_(
        "Net weight {height} mm high; sold in {region}, at least {least} mm ({inches} in) on a "
        "front panel of {area_cm2} cm²."
    ),
    "required.panel-unknown": N_(
        "How high the net weight must stand, sold in {region}, is not checked: the vessel’s "
        "outside is not measured."
    ),
    "required.business-empty": N_(
        "Part of your business’s name and place is not written down yet, so it is not on this "
        "label. Fill in the business details."
    ),
    "required.maker-missing": N_(
        "The maker’s name and place are not whole on this label. Add the fields {{business}} and "
        "{{business address}}."
    ),
    "required.place-missing": N_(
        "The maker’s place is not whole on this label. Add the field {{business address}}, and "
        "fill in the business details."
    ),
    "required.reach-missing": N_(
        "Sold in {region}, an e-mail or web address stands with the maker’s name. Add the field "
        "{{email}} or {{web}}."
    ),
    "required.identity-missing": N_(
        "The label does not say what it is. Add the field {{identity}}: “{identity}”."
    ),
    "required.identity-unknown": N_(
        "The label does not say what it is, and the program does not know it yet. Choose the "
        "recipe of the candle, or write with the candle what it is."
    ),
    "required.identity-not-in-front": N_(
        "What it is stands at the side of the vessel. Move it to the middle of the label, which "
        "faces people."
    ),
    "required.lot-missing": N_(
        "The lot is not on this label. Add the field {{lot}}, or print it on the caution sticker."
    ),
    "required.caution-missing": N_(
        "{candle} has no caution sticker yet. Choose one with the candle, or add it to a print run."
    ),
    "required.hazard-label-not-made": N_(
        "Sold in {region}: the hazard label (CLP) is not made here. Make it from the supplier’s "
        "documents."
    ),
}
