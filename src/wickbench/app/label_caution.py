"""The statements of a caution sticker as a table: what is printed, in whose words, and why."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.app.standards import caution_rules
from wickbench.domain.caution_statements import OwnText, Wanted
from wickbench.domain.cautions import caution_lines, choose_set

if TYPE_CHECKING:
    from wickbench.app.caution_sticker import CautionChoice
    from wickbench.app.label_store import CautionWish
    from wickbench.domain.caution_statements import StatementSet


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionRow:
    """One statement in one language.

    Attributes:
        key: names the statement.
        language: of the text.
        text: as printed, or as it would be.
        mandatory: the rule asks for it.
        printed: it stands on the sticker.
        own: in the person's own words.
        note: why.
        source, date: of the rule.
    """

    key: str
    language: str
    text: str
    mandatory: bool
    printed: bool
    own: bool
    note: str
    source: str
    date: str


def caution_rows(choice: CautionChoice) -> tuple[CautionRow, ...]:
    """Every statement of the rule that this candle can have, language after language.

    Raises:
        OutOfRange: a choice that no rule covers.
    """
    rules = caution_rules()
    asked = (rules, choice.region, choice.languages, choice.facts)
    source = choose_set(rules, choice.region, choice.facts.kind)
    everything = Wanted(choice.wanted.own, (), tuple(one.key for one in source.statements))
    printed = {(one.key, one.language) for one in caution_lines(*asked, choice.wanted)}
    return tuple(
        CautionRow(
            key=line.key,
            language=line.language,
            text=line.text,
            mandatory=line.mandatory,
            printed=(line.key, line.language) in printed,
            own=line.tag == "own",
            note=line.note,
            source=line.source,
            date=line.date,
        )
        for line in caution_lines(*asked, everything)
    )


def with_words(wish: CautionWish, row: CautionRow, text: str) -> CautionWish:
    """The wish with a statement in the person's own words; empty goes back to the rule's."""
    own = dict(wish.wanted.own)
    place = (row.key, row.language)
    if text.strip():
        own[place] = OwnText(" ".join(text.split()), row.note)
    else:
        own.pop(place, None)
    return replace(wish, wanted=replace(wish.wanted, own=own))


def with_note(wish: CautionWish, row: CautionRow, note: str) -> CautionWish:
    """The wish with the reason for own words."""
    own = dict(wish.wanted.own)
    own[row.key, row.language] = OwnText(row.text, note.strip())
    return replace(wish, wanted=replace(wish.wanted, own=own))


def with_printed(wish: CautionWish, row: CautionRow, *, printed: bool) -> CautionWish:
    """The wish with a care line printed or left out; what the rule asks for stays."""
    if row.mandatory:
        return wish
    left_out = set(wish.wanted.left_out) - {row.key}
    added = set(wish.wanted.added) - {row.key}
    (added if printed else left_out).add(row.key)
    changed = replace(wish.wanted, left_out=tuple(sorted(left_out)), added=tuple(sorted(added)))
    return replace(wish, wanted=changed)


def rule_of(choice: CautionChoice) -> StatementSet:
    """The rule that a sticker follows, with its source and date.

    Raises:
        OutOfRange: a choice that no rule covers.
    """
    return choose_set(caution_rules(), choice.region, choice.facts.kind)
