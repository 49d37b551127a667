"""Sentences about scales, pots, heat, thermometers and printers."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "equipment.no-scale": N_("No scale is entered yet. A pour plan needs one to weigh on."),
    "equipment.no-fine-scale": N_(
        "No scale reads to 0.1 g or finer. Fragrance oil and dye are small amounts: such a scale "
        "keeps the load true."
    ),
    "equipment.scale-unfinished": N_(
        "{name}: enter how much it carries and what it reads to. Until then nothing is planned on "
        "it."
    ),
    "equipment.no-pot": N_("No pot is entered yet. A pour plan needs one to pour from."),
    "equipment.pot-no-brim": N_(
        "{name}: how much it holds to the brim is missing, so the pot cannot be planned. Measure "
        "it with water and a scale."
    ),
    "equipment.no-water": N_("Enter what the water in the full pot weighs: more than nothing."),
    "equipment.pot-too-full": N_(
        "{name} may be filled to {fill_percent} of its brim. Hot wax spills: 75 to 80 % leaves "
        "room to stir and to carry."
    ),
    "equipment.pot-not-weighed": N_(
        "{name} was not weighed empty. With its weight, plans tell which scale carries it full."
    ),
    "equipment.pot-over-scales": N_(
        "{name} weighs {empty_g} empty, and no scale carries more than {maximum_g}. Weigh the wax "
        "in a lighter bowl first, or enter a larger scale."
    ),
    "equipment.pot-heavy-when-full": N_(
        "{name} weighs about {full_g} when it is full, and no scale carries more than "
        "{maximum_g}. Weigh the wax in portions before it goes in."
    ),
    "equipment.in-use": N_(
        "A weighing, a plan or a pour still names this, so it stays. Choose another one there "
        "first."
    ),
    "equipment.open-flame": N_(
        "{name} is an open flame: wax and oil vapour can catch fire. Never leave it, keep a lid "
        "and a fire blanket at hand. Local rules decide whether it may be used."
    ),
    "equipment.left-on-heat": N_(
        "With {name} the pot stays on the heat while the oil goes in, so each oil’s flash point is "
        "looked at in plans and recipes."
    ),
    "equipment.infrared": N_(
        "{name} reads shiny tins and steel pots far too low. Stick matt tape on the spot and aim "
        "at that, or use a probe."
    ),
    "equipment.printer-no-edge": N_(
        "{name}: enter how near to the edge it prints. Laser printers leave 4 to 5 mm; many "
        "inkjets more at the bottom."
    ),
    "equipment.same-name": N_(
        "Two are called {name}. Give them different names: plans and papers say which one to take."
    ),
}
