"""What can be done with a recipe's versions: change their state, their load, what is asked for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from wickbench.app.fields import choices, field
from wickbench.app.recipe_fields import STATE_NAMES
from wickbench.app.recipe_view import Wanted
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.storage import records, state

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

AMOUNT_FIELD = field("view", "mass_g", N_("Amount"), "mass", low=1, high=1_000_000)
AMOUNT_OF_FIELD = field(
    "view",
    "of",
    N_("of"),
    "choice",
    choices=choices({"mix": N_("mix in all"), "wax": N_("wax alone")}),
)
KILOGRAM_G = 1000.0
POUND_G = 453.59237
_REMEMBERED_G = "recipes_amount_g"
_REMEMBERED_OF = "recipes_amount_of"
_PER_WEIGHT = re.compile(r"[^\W\d_]\s*(/|\bper\b)\s*[^\W\d_]", re.IGNORECASE)


def set_state(workspace: Workspace, version: int, word: str, *, origin: object = None) -> None:
    """Move a version on: idea, testing, for sale, retired; a frozen one too.

    Raises:
        DomainError: there is no such state.
    """
    if word not in STATE_NAMES:
        raise DomainError("field.not-a-choice", typed=word)
    with workspace.step(N_("Change the state of a recipe"), origin=origin) as connection:
        records.update(connection, "recipe_version", version, {"state": word})


def says_of_wax(typed: str) -> bool:
    """Whether a typed load says its basis itself: "1 oz/lb" is oil per weight of wax."""
    return _PER_WEIGHT.search(typed) is not None


def set_load_of_wax(
    workspace: Workspace, version: int, load_percent: float, *, origin: object = None
) -> None:
    """Set load and basis together, as one act."""
    values = {"load_percent": load_percent, "load_basis": "wax"}
    with workspace.step(N_("Change the fragrance load"), origin=origin) as connection:
        records.update(connection, "recipe_version", version, values)


def remembered_amount(workspace: Workspace) -> Wanted:
    """How much the recipes are shown for; a kilogram of mix until something else was asked."""
    with workspace.read() as connection:
        mass_g = state.setting(connection, _REMEMBERED_G)
        of = state.setting(connection, _REMEMBERED_OF)
    usable = isinstance(mass_g, (int, float)) and mass_g > 0
    return Wanted(
        mass_g=float(mass_g) if usable and isinstance(mass_g, (int, float)) else KILOGRAM_G,
        of="wax" if of == "wax" else "mix",
    )


def remember_amount(workspace: Workspace, wanted: Wanted, *, origin: object = None) -> None:
    """Keep how much the recipes are shown for. Undo leaves it alone."""
    with workspace.unjournalled("view", origin=origin) as connection:
        state.set_setting(connection, _REMEMBERED_G, wanted.mass_g)
        state.set_setting(connection, _REMEMBERED_OF, wanted.of)
