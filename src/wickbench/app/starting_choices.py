"""What a new label can be made for, and how each starting design looks there in own words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import count
from typing import TYPE_CHECKING, Final

from wickbench.app.label_making import MadeLabel
from wickbench.app.label_paper import is_kraft
from wickbench.app.label_store import caution_values, stored_labels
from wickbench.app.label_values import LabelSubject, label_values, sample_values
from wickbench.app.label_wraps import WrapPlan, outside_of, takes_label_round, wrap_plan
from wickbench.app.labels import CAUTION, STARTING_NAMES, USUAL_STICKER, begin_label, usual_wish
from wickbench.app.print_run_view import label_texts, sheet_values
from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.labels import LabelDesign, TextElement
from wickbench.domain.starting_labels import STARTING, starting_design
from wickbench.domain.wrap_fit import FRONT_SHARE

if TYPE_CHECKING:
    from wickbench.app.label_making import LabelMaker
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle, Vessel
    from wickbench.domain.sheets import StickerSheet

_CAUTION_NAME: Final = N_("Caution sticker: what must be said, for the base")
_WAYS: Final = (
    ("vessel", N_("All round {vessel}"), None),
    ("front", N_("On the front of {vessel}"), FRONT_SHARE),
)
INKS: Final = {
    True: N_("black, for white paper and kraft"),
    False: N_("in colour, for white paper"),
}
KINDS: Final = (
    ("jar", N_("For the vessel")),
    ("lid", N_("For the lid")),
    ("tag", N_("To tie on")),
    ("caution", N_("For the base")),
)


@dataclass(frozen=True, slots=True)
class MadeFor:
    """What a new label is made for: a sheet's sticker, a vessel to go round, or a usual size.

    Attributes:
        key: "usual", "sheet-3", "vessel-5" or "front-5".
        words: as offered.
        width_mm: of the label.
        height_mm: of the label.
        shape: of the label.
        corner_mm: radius of rounded corners.
        kraft: printed on brown paper.
        plan: of a vessel that it goes round.
    """

    key: str
    words: str
    width_mm: float
    height_mm: float
    shape: str = "rectangle"
    corner_mm: float = 0.0
    kraft: bool = False
    plan: WrapPlan | None = None


@dataclass(frozen=True, slots=True)
class Offered:
    """A starting design as it would look.

    Attributes:
        starting: its word for `begin`.
        kind: jar, lid, tag or caution.
        name: what it is called.
        character: a few words on it.
        ink: which paper it is for, as a msgid's text; empty for a caution sticker.
        made: laid out in the workshop's own words; ``None`` when it cannot be made there, or when
            that makes no sense and it is not offered.
        trouble: why not.
    """

    starting: str
    kind: str
    name: str
    character: str
    ink: str
    made: MadeLabel | None
    trouble: str = ""


def made_for(workspace: Workspace, shelf: Shelf, first: int | None = None) -> tuple[MadeFor, ...]:
    """Everything a new label can be made for, the sheet in hand first.

    Args:
        workspace: the open workshop.
        shelf: the snapshot.
        first: key of the sheet in hand.
    """
    sheets = sorted(shelf.of_kind("sheet"), key=lambda one: one.id != first)
    found = [_for_sheet(workspace, one.id) for one in sheets]
    offered = [one for one in found if one is not None]
    offered += _for_vessels(workspace, shelf)
    width, height = USUAL_STICKER
    words = workspace.texts(
        N_("A sticker of {width_mm} × {height_mm}"), width_mm=width, height_mm=height
    )
    usual = MadeFor("usual", words, width, height)
    return tuple(offered) if first is not None and offered else (usual, *offered)


def offer(
    workspace: Workspace, maker: LabelMaker, shelf: Shelf, what: MadeFor
) -> tuple[Offered, ...]:
    """Every starting design and the caution sticker as it would look."""
    texts = workspace.texts
    values = _values(workspace, shelf)
    found = []
    for starting, words in {**STARTING_NAMES, CAUTION: _CAUTION_NAME}.items():
        name, _, character = texts(words).partition(":")
        kind = CAUTION if starting == CAUTION else STARTING[starting].kind
        made, trouble = None, ""
        try:
            if what.plan is not None and kind != "jar":
                pass  # nothing goes round a lid or a base
            elif starting == CAUTION:
                wish, candle = usual_wish(workspace), _shown_candle(shelf)
                made = maker.caution(wish, _empty(what), shelf, candle, values=values)
            else:
                made = maker.label(design_of(starting, what), values)
        except DomainError as error:
            trouble = texts.say(error)
        ink = texts(INKS[STARTING[starting].black_only]) if starting in STARTING else ""
        found.append(Offered(starting, kind, name, character.strip(), ink, made, trouble))
    return tuple(found)


def design_of(starting: str, what: MadeFor) -> LabelDesign:
    """A starting design in the measures of what it is made for."""
    overlap = what.plan.size.overlap_mm if what.plan is not None else 0.0
    made = starting_design(
        starting,
        what.width_mm,
        what.height_mm,
        shape=what.shape,
        corner_mm=what.corner_mm,
        overlap_mm=overlap,
    )
    if what.plan is None or not what.plan.bent:
        return made
    size = what.plan.size
    return replace(made, shape="wrap", wrap_bottom_mm=size.bottom_mm, wrap_top_mm=size.top_mm)


def begin(workspace: Workspace, starting: str, what: MadeFor, *, origin: object = None) -> int:
    """Begin a label from a starting design.

    Returns:
        the label's key.
    """
    words = workspace.texts({**STARTING_NAMES, CAUTION: _CAUTION_NAME}[starting])
    name = _free_name(workspace, words.partition(":")[0])
    if starting == CAUTION:
        wish = caution_values(usual_wish(workspace))
        return begin_label(workspace, _empty(what), name, wish, origin=origin)
    return begin_label(workspace, design_of(starting, what), name, origin=origin)


def title_at(design: LabelDesign) -> int | None:
    """Place of the element that a person wants to write first: the largest text, the name."""
    texts = [
        (one.size_pt, -at, at)
        for at, one in enumerate(design.elements)
        if isinstance(one, TextElement) and not one.curve
    ]
    named = [one for one in texts if "{candle}" in getattr(design.elements[one[2]], "text", "")]
    return max(named or texts)[2] if texts else None


def _free_name(workspace: Workspace, name: str) -> str:
    """The name, with a number behind it when another label has it already."""
    taken = {one.name for one in stored_labels(workspace)}
    numbered = (workspace.texts(N_("{name} {number}"), name=name, number=str(n)) for n in count(2))
    return name if name not in taken else next(one for one in numbered if one not in taken)


# -- what it is made for ---------------------------------------------------------------------------
def _for_sheet(workspace: Workspace, sheet_id: int) -> MadeFor | None:
    values = sheet_values(workspace, sheet_id)
    try:
        sheet: StickerSheet = sheet_of(values)
    except OutOfRange:
        return None
    words = workspace.texts(
        N_("{name}: {width_mm} × {height_mm}"),
        name=str(values["name"] or ""),
        width_mm=sheet.sticker_w_mm,
        height_mm=sheet.sticker_h_mm,
    )
    return MadeFor(
        f"sheet-{sheet_id}",
        words,
        sheet.sticker_w_mm,
        sheet.sticker_h_mm,
        sheet.shape,
        sheet.corner_mm,
        kraft=is_kraft(values.get("surface")),
    )


def _for_vessels(workspace: Workspace, shelf: Shelf) -> list[MadeFor]:
    """All round and over the front of each vessel whose outside is measured."""
    texts = workspace.texts
    found = []
    for vessel in _vessels(shelf):
        for word, words, share in _WAYS:
            try:
                plan = wrap_plan(vessel, texts, share=share)
            except DomainError:
                continue
            size, shape = plan.size, "wrap" if share is None else "rectangle"
            said = texts(words, vessel=vessel.name)
            key = f"{word}-{vessel.id}"
            found.append(MadeFor(key, said, size.width_mm, size.height_mm, shape=shape, plan=plan))
    return found


def not_measured(shelf: Shelf) -> tuple[Vessel, ...]:
    """Vessels that a label could go round if their outside were measured."""
    return tuple(one for one in _vessels(shelf) if outside_of(one).zone is None)


def _vessels(shelf: Shelf) -> list[Vessel]:
    kept = [one for one in shelf.vessels.values() if not one.archived and takes_label_round(one)]
    return sorted(kept, key=lambda one: one.name.casefold())


def _empty(what: MadeFor) -> LabelDesign:
    wrap = what.shape == "wrap"
    width, height = USUAL_STICKER if wrap else (what.width_mm, what.height_mm)
    shape = "rectangle" if wrap else what.shape
    return LabelDesign(
        width_mm=width, height_mm=height, shape=shape, corner_mm=what.corner_mm, kind=CAUTION
    )


def _shown_candle(shelf: Shelf) -> Candle | None:
    """The candle whose words stand in the samples: the first by name."""
    kept = [one for one in shelf.candles.values() if not one.archived]
    return min(kept, key=lambda one: one.name.casefold(), default=None)


def _values(workspace: Workspace, shelf: Shelf) -> dict[str, str]:
    """What a sample says, with the workshop's own words where there are any."""
    settings, texts = workspace.settings, label_texts(workspace)
    values = sample_values(settings, texts)
    candle = _shown_candle(shelf)
    if candle is None:
        return values
    own = label_values(shelf, settings, texts, LabelSubject(candle_id=candle.id))
    return {**values, **{name: value for name, value in own.items() if value}}
