"""Sentences about the business details that labels need."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "business.no-name": N_("The name of the business is missing ({source}, {date})."),
    "business.no-street": N_("The street is missing ({source}, {date})."),
    "business.no-city": N_("The town or city is missing ({source}, {date})."),
    "business.no-state": N_("The state is missing ({source}, {date})."),
    "business.no-postcode": N_("The ZIP or postcode is missing ({source}, {date})."),
    "business.no-electronic": N_(
        "An e-mail or web address is missing ({source}, {date}). Have this one looked up for "
        "what you sell."
    ),
    "business.no-phone": N_("Hazard labels also need a telephone number ({source}, {date})."),
}
