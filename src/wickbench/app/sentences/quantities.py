"""Sentences about typed quantities."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "quantity.empty": N_("Type a value, for example {example}."),
    "quantity.too-long": N_("That is too long for one value. Write one number and its unit."),
    "quantity.not-a-value": N_(
        "“{text}” is not part of a value. Write only a number and its unit."
    ),
    "quantity.range": N_("Write one value, not a range: leave out “{text}”."),
    "quantity.bad-number": N_("“{text}” is not a number here. Write it like these: {example}."),
    "quantity.power-of-ten": N_(
        "“{text}” is written with a power of ten. Write the number out, for example 1000."
    ),
    "quantity.zero-below-line": N_("Nothing can be divided by 0. Change the 0 below the line."),
    "quantity.fraction-too-large": N_(
        "The fraction in “{text}” is one or more. Write a smaller fraction or one decimal number."
    ),
    "quantity.two-numbers": N_(
        "Two numbers stand side by side in “{text}”. Write one value, for example {example}."
    ),
    "quantity.one-value": N_("“{text}” is not one value. Write for example {example}."),
    "quantity.last-unit": N_("Add the unit of the last number. Do you mean {suggestion}?"),
    "quantity.no-unit": N_("Add the unit, for example {example}."),
    "quantity.negative": N_("This cannot be below zero. Leave out the minus sign."),
    "quantity.whole": N_("Write a whole number, without a decimal part."),
    "quantity.two-decimals": N_("Write an amount of money with at most two decimals."),
    "quantity.plain-number": N_(
        "Write a plain number here, without “{unit}”, for example {example}."
    ),
    "quantity.other-currency": N_(
        "This workshop keeps its books in {unit}. Write the amount in {unit}, without “{text}”."
    ),
    "quantity.unclear-unit": N_(
        "“{unit}” can mean more than one unit. Write the unit out, for example {example}."
    ),
    "quantity.unknown-unit": N_(
        "“{unit}” is not a unit that this program knows. Write for example {example}."
    ),
    "quantity.wrong-unit": N_("“{unit}” does not fit here. Choose a unit as in {example}."),
    "quantity.oz-is-weight": N_(
        "“oz” is a weight, and this field is a volume. Write fl oz or mL, for example {example}."
    ),
    "quantity.fl-oz-is-volume": N_(
        "“{unit}” is a volume, and this field is a weight. Write oz or g, for example {example}."
    ),
    "quantity.wants-mass": N_("“{unit}” is not a weight. Write for example {example}."),
    "quantity.wants-volume": N_("“{unit}” is not a volume. Write for example {example}."),
    "quantity.wants-length": N_("“{unit}” is not a length. Write for example {example}."),
    "quantity.wants-temperature": N_("“{unit}” is not a temperature. Write for example {example}."),
    "quantity.wants-percent": N_("Write a percentage here, without “{unit}”: {example}."),
    "quantity.wants-density": N_(
        "“{unit}” alone is not a density. Write weight per volume, for example {example}."
    ),
    "quantity.wants-duration": N_("“{unit}” is not a time. Write for example {example}."),
    "quantity.wants-days": N_("“{unit}” is not a number of days. Write for example {example}."),
    "quantity.load-without-wax": N_(
        "How much wax does this “{unit}” of oil go into? Write for example {example}."
    ),
    "quantity.load-not-weight": N_(
        "A load is weight to weight, so “{unit}” does not fit. Write for example {example}."
    ),
    "quantity.ambiguous": N_("“{text}” can mean {one} or {other}. Choose one of them."),
    "quantity.not-finite": N_("This value has no end. Write a number with digits."),
    "quantity.step-not-positive": N_(
        "What a scale reads to must be above zero. Write for example 0.1 g."
    ),
    "quantity.too-large": N_("This is more than a workshop can have. Check the number."),
    "quantity.load-too-large": N_("A load cannot be more than 100 %. Check the number."),
    "quantity.below-absolute-zero": N_(
        "Nothing is colder than −273.15 °C (−459.67 °F). Check the number."
    ),
}
