"""The maker measured one of her waxes; the densities of the others are still estimates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app import wax_measuring

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

WAX = "Meadow soy"
JAR = "Amber tumbler 30 cl"
SCALE = "Bench scale"

# wax in the jar, its temperature
HOT = ((208.0, 75.0), (209.0, 68.6), (208.0, 75.2))
# wax in the jar, water that fills it up to the line, temperature of the water
SET = ((201.0, 17.0, 21.5), (198.0, 20.0, 21.5), (199.0, 19.0, 22.0))


def fill_wax_measurements(workspace: Workspace, keys: dict[str, int]) -> None:
    """Three fills of each way, and both densities put to use."""
    wax, jar, scale = keys[WAX], str(keys[JAR]), keys[SCALE]
    for mass_g, wax_c in HOT:
        values = {"vessel_id": jar, "mass_g": mass_g, "wax_c": wax_c, "scale_id": scale}
        wax_measuring.write_down(workspace, wax, "hot", values)
    for mass_g, water_g, water_c in SET:
        values = {
            "vessel_id": jar,
            "mass_g": mass_g,
            "water_g": water_g,
            "water_c": water_c,
            "scale_id": scale,
        }
        wax_measuring.write_down(workspace, wax, "set", values)
    for which in ("liquid", "set"):
        wax_measuring.use_density(workspace, wax, which)
