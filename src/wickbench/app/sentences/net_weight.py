"""Sentences about the declared net weight."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "net-weight.out-of-range": N_(
        "A net weight of {given_g} cannot be declared here. Enter between 1 g and 25 kg."
    ),
    "net-weight.region-unknown": N_("Choose where the candle is sold: US, EU or UK."),
    "net-weight.step": N_("Enter a step above zero to round the net weight down to."),
    "net-weight.measure": N_("Enter a height and a diameter above zero, not {given_mm}."),
    "net-weight.size-missing": N_(
        "The height of the net weight's figures follows from the size of the front panel in the US "
        "and from the net weight elsewhere. Enter that first."
    ),
    "net-weight.below-declared": N_(
        "The plan gives {planned_g} in each, {difference_g} less than the {declared_g} on the "
        "label. Fill more, or declare less."
    ),
    "net-weight.far-above": N_(
        "The plan gives {planned_g} in each, {difference_g} more than the {declared_g} on the "
        "label. You could declare more, or fill less."
    ),
    "net-weight.none-weighed": N_("Weigh at least one finished candle first."),
    "net-weight.average-below": N_(
        "The {count} candles weighed hold {average_g} on average, less than the {declared_g} on "
        "the label. Declare less, or fill more."
    ),
    "net-weight.far-short": N_(
        "{count} of the candles weighed hold less than {least_g}, the lightest {lightest_g}. Do "
        "not sell these under this label."
    ),
    "net-weight.too-many-short": N_(
        "{count} of {of} candles hold less than {least_g}; at most five in a hundred may. Declare "
        "less, or take the light ones out."
    ),
}
