"""Making vessels layered from leftovers: one act, a candle of its own kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app import stock_use
from wickbench.app.layered_jars import JarDraft, JarView, view_jar
from wickbench.app.leftover_recipes import insert_mix
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection


def make_jar(workspace: Workspace, shelf: Shelf, draft: JarDraft, *, origin: object = None) -> int:
    """Make the layered vessels: a candle of its own kind, untested, and the leftovers go down.

    One act writes the mix as a recipe, the candle of it, and what went into each layer. Returns
    the candle's key.

    Raises:
        DomainError: ``leftovers.no-layer`` with nothing in it, ``leftovers.choose-vessel``, or
            what stops it from being made.
    """
    view = view_jar(draft, shelf, workspace.settings, workspace.texts)
    if draft.vessel_id is None:
        raise DomainError("leftovers.choose-vessel")
    if view.made is None:
        raise DomainError("leftovers.no-layer")
    if not view.can_make:
        stop = next((one for one in view.findings if one.rank is Rank.STOPS), None)
        raise DomainError(stop.key if stop else "leftovers.no-layer", **(stop.data if stop else {}))
    name = draft.name.strip() or workspace.texts(N_("Layered jar"))
    workspace.clock.today().isoformat()
    with workspace.step(N_("Layer a jar"), origin=origin) as connection:
        candle = _candle(workspace, connection, draft, view, name)
        _layers(workspace, connection, draft, view, {"name": name, "candle_id": candle})
        used = {item: float(draft.count) for item in (draft.vessel_id, draft.wick_id) if item}
        stock_use.take(workspace, connection, used, None)
    return candle


def _candle(
    workspace: Workspace, connection: Connection, draft: JarDraft, view: JarView, name: str
) -> int:
    mix = view.made.recipe if view.made is not None else None
    version = insert_mix(workspace, connection, mix, name)[1] if mix is not None else None
    values = {
        "name": name,
        "version_id": version,
        "vessel_id": draft.vessel_id,
        "fill_to": "line",
        "note": _note(view, workspace.texts),
    }
    candle = records.insert(connection, "candle", values)
    if draft.wick_id is not None:
        wick = {"candle_id": candle, "position": 0, "item_id": draft.wick_id}
        records.insert(connection, "candle_wick", wick)
    return candle


def _layers(
    workspace: Workspace,
    connection: Connection,
    draft: JarDraft,
    view: JarView,
    head: dict[str, object],
) -> None:
    made_on = workspace.clock.today().isoformat()
    values = {"vessel_id": draft.vessel_id, "count": draft.count, "made_on": made_on, **head}
    jar = records.insert(connection, "layered", values)
    for one in view.layers:
        layer = {
            "layered_id": jar,
            "position": one.place,
            "leftover_id": one.leftover_id,
            "mass_g": one.mass_g,
        }
        records.insert(connection, "layer", layer)


def _note(view: JarView, texts: Texts) -> str:
    """What is in it, bottom to top, and whether it may be sold."""
    layers = "; ".join(f"{one.name}, {one.mass}" for one in view.layers)
    said = texts(N_("Layers from the bottom: {layers}."), layers=layers)
    return f"{said} {view.verdict}"
