"""The sentences of the code, the template gathered from them, and what the catalogs say."""

from __future__ import annotations

import gettext
import importlib.util
import io
import re
import string
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from babel.messages.extract import extract_python
from babel.messages.mofile import read_mo
from babel.messages.pofile import read_po
from typing_extensions import override

from wickbench.app.business import ROLES
from wickbench.app.label_facts import FACT_WORDS
from wickbench.app.label_values import FIELD_WORDS
from wickbench.app.languages import (
    LABELS_ONLY,
    LANGUAGE_NAMES,
    available_languages,
    catalog_folder,
    spoken_languages,
)
from wickbench.app.material_estimates import CLASS_SHORT
from wickbench.app.settings import SETTING_FIELDS
from wickbench.app.texts import Texts, all_sentences
from wickbench.app.units import Units
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from types import ModuleType

    from babel.messages import Catalog

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "wickbench"
UPDATE = "type .venv/bin/python packaging/catalogs.py update"


def _load() -> ModuleType:
    path = ROOT / "packaging" / "catalogs.py"
    spec = importlib.util.spec_from_file_location("packaging_catalogs", path)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


catalogs = _load()
LANGUAGES = catalogs.languages()


@pytest.fixture(scope="module")
def found() -> Catalog:
    return catalogs.extract()


def ids(catalog: Catalog) -> set[str]:
    """Every sentence said alone or for one."""
    return {one.id if isinstance(one.id, str) else one.id[0] for one in catalog if one.id}


@pytest.fixture
def german() -> Texts:
    return Texts("de", Units(locale="de_DE", currency="EUR"), catalog_folder())


# -- from the code to the template ---------------------------------------------------------------
def test_the_template_holds_every_sentence_of_the_code(found: Catalog) -> None:
    with catalogs.TEMPLATE.open("rb") as file:
        template = read_po(file)
    assert {one.id for one in template} ^ {one.id for one in found} == set(), UPDATE


def test_a_sentence_that_nobody_gathered_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    template = tmp_path / "wickbench.pot"
    lines = catalogs.TEMPLATE.read_text(encoding="utf-8").replace(
        'msgid "Top left"', 'msgid "Gone"'
    )
    template.write_text(lines, encoding="utf-8")
    monkeypatch.setattr(catalogs, "TEMPLATE", template)
    assert catalogs.not_gathered() == ["Gone", "Top left"]


def test_babels_own_extractor_finds_nothing_more(found: Catalog) -> None:
    """Babel's scan of the tokens and a plain search are other ways to the same sentences."""
    plain = re.compile(r'\b_?texts\(\s*"([^"\\]+)"\s*[,)]')
    said: set[str] = set()
    for path in SOURCE.rglob("*.py"):
        code = path.read_bytes()
        options = {"encoding": "utf-8"}
        for row in extract_python(io.BytesIO(code), {"N_": None}, [], options):
            said.add(str(row[2]))
        said.update(plain.findall(code.decode()))
    pairs = [one.id for one in found if isinstance(one.id, tuple)]
    assert len(said) > 1000
    assert said - ids(found) <= {many for _one, many in pairs}


def test_every_sentence_of_a_key_is_gathered(found: Catalog) -> None:
    assert set(all_sentences().values()) <= ids(found)


def test_labels_hints_and_choices_of_forms_are_gathered(found: Catalog) -> None:
    marked = {spec.label for spec in SETTING_FIELDS} | {spec.hint for spec in SETTING_FIELDS}
    marked |= {choice.label for spec in SETTING_FIELDS for choice in spec.choices}
    assert marked - {""} <= ids(found)


def test_forms_for_one_and_many_are_pairs(tmp_path: Path) -> None:
    (tmp_path / "a.py").write_text(
        'texts.plural(N_("{n} jar"), "{n} jars", 2)\nself._texts("a" if x else "b")\n'
        'texts("so " "on")\ntexts(name)\n'
    )
    assert [one.id for one in catalogs.extract(tmp_path) if one.id] == [
        ("{n} jar", "{n} jars"), "a", "b", "so on",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "code", ["texts.plural(one, many, n)", 'texts.plural("{n} a", "{n} b", n)\nN_("{n} a")']
)
def test_what_no_catalog_can_hold_is_refused(tmp_path: Path, code: str) -> None:
    (tmp_path / "a.py").write_text(code)
    with pytest.raises(catalogs.NotReadable):
        catalogs.extract(tmp_path)


def test_the_template_names_no_machine_and_no_moment(found: Catalog) -> None:
    words = catalogs.as_text(found).decode()
    assert str(ROOT) not in words
    assert "Date" not in words.split("#: ", 1)[0]
    assert catalogs.as_text(catalogs.extract()).decode() == words


def test_a_wrong_command_says_how_to_ask(capsys: pytest.CaptureFixture[str]) -> None:
    assert catalogs.main(["nonsense"]) == 2
    assert "update" in capsys.readouterr().err


def test_check_finds_everything_in_order(capsys: pytest.CaptureFixture[str]) -> None:
    code = catalogs.main(["check"])
    assert (code, capsys.readouterr().out) == (0, "The catalogs are in order.\n")


# -- what the catalogs say -----------------------------------------------------------------------
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_translation_keeps_the_placeholders(language: str) -> None:
    assert catalogs.wrong(catalogs.read(language)) == []


@pytest.mark.parametrize("language", catalogs.COMPLETE)
def test_a_complete_language_says_every_sentence(language: str, found: Catalog) -> None:
    merged = catalogs.merged(catalogs.read(language), found, language)
    assert catalogs.missing(merged) == [], f"{UPDATE}, then translate these"


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_binary_catalog_is_what_compiling_makes(language: str) -> None:
    text = catalogs.text_file(language)
    assert text.with_suffix(".mo").read_bytes() == catalogs.as_binary(catalogs.read(language)), (
        UPDATE
    )


@pytest.mark.parametrize("language", LANGUAGES)
def test_python_and_babel_read_the_binary_alike(language: str) -> None:
    file = catalogs.text_file(language).with_suffix(".mo")
    with file.open("rb") as opened:
        theirs = {one.id: one.string for one in read_mo(opened) if isinstance(one.id, str)}
    theirs.pop("")
    ours = gettext.translation("wickbench", catalogs.CATALOGS, [language])
    assert len(theirs) > (40 if language in LABELS_ONLY else 1000)
    assert {one: ours.gettext(one) for one in theirs} == theirs


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_translation_can_be_filled_in_as_its_sentence_can(language: str) -> None:
    """Python's own reader of braces, not the pattern that the catalogs are checked with."""
    for one in catalogs.read(language):
        for original, said in zip(parts(one.id), parts(one.string), strict=True):
            assert not said or braces(said) | {"n"} == braces(original) | {"n"}, original


def parts(words: str | tuple[str, ...] | None) -> tuple[str, ...]:
    return tuple(words) if isinstance(words, tuple) else (words or "",)


def braces(words: str) -> set[str]:
    return {name for _before, name, _how, _as in string.Formatter().parse(words) if name}


def _catalog(tmp_path: Path, body: str) -> Catalog:
    path = tmp_path / "de" / "LC_MESSAGES" / "wickbench.po"
    path.parent.mkdir(parents=True)
    path.write_text(f'# Head\n#\n#   kept as it is\nmsgid ""\nmsgstr ""\n\n{body}', "utf-8")
    return catalogs.read("de", tmp_path)


def test_a_lost_placeholder_is_found(tmp_path: Path) -> None:
    catalog = _catalog(
        tmp_path,
        'msgid "{a} of {b}"\nmsgstr "{a} von {c}"\n\nmsgid "{n} jar"\nmsgid_plural "{n} jars"\n'
        'msgstr[0] "ein Glas"\nmsgstr[1] "{m} Gläser"\n\nmsgid " and "\nmsgstr "und"\n\n'
        'msgid "{x} fits"\nmsgstr "{x} passt"\n',
    )
    assert catalogs.wrong(catalog) == ["{a} of {b}", "{n} jar", " and "]


def test_a_guess_and_a_gap_count_as_missing(tmp_path: Path) -> None:
    catalog = _catalog(
        tmp_path,
        'msgid "a"\nmsgstr ""\n\n#, fuzzy\nmsgid "b"\nmsgstr "B"\n\nmsgid "c"\nmsgstr "C"\n\n'
        'msgid "{n} d"\nmsgid_plural "{n} ds"\nmsgstr[0] "{n} D"\nmsgstr[1] ""\n',
    )
    assert catalogs.missing(catalog) == ["a", "b", "{n} d"]


def test_merging_keeps_what_is_said_and_drops_what_is_not_asked_for(tmp_path: Path) -> None:
    stored = _catalog(tmp_path, 'msgid "old"\nmsgstr "alt"\n\nmsgid "kept"\nmsgstr "bleibt"\n')
    (tmp_path / "a.py").write_text('N_("kept")\nN_("new")\n')
    merged = catalogs.merged(stored, catalogs.extract(tmp_path), "de")
    assert {one.id: one.string for one in merged if one.id} == {"kept": "bleibt", "new": None}
    assert catalogs.as_text(merged).decode().startswith("# Head\n#\n#   kept as it is\nmsgid")


# -- the program in German -----------------------------------------------------------------------
def test_a_sentence_and_a_finding_in_german(german: Texts) -> None:
    assert german("Fill line (hot)") == "Fülllinie (heiß)"
    finding = Finding(Rank.WATCH, "quantity.unit-missing", {"example": "200 g"})
    key = next(key for key, said in all_sentences().items() if said.startswith("Add the unit, for"))
    said = german.say(Finding(finding.rank, key, finding.data))
    assert said == "Die Einheit ergänzen, zum Beispiel 200 g."


@pytest.mark.parametrize(("n", "said"), [(0, "0 Kerzen"), (1, "1 Kerze"), (2, "2 Kerzen")])
def test_german_counts(german: Texts, n: int, said: str) -> None:
    assert german.plural("{n} candle", "{n} candles", n) == said


def test_a_german_date_has_its_points(german: Texts) -> None:
    """The calendar: 28 November 2026 is a Saturday (ISO 8601 weekday 6)."""
    assert german.date("2026-11-28") == "Samstag, 28. November 2026"
    assert german.day("2026-03-01") == "1. März 2026"


def test_a_file_has_its_own_units_in_the_same_language(german: Texts) -> None:
    assert german.with_units(Units())("Vessel") == "Gefäß"
    assert german.in_language("en")("Vessel") == "Vessel"
    assert Texts("fr", folder=catalog_folder())("Undo") == "Undo"


# -- labels in other languages -------------------------------------------------------------------
LABEL_SENTENCES = (
    "scented {wax} candle",
    "{wax} candle",
    "scented {wax} melts",
    "{wax} melts",
    " and ",
    "Lot",
    "Batch",
    *CLASS_SHORT.values(),
    *FIELD_WORDS.values(),
    *FACT_WORDS.values(),
    "at most {n} hours at a time",
    *ROLES.values(),
)


def test_every_language_of_labels_says_what_stands_on_labels() -> None:
    assert catalogs.LABELS_ONLY == LABELS_ONLY
    assert {"en", *catalogs.languages()} == set(LANGUAGE_NAMES)
    for language in catalogs.languages():
        said = gettext.translation("wickbench", catalogs.CATALOGS, [language])
        said.add_fallback(_Silent())
        assert "" not in {said.gettext(one) for one in LABEL_SENTENCES}, language


class _Silent(gettext.NullTranslations):
    @override
    def gettext(self, message: str) -> str:
        return ""


@pytest.mark.parametrize(
    ("language", "said"), [("fr", "28 novembre 2026"), ("es", "28 de noviembre de 2026")]
)
def test_a_date_on_a_label(language: str, said: str) -> None:
    assert Texts(language, folder=catalog_folder()).day("2026-11-28") == said


# -- languages to choose from --------------------------------------------------------------------
def test_only_languages_with_a_catalog_are_offered(tmp_path: Path) -> None:
    assert available_languages(None) == ("en",)
    assert available_languages(tmp_path) == ("en",)
    for code in ("en", "de", "fr", "xx"):
        folder = tmp_path / code / "LC_MESSAGES"
        folder.mkdir(parents=True)
        (folder / "wickbench.mo").touch()
    assert available_languages(tmp_path) == ("en", "de")
    assert spoken_languages() == {"en": "English", "de": "German"}


def test_papers_speak_what_the_window_speaks_and_labels_more() -> None:
    offered = {
        spec.name: {choice.value for choice in spec.choices}
        for spec in SETTING_FIELDS
        if spec.name.startswith("language_of")
    }
    assert offered["language_of_papers"] == {"en", "de"}
    assert offered["language_of_labels"] == {"en", "de", "fr", "es"}
