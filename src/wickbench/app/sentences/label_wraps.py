"""Sentences about labels that go round a vessel."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    # Fitting
    "wrap.measure-first": N_(
        "To fit a label to {vessel}, measure first: {missing}. A calliper, or a strip of paper "
        "round the vessel and a ruler, will do."
    ),
    "wrap.no-room": N_(
        "The straight part is {zone_mm} high; with {clearance_mm} kept free above and below no "
        "label is left. Look at the heights of the vessel’s straight part."
    ),
    "wrap.overlap": N_(
        "The ends of a wrap overlap by {lowest_mm} to {highest_mm} here; {value_mm} cannot be."
    ),
    "wrap.share": N_("A label covers more than nothing and at most the whole way round."),
    # What a label does on a vessel
    "wrap.not-measured": N_(
        "Whether this label fits {vessel} is not checked: its outside is not measured. Measure: "
        "{missing}."
    ),
    "wrap.straight-rises": N_(
        "{vessel} tapers: the ends of this straight label stand {rise_mm} off the level of its "
        "middle, or it wrinkles. Straight, it may be {longest_mm} long at most. Make it a curved "
        "wrap, or shorter."
    ),
    "wrap.round-rises": N_(
        "{vessel} tapers: this label lies askew by {rise_mm} at its sides, or it wrinkles. Up to "
        "{longest_mm} wide it lies well. Make it smaller."
    ),
    "wrap.taller-than-zone": N_(
        "The label is {high_mm} high, the straight part of {vessel} only {zone_mm}. It would run "
        "over a curve and wrinkle. Make it lower."
    ),
    "wrap.taller-than-vessel": N_(
        "The label is {high_mm} high, {vessel} only {zone_mm}. Make it lower."
    ),
    "wrap.longer-than-round": N_(
        "The label is {width_mm} long, the way round {vessel} only {around_mm}: {over_mm} of it "
        "would lie over its beginning. Make it shorter, or a wrap with an overlap."
    ),
    "wrap.turns-away": N_(
        "The label is wider than half the way round {vessel}: {away_mm} at each side turn away "
        "and are not seen from the front."
    ),
    "wrap.gap": N_(
        "Round {vessel} the ends do not meet: a gap of {gap_mm} stays open. The way round is "
        "{around_mm}, the label {width_mm}. Fit it to the vessel."
    ),
    "wrap.ends-askew": N_(
        "This label was bent for {made_bottom_mm} below and {made_top_mm} above; {vessel} measures "
        "{bottom_mm} and {top_mm} there. Its ends meet askew at the seam, {askew_mm} from the "
        "lower to the upper edge. Fit it to the vessel."
    ),
    "wrap.bent-otherwise": N_(
        "This label was bent for {made_bottom_mm} below and {made_top_mm} above; {vessel} measures "
        "{bottom_mm} and {top_mm} there. Its ends stand {rise_mm} off the level of its middle. Fit "
        "it to the vessel."
    ),
    "wrap.overlap-differs": N_(
        "Round {vessel} the ends overlap by {join_mm}, not by the {overlap_mm} that the label "
        "keeps free: {hidden_mm} of what is printed are covered. Fit it to the vessel."
    ),
    "wrap.under-seam": N_(
        "Something stands in the {overlap_mm} that the beginning of the wrap covers. Move it to "
        "the left."
    ),
    "wrap.longer-than-page": N_(
        "The piece is {paper_width_mm} × {paper_height_mm} and does not go onto a page of "
        "{page_width_mm} × {page_height_mm}. Fit it over the front only, or print on longer paper."
    ),
    "wrap.zone-unsure": N_(
        "Where the wall of {vessel} is straight is not measured, so its whole height counts "
        "(estimate). Measure from where to where it is straight."
    ),
}
