"""Sentences about heating and pouring as they are planned."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "plan-heat.no-heater": N_("Choose what heats the pots, and the plan tells how long it takes."),
    "plan-heat.no-power": N_(
        "Enter the watts of “{name}”, and the plan tells how long the pots take."
    ),
    "plan-heat.no-bath": N_(
        "The water in the bath of “{name}” is not counted. Enter how much it is: it takes its own "
        "time on the heat."
    ),
    "plan-heat.not-read": N_(
        "How long a pot stays warm enough to pour is told once its temperature was read twice at "
        "the bench as it cooled. Not read yet: {names}."
    ),
    "plan-heat.too-many-vessels": N_(
        "Pot {number} cools too soon: of {vessels} vessels only {sure} to {likely} are poured "
        "before it is colder than {low_c}. Warm it once in between, pour from smaller pots, or be "
        "quicker."
    ),
    "plan-heat.hardly-in-time": N_(
        "Pot {number} may cool too soon: {sure} of {vessels} vessels are sure before it is colder "
        "than {low_c}. Keep its heat close by."
    ),
}
