"""Sentences about plans, pots and scales, the bench, lot codes and costs."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

_EQUIPMENT = {
    "equipment.scale-maximum": N_("Say how much the scale carries: more than nothing."),
    "equipment.scale-step": N_("Say what the scale reads to, for example 1 g or 0.1 g."),
    "equipment.scale-step-above-maximum": N_(
        "A scale that carries {maximum_g} cannot read to {reads_to_g}. Are the two swapped?"
    ),
    "equipment.pot-brim": N_("Say how much the pot holds to the brim: more than nothing."),
    "equipment.pot-empty": N_(
        "The empty pot weighs nothing less than zero. Weigh it and enter it."
    ),
    "equipment.pot-safe-fill": N_(
        "A safe fill lies between 1 and 100 percent of the brim; 75 to 80 is usual."
    ),
    "equipment.mass": N_("A mass is zero or more."),
}

_POUR = {
    "pour.mass": N_("A mass is zero or more."),
    "pour.percent-of-total": N_("Of total, a load lies between 0 and 100 percent."),
    "pour.leftover-larger": N_(
        "The leftover of {leftover_g} is more than the whole batch of {total_g}. "
        "Make a larger batch or use less of it."
    ),
    "pour.leftover-too-rich": N_(
        "The leftover brings {over_g} more oil than this batch may hold. "
        "Use at most {most_g} of it, or make a larger batch."
    ),
    "pour.leftover-too-weak": N_(
        "The leftover needs more oil than there is room for: {short_g} too much. "
        "Use less of it, or make a larger batch."
    ),
    "pour.vessel-over-pot": N_(
        "One vessel takes {vessel_g}, a pot holds {pot_g}. Use a larger pot."
    ),
}

_PLAN = {
    "plan.fill-to": N_("Fill hot to the line, so that the set wax meets it, or to a net weight."),
    "plan.count": N_("Give a whole number of candles, zero or more."),
    "plan.no-pot": N_("No pot is entered. Add the pot you pour from under Equipment."),
    "plan.no-scale": N_("No scale is entered. Add your scales under Equipment."),
    "plan.no-fill-line": N_(
        "{vessel} has no measured fill line. Weigh a few with water up to the line, "
        "or fill it by net weight."
    ),
    "plan.no-net": N_("Say how much mix goes into each {vessel}."),
    "plan.wax-no-density": N_(
        "{name} has no liquid density; {density} g/mL is used. Measure it once: "
        "fills by the line depend on it."
    ),
    "plan.wax-estimate": N_("The liquid density of {name} is an estimate. Measure yours once."),
    "plan.oil-no-density": N_(
        "{name} has no density; an estimate of {density} g/mL is used. Its data sheet has it."
    ),
    "plan.vessel-over-pot": N_(
        "One {vessel} takes {each_g}, but {name} leaves room for {most_g}. "
        "Use a larger pot or fill it in two goes."
    ),
    "plan.extra-over-pot": N_(
        "An extra of {extra_g} leaves no room in {name}. Make less extra or use a larger pot."
    ),
    "plan.pot-over-scale": N_(
        "{name} weighs {together_g} empty, the largest scale carries {maximum_g}. "
        "Weigh the wax in a bowl."
    ),
    "plan.pot-over-scale-in-portions": N_(
        "{name} weighs {together_g} empty, the largest scale carries {maximum_g}. "
        "Weigh the wax in a bowl, in {portions} portions."
    ),
    "plan.pot-and-mix-over-scale": N_(
        "{name} with its mix weighs {together_g}, the largest scale carries {maximum_g}. "
        "Weigh the wax in a bowl on {scale}."
    ),
    "plan.pot-and-mix-over-scale-in-portions": N_(
        "{name} with its mix weighs {together_g}, the largest scale carries {maximum_g}. "
        "Weigh the wax in a bowl on {scale}, in {portions} portions."
    ),
    "plan.maybe-fewer-pots": N_(
        "These pots may be up to {n} more than needed; nobody has found a better way in time."
    ),
    "plan.pot-again": N_("{name} is filled {times} times in this plan. Wipe it out in between."),
    "plan.set-passes-brim": N_(
        "For the set wax to meet the line, {hot_ml} would be poured hot into {vessel}: "
        "{share_percent} of the {brim_ml} to its brim, and {most_ml} is the most it takes without "
        "running over. Choose a lower line, or set the wax to a second pour under Materials."
    ),
    "plan.set-may-pass-brim": N_(
        "For the set wax to meet the line, up to {hot_ml} may be needed hot in {vessel}, and "
        "{most_ml} is the most it takes without running over. Measure your wax before you pour."
    ),
    "plan.set-brim-unknown": N_(
        "How much {vessel} holds to the brim is not known, so nobody can say whether the hot wax "
        "runs over. Weigh one with water to the brim."
    ),
    "plan.set-range": N_(
        "{vessel} takes {low_g} to {high_g} for the set wax to meet the line, while densities are "
        "estimates; {each_g} is planned. Measure your wax once."
    ),
    "plan.held-range": N_(
        "Once set, {vessel} takes {low_g} to {high_g} more, while densities are estimates. "
        "Measure your wax once."
    ),
    "plan.below-declared": N_(
        "Each {vessel} gets {each_g}, which is {short_g} below the declared {declared_g}. "
        "Fill higher or declare less."
    ),
    "plan.net-above-line": N_(
        "That weight fills {vessel} to {each_ml}, above its fill line at {line_ml}. "
        "Fill less or use a larger vessel."
    ),
    "plan.short-mass": N_(
        "{name} is {short_g} short: {need_g} needed, {have_g} there. Order some."
    ),
    "plan.short-mass-or-fewer": N_(
        "{name} is {short_g} short. Order some, or pour {fewer} fewer of {vessel}."
    ),
    "plan.short-pieces": N_("{name}: {short} short, {need} needed, {have} there. Order some."),
    "plan.short-pieces-or-fewer": N_(
        "{name}: {short} short. Order some, or pour {fewer} fewer of {vessel}."
    ),
}

_BENCH = {
    "bench.no-such-step": N_("That step is not part of this pour. Go back to the list of pots."),
    "bench.weight": N_("Type what the scale shows, zero or more."),
    "bench.no-wax": N_("Type how much {name} is in the pot; without wax there is nothing to mix."),
    "bench.nothing-offered": N_("The load is as planned; no wax needs to be added."),
    "bench.not-enough": N_("The mix does not last for {n} × {vessel}."),
    "bench.over-pot": N_(
        "{total_g} is more than the pot carries safely: {most_g}. "
        "Pour part of it off before you carry or stir it."
    ),
    "bench.load-high": N_("The load is {load_percent} of wax; planned was {planned_percent}."),
    "bench.load-high-add-wax": N_(
        "The load is {load_percent} of wax; planned was {planned_percent}. "
        "{add_g} more wax brings it back and makes {total_g} in all."
    ),
    "bench.load-high-no-room": N_(
        "The load is {load_percent} of wax; planned was {planned_percent}. "
        "{add_g} more wax would bring it back, but {total_g} is more than the pot holds safely."
    ),
    "bench.load-low": N_(
        "The load is {load_percent} of wax; planned was {planned_percent}. "
        "{add_g} more oil brings it back."
    ),
    "bench.blend-of-wax": N_(
        "{name} is {share_percent} of the waxes; the recipe says {planned_percent}. "
        "Note it with the pour."
    ),
    "bench.blend-of-fragrance": N_(
        "{name} is {share_percent} of the oils; the recipe says {planned_percent}. "
        "Note it with the pour."
    ),
    "bench.over-wax-limit-of-wax": N_(
        "The load has become {load_percent} of wax; the wax holds {limit_percent}. Add wax."
    ),
    "bench.over-wax-limit-of-total": N_(
        "The load has become {load_percent} of total; the wax holds {limit_percent}. Add wax."
    ),
    "bench.oil-over-certificate": N_(
        "{name} has become {share_percent} of the mix; its certificate allows {limit_percent}. "
        "Add wax, or do not sell these."
    ),
}

_LOT = {
    "lot.unknown-place": N_("“{name}” is not known in a lot pattern. Known are: {known}."),
    "lot.character": N_("In a lot pattern use letters, digits, spaces and - . / _ only."),
    "lot.no-day": N_(
        "The lot pattern needs the day, or codes would repeat: {{yy}} with {{ddd}}, "
        "or {{yy}}, {{mm}} and {{dd}}."
    ),
    "lot.no-letter": N_("The lot pattern needs {{letter}}, or two recipes would share a code."),
    "lot.no-pot": N_("The lot pattern needs {{pot}}, or two pots would share a code."),
    "lot.run-together": N_("Put a mark such as - between {{letter}} and other letters."),
    "lot.too-long": N_("The lot code gets too long for a label: {most} characters at most."),
    "lot.index": N_("Pots are counted from 1."),
    "lot.same-pot": N_("Two pots of this pour are the same. Plan the pour again."),
    "lot.none-left": N_("No lot code is free on this day. Change the lot pattern."),
}

_COST = {
    "cost.amount": N_("Give a whole amount."),
    "cost.weight": N_("What an amount is shared by is zero or more."),
    "cost.no-weights": N_("There is nothing to share the amount by. Enter at least one quantity."),
    "cost.quantity": N_("Give a quantity above zero."),
    "cost.not-enough": N_("Only {there} is there, {wanted} is wanted."),
}

SENTENCES: dict[str, str] = {**_EQUIPMENT, **_POUR, **_PLAN, **_BENCH, **_LOT, **_COST}
