"""Sentences about what is too little for its scale, with what would help."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "plan.less-than-the-step": N_(
        "{mass_g} of {name} is less than {scale} can show, which reads to {step_g}. Make so much "
        "that at least {least_g} of it goes in, or use a scale that reads to {finer_g}."
    ),
    "plan.oil-too-little-to-weigh": N_(
        "{mass_g} of {name} on {scale}, which reads to {step_g}: the load may be {low_percent} to "
        "{high_percent} of wax. Make so much that at least {least_g} of it goes in, or use a "
        "scale that reads to {finer_g}."
    ),
    "plan.oil-of-blend-too-little-to-weigh": N_(
        "{mass_g} of {name} on {scale}, which reads to {step_g}: the load may be {low_percent} to "
        "{high_percent} of wax. Mix the oils of the blend in a bottle first, at least {least_g} "
        "of each, and weigh the blend; or use a scale that reads to {finer_g}."
    ),
    "plan.dye-too-little-to-weigh": N_(
        "{mass_g} of {name} on {scale}, which reads to {step_g}: it may be off by {off_percent} "
        "of itself, which is another shade. Melt at least {least_g} of it into some wax and weigh "
        "that out, or use a scale that reads to {finer_g}."
    ),
    "plan.additive-too-little-to-weigh": N_(
        "{mass_g} of {name} on {scale}, which reads to {step_g}: it may be off by {off_percent} "
        "of itself. Make so much that at least {least_g} of it goes in, or use a scale that reads "
        "to {finer_g}."
    ),
}
