"""Sentences about fields of any form."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "field.too-long": N_("That is too long: {most} characters at most."),
    "field.not-a-choice": N_("“{typed}” is not one of the choices."),
    "field.too-small": N_("That is too small here: {least} at least."),
    "field.too-large": N_("That is too large here: {most} at most."),
    "field.density-unit": N_(
        "No wax or oil is that heavy. Did you mean {meant}? Then write it so, or as {typed}."
    ),
    "date.no-date": N_("“{typed}” is not a date. Write for example 2026-11-28 or 28 Nov."),
    "date.no-such-day": N_("There is no such day as “{typed}”."),
    "date.two-days": N_("“{typed}” can be two days. Choose one."),
}
