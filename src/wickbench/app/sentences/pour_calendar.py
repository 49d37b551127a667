"""Sentences of the calendar that runs backwards from the day of need."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "calendar.days": N_("A number of days is whole and between 0 and {highest}."),
    "calendar.hours": N_("Give the hours that it burns, and how many of them on one day."),
    "calendar.needed-for": N_("Say whether it is needed to pour or to label."),
    "calendar.no-workday": N_("Leave at least one day of the week to work on."),
    "calendar.needed-on": N_("There is no calendar for a day so far away. Check the date."),
    "calendar.no-day": N_("Say first by when the candles are needed."),
    "calendar.no-makings": N_("Choose at least one candle that is to be ready."),
    "calendar.needed": N_("All of it is to be ready on this day."),
    "calendar.label": N_("Label and pack. Days kept before they are needed: {spare_days}."),
    "calendar.cured": N_("Poured on {pour_on}. Days of cure: {cure_days}."),
    "calendar.pour": N_("Days of cure: {cure_days}, so that labels can go on on {label_on}."),
    "calendar.test-burn": N_(
        "Days of burning: {burn_days} (estimate), so that you know the result before you pour on "
        "{pour_on}."
    ),
    "calendar.test-pour": N_(
        "Not passed yet: pour test candles first. Days of cure: {cure_days}, before the first burn "
        "on {burn_on}."
    ),
    "calendar.order": N_("Days until it arrives: {lead_days}. It is to be there on {there_on}."),
    "calendar.order-workdays": N_(
        "The supplier’s working days until it arrives: {lead_days}. It is to be there on "
        "{there_on}."
    ),
    "calendar.late-order": N_(
        "{name} would have had to be ordered on {step_on}, {late_days} days ago. Get it sooner, "
        "or plan for {earliest_on}."
    ),
    "calendar.late-test-pour": N_(
        "Test candles of {name} would have had to be poured on {step_on}, {late_days} days ago. "
        "Take a candle that has passed, or plan for {earliest_on}."
    ),
    "calendar.late-test-burn": N_(
        "Burn tests of {name} would have had to begin on {step_on}, {late_days} days ago. Take a "
        "candle that has passed, or plan for {earliest_on}."
    ),
    "calendar.late-pour": N_(
        "{name} would have had to be poured on {step_on}, {late_days} days ago. Take one that "
        "cures faster, or plan for {earliest_on}."
    ),
    "calendar.late-needed": N_(
        "The day on which they are needed has gone by: {step_on}. The next that could be met is "
        "{earliest_on}."
    ),
    "calendar.still-in-time": N_("Still possible by {needed_on}: {names}."),
    "calendar.pour-too-late": N_(
        "Poured on {pour_on}, these are cured on {cured_on}, after the day for labels, "
        "{label_on}: {names}. Pour sooner."
    ),
    "calendar.pour-before-tests": N_(
        "You plan to pour on {pour_on}, but burn tests of {name} that begin now take until "
        "{tested_on} (estimate). Leave it out, or pour later."
    ),
    "calendar.no-lead-days": N_(
        "{name} is short, and nobody noted how many days it takes to arrive. Write that with it, "
        "so that the day to order can be told."
    ),
    "calendar.no-candle": N_(
        "No candle was chosen for {names}, so no burn tests are counted in for it."
    ),
}
