"""Tables of standards and law, read from data once: caution statements and net weight rules."""

from __future__ import annotations

import math
from functools import cache
from typing import cast

from wickbench.app.resources import read_json
from wickbench.domain.caution_statements import Statement, StatementSet
from wickbench.domain.net_rules import ErrorRow, ErrorTable, HeightRow, HeightTable, NetRules, Rule

Row = dict[str, object]

CAUTION_FILES = ("cautions-us.json", "cautions-eu-uk.json", "cautions-melts.json")
NET_FILE = "net-quantity.json"
CAUTION_LANGUAGES = ("en", "de", "fr", "es")


@cache
def caution_rules() -> tuple[StatementSet, ...]:
    """Every set of caution statements the program knows."""
    return tuple(_statement_set(_row(read_json("standards", name))) for name in CAUTION_FILES)


@cache
def net_rules() -> NetRules:
    """The tables about declared net weight."""
    data = _row(read_json("standards", NET_FILE))
    panel, variation = _row(data["panel_area_us"]), _row(data["maximum_variation"])
    return NetRules(
        panel_share=_number(panel["share"]),
        panel_rule=_rule(panel),
        heights_by_panel=_heights(_row(data["figure_height_us"]), "up_to_cm2"),
        heights_by_nominal=_heights(_row(data["figure_height_metric"]), "up_to_g"),
        tolerable=_errors(_row(data["tolerable_error"])),
        variation=_errors(variation),
    )


def _statement_set(data: Row) -> StatementSet:
    kinds = _words(data["kinds"])
    return StatementSet(
        title=str(data["title"]),
        regions=_words(data["regions"]),
        kinds=kinds,
        basis=str(data["basis"]),
        symbol=str(data["symbol"]),
        signal=_texts(data["signal"]),
        statements=tuple(_statement(_row(row), data) for row in _list(data["statements"])),
        translated_by_us=_words(data["translated_by_us"]),
        source=str(data["source"]),
        date=str(data["date"]),
        tag=str(data["tag"]),
        drawings_may_replace_text=bool(data["drawings_may_replace_text"]),
    )


def _statement(row: Row, whole: Row) -> Statement:
    """One statement; source, date, tag and kinds are the set's unless it has its own."""
    return Statement(
        key=str(row["key"]),
        texts=_texts(row["texts"]),
        mandatory=bool(row["mandatory"]),
        usual=bool(row["usual"]),
        kinds=_words(row.get("kinds", whole["kinds"])),
        needs=tuple(str(need) for need in _list(row.get("needs", []))),
        pictogram=str(row.get("pictogram", "")),
        source=str(row.get("source", whole["source"])),
        date=str(row.get("date", whole["date"])),
        tag=str(row.get("tag", whole["tag"])),
    )


def _rule(data: Row) -> Rule:
    return Rule(
        source=str(data["source"]),
        date=str(data["date"]),
        regions=_words(data["region"]),
        tag=str(data["tag"]),
    )


def _heights(data: Row, size: str) -> HeightTable:
    rows = (_row(row) for row in _list(data["rows"]))
    return HeightTable(_rule(data), tuple(_height(row, size) for row in rows))


def _height(row: Row, size: str) -> HeightRow:
    printed_mm = _number(row["printed_mm"])
    return HeightRow(_end(row[size]), printed_mm, _number(row.get("raised_mm", printed_mm)))


def _errors(data: Row) -> ErrorTable:
    rows = (_row(row) for row in _list(data["rows"]))
    return ErrorTable(
        rule=_rule(data),
        from_g=_number(data.get("from_g", 0)),
        up_to_g=_end(data.get("up_to_g")),
        step_mg=round(_number(data.get("step_g", 0)) * 1000),
        rows=tuple(
            ErrorRow(_end(row["up_to_g"]), _number(row.get("percent", 0)), _number(row.get("g", 0)))
            for row in rows
        ),
    )


def _end(value: object) -> float:
    return math.inf if value is None else _number(value)


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError(value)
    return float(value)


def _row(value: object) -> Row:
    if not isinstance(value, dict):
        raise TypeError(value)
    return cast("Row", value)


def _list(value: object) -> list[object]:
    if not isinstance(value, list):
        raise TypeError(value)
    return value


def _texts(value: object) -> dict[str, str]:
    return {language: str(text) for language, text in _row(value).items()}


def _words(value: object) -> frozenset[str]:
    return frozenset(str(word) for word in _list(value))
