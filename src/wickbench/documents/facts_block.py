"""A frame of facts on a label: a word and its value on each line, shrunk until all lines fit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.documents.facts_setting import Fact, SetFacts, set_facts
from wickbench.documents.ink import corners_of
from wickbench.documents.label_checks import check_ink, check_text, typeface_findings
from wickbench.documents.label_drawings import turn_of
from wickbench.documents.label_draws import LaidOutText, PathDraw, TextDraw
from wickbench.documents.outlines import line
from wickbench.documents.surface import map_path
from wickbench.documents.text import Typeface, mm_per_unit
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.label_fields import FilledText
from wickbench.domain.labels import FactsElement, TextElement

if TYPE_CHECKING:
    from wickbench.documents.affine import Affine
    from wickbench.domain.labels import LabelDesign

WORD: Final = "word:"
"""Before a field's name: the word that is printed before its value, in the label's language."""
BARE: Final = "bare:"
"""Before a field's name: its value as it reads after the word, where that differs."""
BOTH: Final = "net_weight_both"
"""The whole declaration of net weight in both systems, its lead word included."""
RULE_MM: Final = 0.15
_PLAIN: Final = "Regular"
_NET: Final = "net_weight"

FindTypeface = Callable[[str, str], tuple[Typeface, bool]]


@dataclass(frozen=True, slots=True)
class PlacedFacts:
    """What came of a frame of facts.

    Attributes:
        draws: words, values and lines, mm on the label.
        texts: what each line says.
        findings: about it.
    """

    draws: tuple[TextDraw | PathDraw, ...]
    texts: tuple[LaidOutText, ...]
    findings: tuple[Finding, ...]


def place_facts(
    design: LabelDesign, at: int, values: Mapping[str, str], typefaces: FindTypeface
) -> PlacedFacts:
    """Set the facts of an element of a design.

    Args:
        design: the label.
        at: number of the element.
        values: of fields, with words under `WORD` and bare values under `BARE`.
        typefaces: finds a typeface.
    """
    element = design.elements[at]
    if not isinstance(element, FactsElement):
        return PlacedFacts((), (), ())
    face, exact = typefaces(element.family, element.style)
    plain, _ = typefaces(element.family, _PLAIN)
    facts, empty = facts_of(element, values)
    done = set_facts(element, facts, plain, face)
    turned = turn_of(element)
    draws = _draws(element, done, turned)
    texts = tuple(_laid(at, fact, face, done) for fact in facts)
    filled = FilledText("\n".join(one.text for one in texts), (), empty)
    found = _findings(design, at, face, filled, done)
    found += typeface_findings(_as_text(element), face, exact=exact)
    if done.fits:
        texts_only = [one for one in draws if isinstance(one, TextDraw)]
        found += check_ink(design, [corner for one in texts_only for corner in corners_of(one)])
    about = ("element", at)
    return PlacedFacts(
        draws,
        texts,
        tuple(replace(one, about=about) for one in found),
    )


def facts_of(
    element: FactsElement, values: Mapping[str, str]
) -> tuple[tuple[Fact, ...], tuple[str, ...]]:
    """The facts that have a value, and the names of those that have none.

    Args:
        element: the frame.
        values: as for `place_facts`.
    """
    facts: list[Fact] = []
    empty: list[str] = []
    for name in element.facts:
        both = name == _NET and element.both_systems and BOTH in values
        key = BOTH if both else name
        said = values.get(key, "").strip()
        word = values.get(WORD + key, "").strip() if element.words else ""
        if not said:
            empty.append(name)
        elif word:
            bare = values.get(BARE + key, "").strip() or said.removeprefix(word).strip()
            facts.append(Fact(name, word, bare or said))
        else:
            facts.append(Fact(name, "", said))
    return tuple(facts), tuple(empty)


def _draws(
    element: FactsElement, done: SetFacts, turned: Affine
) -> tuple[TextDraw | PathDraw, ...]:
    draws: list[TextDraw | PathDraw] = []
    for y_mm in done.rules_mm:
        path = line(element.x_mm, y_mm, element.x_mm + element.w_mm, y_mm)
        draws.append(PathDraw(map_path(turned, path), None, element.colour, RULE_MM))
    for one in done.lines:
        x, y = turned.apply(one.x_mm, one.y_mm)
        draws.append(TextDraw(one.run, done.size_pt, x, y, element.colour, element.turn_deg))
    return tuple(draws)


def _findings(
    design: LabelDesign, at: int, face: Typeface, filled: FilledText, done: SetFacts
) -> list[Finding]:
    element = design.elements[at]
    if not isinstance(element, FactsElement):
        return []
    if not element.facts:
        return [Finding(Rank.WATCH, "facts.none-chosen")]
    whole = _laid(at, Fact("", "", filled.text), face, done)
    return check_text(design, _as_text(element), filled, face, whole)


def _laid(at: int, fact: Fact, face: Typeface, done: SetFacts) -> LaidOutText:
    k = mm_per_unit(face, done.size_pt)
    heights = (face.x_height * k, face.o_height * k, face.cap_height * k)
    said = f"{fact.word} {fact.value}".strip()
    return LaidOutText(at, said, done.size_pt, *heights, done.lines_of.get(fact.name, 1), done.fits)


def _as_text(element: FactsElement) -> TextElement:
    """The same box and typeface as a text, for what is looked at in every text."""
    return TextElement(
        x_mm=element.x_mm,
        y_mm=element.y_mm,
        w_mm=element.w_mm,
        h_mm=element.h_mm,
        text="",
        family=element.family,
        style=element.style,
        file_hash=element.file_hash,
        size_pt=element.size_pt,
        min_size_pt=element.min_size_pt,
        colour=element.colour,
    )
