"""Which caution lines a candle carries: pure selection from statements that are data.

The wording, its source, date and how well the source is known come with the data; nothing here
decides law. Every set says that local rules and a licensed assessor decide.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.domain.caution_lengths import length_text, number_text, trim_text
from wickbench.domain.caution_statements import OWN_WORDS, CautionLine, Wanted
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.domain.caution_statements import CandleFacts, Statement, StatementSet


def choose_set(rules: Sequence[StatementSet], region: str, kind: str) -> StatementSet:
    """The statements for a region and a kind of candle.

    Raises:
        OutOfRange: no set covers them.
    """
    for statements in rules:
        if region in statements.regions and kind in statements.kinds:
            return statements
    raise OutOfRange("caution.no-rule", region=region, kind=kind)


def caution_lines(
    rules: Sequence[StatementSet],
    region: str,
    languages: Sequence[str],
    facts: CandleFacts,
    wanted: Wanted | None = None,
) -> tuple[CautionLine, ...]:
    """The lines of one sticker, language after language, each in the order of the rule.

    Every language repeats every mandatory statement. A care line whose fact is not known is left
    out; ``caution_findings`` says so.

    Raises:
        OutOfRange: unknown region, kind or language, no language, or a mandatory statement
            replaced by nothing.
    """
    chosen = choose_set(rules, region, facts.kind)
    _check_languages(chosen, languages)
    wanted = wanted or Wanted()
    values = {language: _values(facts, region, language) for language in languages}
    return tuple(
        _line(statement, language, values[language], wanted)
        for language in dict.fromkeys(languages)
        for statement in chosen.statements
        if _is_printed(statement, facts.kind, values[language], wanted)
    )


def caution_findings(
    rules: Sequence[StatementSet],
    region: str,
    languages: Sequence[str],
    facts: CandleFacts,
    wanted: Wanted | None = None,
) -> tuple[Finding, ...]:
    """What the person should know about the lines: source and date, translations, gaps."""
    chosen = choose_set(rules, region, facts.kind)
    wanted = wanted or Wanted()
    known = _values(facts, region, "en")
    about = {"source": chosen.source, "date": chosen.date, "region": region}
    found = [Finding(Rank.NOTE, f"caution.source-{chosen.tag}", about)]
    ours = [language for language in languages if language in chosen.translated_by_us]
    if ours:
        found.append(Finding(Rank.NOTE, "caution.translated-here", {"languages": ", ".join(ours)}))
    for statement in chosen.statements:
        if _is_wanted(statement, facts.kind, wanted):
            found.extend(_missing(statement, known))
    return tuple(found)


def _check_languages(chosen: StatementSet, languages: Sequence[str]) -> None:
    if not languages:
        raise OutOfRange("caution.no-language-chosen")
    for language in languages:
        complete = all(language in statement.texts for statement in chosen.statements)
        if language not in chosen.signal or not complete:
            raise OutOfRange("caution.no-language", language=language)


def _is_wanted(statement: Statement, kind: str, wanted: Wanted) -> bool:
    if kind not in statement.kinds:
        return False
    if statement.mandatory:
        return True
    chosen = statement.usual or statement.key in wanted.added
    return chosen and statement.key not in wanted.left_out


def _is_printed(statement: Statement, kind: str, values: Mapping[str, str], wanted: Wanted) -> bool:
    known = all(need in values for need in statement.needs)
    return _is_wanted(statement, kind, wanted) and (known or statement.mandatory)


def _missing(statement: Statement, known: Mapping[str, str]) -> list[Finding]:
    return [
        Finding(Rank.WATCH, f"caution.unknown-{need}", about=("statement", statement.key))
        for need in statement.needs
        if need not in known
    ]


def _line(
    statement: Statement, language: str, values: Mapping[str, str], wanted: Wanted
) -> CautionLine:
    text, tag, note = statement.texts[language].format(**values), statement.tag, ""
    own = wanted.own.get((statement.key, language))
    if own is not None:
        text, tag, note = " ".join(own.text.split()), OWN_WORDS, own.note
        if not text:
            raise OutOfRange("caution.own-text-empty", statement=statement.texts[language])
    return CautionLine(
        key=statement.key,
        language=language,
        text=text,
        mandatory=statement.mandatory,
        source=statement.source,
        date=statement.date,
        tag=tag,
        pictogram=statement.pictogram,
        note=note,
    )


def _values(facts: CandleFacts, region: str, language: str) -> dict[str, str]:
    values: dict[str, str] = {}
    if facts.trim_mm is not None:
        values["trim"] = trim_text(facts.trim_mm, facts.trim_to_mm, region, language)
    if facts.longest_burn_h is not None:
        values["hours"] = number_text(facts.longest_burn_h, region, language)
    for name, length_mm, toward in (
        ("stop", facts.stop_mm, "longer"),
        ("apart", facts.apart_mm, "longer"),
        ("edge", facts.edge_mm, "shorter"),
    ):
        if length_mm is not None:
            values[name] = length_text(length_mm, region, language, toward=toward)
    return values
