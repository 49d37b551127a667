"""The sentences of the program, gathered for translation, and their translations made ready.

    .venv/bin/python packaging/catalogs.py update

takes new sentences into the template and into every catalog, says what is still to be translated,
and makes the binary catalogs that the program reads. All are committed: a checkout needs no build.
"""

import ast
import io
import re
import sys
from collections.abc import Iterator, Sequence
from itertools import takewhile
from pathlib import Path

from babel.messages import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src" / "wickbench"
CATALOGS = ROOT / "resources" / "catalogs"
DOMAIN = "wickbench"
TEMPLATE = CATALOGS / f"{DOMAIN}.pot"
UPDATE = ".venv/bin/python packaging/catalogs.py update"

COMPLETE = ("de",)
"""Languages that say every sentence: there a missing one is a fault, elsewhere it is English."""

LABELS_ONLY = frozenset({"es", "fr"})
"""Languages that say what stands on labels; sentences without a translation are left out."""

MARKS = frozenset({"N_", "texts", "_texts"})
WIDTH = 100
PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
HEAD = "# Sentences of Wickbench. Written by packaging/catalogs.py; do not edit."
USAGE = f"""Usage: {UPDATE.removesuffix(" update")} COMMAND

  extract   writes the template from the sentences in the code
  update    the same, takes new sentences into every catalog, and compiles
  compile   makes the binary catalogs
  check     says what is missing, wrong or out of date
"""

Sentence = str | tuple[str, str]
"""One sentence, or the pair for one and for many."""


class NotReadable(Exception):
    """A sentence stands in the code in a way that no catalog can hold."""


class PlainCatalog(Catalog):
    """A catalog whose head names no person, tool or moment: only its words change it."""

    def _plain_headers(self) -> list[tuple[str, str]]:
        code = self.locale_identifier
        own = [("Language", code), ("Plural-Forms", self.plural_forms)] if code else []
        return [
            *own,
            ("MIME-Version", "1.0"),
            ("Content-Type", "text/plain; charset=utf-8"),
            ("Content-Transfer-Encoding", "8bit\n"),
        ]

    mime_headers = property(_plain_headers)


# ── from the code ─────────────────────────────────────────────────────────────────────────────


def _name(call: ast.Call) -> str:
    called = call.func
    if isinstance(called, ast.Attribute):
        return called.attr
    return called.id if isinstance(called, ast.Name) else ""


def _written(node: ast.expr) -> list[str]:
    """The sentences an argument can be: written out, marked, or one of two."""
    if isinstance(node, ast.Constant):
        return [node.value] if isinstance(node.value, str) and node.value else []
    if isinstance(node, ast.IfExp):
        return _written(node.body) + _written(node.orelse)
    if isinstance(node, ast.Call) and _name(node) == "N_":
        return _written(node.args[0])
    return []


def _pair(call: ast.Call, where: str) -> tuple[str, str]:
    one, many = (_written(argument) for argument in call.args[:2])
    if len(one) != 1 or len(many) != 1:
        raise NotReadable(f"{where}:{call.lineno}: write both sentences of plural(…) out in place")
    return one[0], many[0]


def _sentences_of(tree: ast.AST, where: str) -> Iterator[Sentence]:
    calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call) and node.args]
    calls.sort(key=lambda node: (node.lineno, node.col_offset))
    plurals = [call for call in calls if _name(call) == "plural"]
    within = {
        id(part) for call in plurals for argument in call.args[:2] for part in ast.walk(argument)
    }
    for call in calls:
        if id(call) in within:
            continue
        if _name(call) == "plural":
            yield _pair(call, where)
        elif _name(call) in MARKS:
            yield from _written(call.args[0])


def extract(source: Path = SOURCE) -> Catalog:
    """Every sentence of the code with the files it stands in, in their order.

    Raises:
        NotReadable: a pair for one and many is not written out, or one of it is also said alone.
    """
    found = PlainCatalog(header_comment=HEAD, fuzzy=False)
    alone: set[str] = set()
    pairs: set[str] = set()
    for path in sorted(source.rglob("*.py")):
        where = path.relative_to(source).as_posix()
        for sentence in _sentences_of(ast.parse(path.read_text(encoding="utf-8")), where):
            found.add(sentence, locations=[(where, 0)])
            alone.update([sentence] if isinstance(sentence, str) else [])
            pairs.update([sentence[0]] if isinstance(sentence, tuple) else [])
    if both := alone & pairs:
        raise NotReadable(f"said both alone and by number, give one other words: {sorted(both)}")
    return found


# ── catalogs as bytes ─────────────────────────────────────────────────────────────────────────


def as_text(catalog: Catalog) -> bytes:
    """A catalog as it stands in its text file."""
    out = io.BytesIO()
    write_po(out, catalog, width=WIDTH, include_lineno=False, ignore_obsolete=True)
    return out.getvalue().rstrip() + b"\n"


def as_binary(catalog: Catalog) -> bytes:
    """A catalog as the program reads it; what is not translated is left out."""
    out = io.BytesIO()
    write_mo(out, catalog)
    return out.getvalue()


def languages(folder: Path = CATALOGS) -> list[str]:
    """Languages that have a catalog."""
    return sorted(path.parent.parent.name for path in folder.glob(f"*/LC_MESSAGES/{DOMAIN}.po"))


def text_file(language: str, folder: Path = CATALOGS) -> Path:
    """Where the translations of a language are written."""
    return folder / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def read(language: str, folder: Path = CATALOGS) -> Catalog:
    """The catalog of a language as it stands in its file."""
    words = text_file(language, folder).read_text(encoding="utf-8")
    stored = read_po(io.StringIO(words), locale=language, domain=DOMAIN)
    # As it is written: reading would lose its empty lines and its columns.
    stored.header_comment = "\n".join(takewhile(lambda line: line[:1] == "#", words.splitlines()))
    return _filled(stored, stored, language)


def merged(stored: Catalog, template: Catalog, language: str) -> Catalog:
    """The template's sentences, each with the translation that is stored for it."""
    return _filled(template, stored, language)


def _filled(sentences: Catalog, stored: Catalog, language: str) -> Catalog:
    catalog = PlainCatalog(language, DOMAIN, header_comment=stored.header_comment, fuzzy=False)
    for one in _messages(sentences):
        old = stored.get(_key(one))
        fits = old is not None and old.id == one.id
        if language in LABELS_ONLY and not (old and fits and old.string):
            continue
        added = catalog.add(one.id, old.string if old and fits else None, one.locations)
        added.flags |= old.flags & {"fuzzy"} if old and fits else set()
        added.user_comments = old.user_comments if old else []
    return catalog


def _messages(catalog: Catalog) -> list[Message]:
    return [message for message in catalog if message.id]


def _key(message: Message) -> str:
    return message.id if isinstance(message.id, str) else message.id[0]


# ── what may be wrong ─────────────────────────────────────────────────────────────────────────


def _parts(words: str | tuple[str, ...] | list[str] | None) -> tuple[str, ...]:
    return (words or "",) if isinstance(words, str | None) else tuple(words)


def missing(catalog: Catalog) -> list[str]:
    """Sentences without a translation, or with one that is only guessed."""
    return [_key(one) for one in _messages(catalog) if one.fuzzy or not all(_parts(one.string))]


def _said(words: str) -> tuple[frozenset[str], bool, bool, int]:
    """What a translation must keep: placeholders, space at both ends, lines."""
    names = frozenset(PLACEHOLDER.findall(words))
    return names, words.startswith(" "), words.endswith(" "), words.count("\n")


def _differs(message: Message) -> bool:
    if isinstance(message.id, str):
        return _said(message.id) != _said(str(message.string))
    named = [frozenset(PLACEHOLDER.findall(form)) | {"n"} for form in _parts(message.id)]
    forms = [frozenset(PLACEHOLDER.findall(form)) | {"n"} for form in _parts(message.string)]
    # The form for one may leave out what the English sentence for one leaves out.
    one_as_said = forms[0] in {named[0], named[0] | named[1]}
    return not one_as_said or any(form != named[1] for form in forms[1:])


def wrong(catalog: Catalog) -> list[str]:
    """Sentences whose translation names other placeholders, or begins and ends otherwise."""
    unsaid = set(missing(catalog))
    return [_key(one) for one in _messages(catalog) if _key(one) not in unsaid and _differs(one)]


def _faults_of(language: str) -> Iterator[str]:
    catalog, binary = read(language), text_file(language).with_suffix(".mo")
    yield from (f"{language}: other placeholders: {one}" for one in wrong(catalog))
    if language in COMPLETE:
        yield from (f"{language}: not translated: {one}" for one in missing(catalog))
    if not binary.is_file() or binary.read_bytes() != as_binary(catalog):
        yield f"{language}: the binary catalog is out of date; type {UPDATE}"


def faults() -> list[str]:
    """Everything that is wrong with the template and the catalogs."""
    found = [fault for language in languages() for fault in _faults_of(language)]
    return found + [f"not in the template, type {UPDATE}: {one}" for one in not_gathered()]


def not_gathered() -> list[str]:
    """Sentences that the code and the template do not share; where they stand may differ."""
    stored = read_po(io.BytesIO(TEMPLATE.read_bytes())) if TEMPLATE.is_file() else Catalog()
    theirs, ours = ({str(one.id) for one in _messages(known)} for known in (stored, extract()))
    return sorted(theirs ^ ours)


# ── commands ──────────────────────────────────────────────────────────────────────────────────


def write_template() -> None:
    """Writes the template from the code."""
    TEMPLATE.parent.mkdir(parents=True, exist_ok=True)
    TEMPLATE.write_bytes(as_text(extract()))


def compile_all() -> None:
    """Makes the binary catalog of every language and says how much it knows."""
    for language in languages():
        catalog = read(language)
        text_file(language).with_suffix(".mo").write_bytes(as_binary(catalog))
        print(f"{language}: {len(catalog) - len(missing(catalog))} of {len(catalog)} sentences")


def update() -> None:
    """Takes the sentences of the code into the template and every catalog, and compiles."""
    write_template()
    template = extract()
    for language in languages():
        text_file(language).write_bytes(as_text(merged(read(language), template, language)))
        for sentence in missing(read(language)):
            print(f"{language}: not translated: {sentence}")
    compile_all()


def check() -> int:
    """Says every fault; returns the exit code."""
    found = faults()
    print("\n".join(found) or "The catalogs are in order.")
    return 1 if found else 0


COMMANDS = {"extract": write_template, "update": update, "compile": compile_all, "check": check}


def main(arguments: Sequence[str]) -> int:
    """Runs the command that the argument names; returns the exit code."""
    if len(arguments) != 1 or arguments[0] not in COMMANDS:
        print(USAGE, file=sys.stderr)
        return 2
    try:
        return COMMANDS[arguments[0]]() or 0
    except NotReadable as error:
        print(error, file=sys.stderr)
        return 1


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
