"""Sentences about filled candles that were weighed."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "net-evidence.without-empty": N_(
        "Row {row_no} does not count yet: what did this jar weigh empty, with its wick?"
    ),
    "net-evidence.without-filled": N_(
        "Row {row_no} does not count yet: what does it weigh filled?"
    ),
    "net-evidence.not-heavier": N_(
        "Row {row_no}: filled it must weigh more than empty ({empty_g} empty, {filled_g} filled). "
        "Check whether the two were swapped."
    ),
    "net-evidence.average-tare": N_(
        "{count} weighed with an average empty weight ({empty_g}): no evidence of the net weight. "
        "Empty ones of one box differ by 2 to 4 percent, here {low_g} to {high_g}, and the net "
        "weight is wrong by as much. Weigh each jar empty, with its wick, before it is filled."
    ),
    "net-evidence.same-tare": N_(
        "{count} jars with the same empty weight ({empty_g}): an average, so no evidence of the "
        "net weight. Empty ones of one box differ by 2 to 4 percent, here {low_g} to {high_g}, and "
        "the net weight is wrong by as much. Weigh each jar empty, with its wick, before it is "
        "filled."
    ),
    "net-evidence.scale-too-coarse": N_(
        "The lightest holds {lowest_g}, {declared_g} are declared: closer than the step of the "
        "scale ({step_g}). Weigh these on a scale that reads finer, or leave more room."
    ),
}
