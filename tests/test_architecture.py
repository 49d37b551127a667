"""The rules of the house, held by tests: who imports whom, how long a room may be, what it says."""

# ruff: noqa: S603, S607  (git and this interpreter, with fixed arguments)

from __future__ import annotations

import ast
import re
import string
import subprocess
import sys
import tomllib
from collections import Counter
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
SRC = ROOT / "src"
PACKAGE = SRC / "wickbench"
SENTENCES = PACKAGE / "app" / "sentences"
FILES = sorted(PACKAGE.rglob("*.py"))
LOWER_LAYERS = ("domain", "storage", "documents", "app")

FILE_LINES = 400
FUNCTION_LINES = 40
WIDGET_INIT_LINES = 30

TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "pyproject.toml", "src", "resources", "tests", "packaging",
    "demo",
}  # fmt: skip
BANNED_IMPORTS = ("PySide6.QtSql", "PySide6.QtCharts", "PySide6.QtGraphs", "apsw")
BANNED_WIDGETS = {"QSpinBox", "QDoubleSpinBox"}
EMPTY_NAMES = re.compile(r"util|manager|helper", re.IGNORECASE)
KEY = re.compile(r"[a-z][a-z0-9-]*\.[a-z0-9.-]+")


def short(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def nodes(path: Path) -> Iterator[ast.AST]:
    return ast.walk(tree(path))


# ── who imports whom ──────────────────────────────────────────────────────────────────────────


def test_the_import_contracts_hold() -> None:
    code = "from importlinter.cli import lint_imports_command as lint; lint(['--no-cache'])"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in nodes(path):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names |= {f"{node.module}.{alias.name}" for alias in node.names} | {str(node.module)}
    return names


@pytest.mark.parametrize("path", FILES, ids=short)
def test_no_module_that_the_license_or_the_lock_forbids(path: Path) -> None:
    assert not [name for name in imported(path) if name.startswith(BANNED_IMPORTS)]


# Import names that differ from the name of the package they come in.
PACKAGE_NAMES = {
    "PIL": "pillow",
    "PySide6": "pyside6-essentials",
    "shiboken6": "pyside6-essentials",
    "barcode": "python-barcode",
}


def test_every_package_imported_is_asked_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = {re.split(r"[<>=!~ ]", one)[0].lower() for one in project["dependencies"]}
    tops = {name.split(".")[0] for path in FILES for name in imported(path)}
    foreign = tops - sys.stdlib_module_names - {"wickbench"}
    names = {PACKAGE_NAMES.get(name, name.lower().replace("_", "-")) for name in foreign}
    assert names <= asked


@pytest.mark.parametrize("path", sorted((PACKAGE / "gui").rglob("*.py")), ids=short)
def test_quantities_are_never_typed_into_a_spin_box(path: Path) -> None:
    # In a German locale QDoubleSpinBox turns a typed 1.5 into 15.
    used = {node.id for node in nodes(path) if isinstance(node, ast.Name)}
    assert not used & BANNED_WIDGETS


WITHOUT_QT = """
import importlib, pkgutil, sys
for name in ("PySide6", "shiboken6"):
    sys.modules[name] = None
import wickbench
for layer in {layers!r}:
    package = importlib.import_module("wickbench." + layer)
    for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
        importlib.import_module(module.name)
        print(module.name)
import wickbench.main
"""


def test_the_lower_layers_and_main_import_without_qt() -> None:
    code = WITHOUT_QT.format(layers=LOWER_LAYERS)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    below = [path for layer in LOWER_LAYERS for path in (PACKAGE / layer).rglob("*.py")]
    expected = {path for path in below if path.name != "__init__.py"}
    assert len(set(done.stdout.split())) >= len(expected)


# ── how long a room may be ────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("path", FILES, ids=short)
def test_a_file_is_no_longer_than_a_room(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= FILE_LINES


def code_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines from ``def`` to the end, its docstring not counted."""
    first = function.body[0]
    documented = ast.get_docstring(function, clean=False) is not None
    docstring = (first.end_lineno or 0) - first.lineno + 1 if documented else 0
    return (function.end_lineno or 0) - function.lineno + 1 - docstring


def limit(path: Path, name: str) -> int:
    in_gui = PACKAGE / "gui" in path.parents
    return WIDGET_INIT_LINES if in_gui and name == "__init__" else FUNCTION_LINES


@pytest.mark.parametrize("path", FILES, ids=short)
def test_a_function_fits_on_a_screen(path: Path) -> None:
    found = [node for node in nodes(path) if isinstance(node, ast.FunctionDef)]
    lengths = {f"{node.name} (line {node.lineno})": code_lines(node) for node in found}
    too_long = {
        name: lines for name, lines in lengths.items() if lines > limit(path, name.split(" ")[0])
    }
    assert not too_long


INITS = [path for path in FILES if path.name == "__init__.py"]


@pytest.mark.parametrize("path", INITS, ids=short)
def test_an_init_file_says_what_the_room_is_for_and_nothing_else(path: Path) -> None:
    body = tree(path).body
    assert len(body) == 1
    assert ast.get_docstring(tree(path))


@pytest.mark.parametrize("path", FILES, ids=short)
def test_no_name_that_says_nothing(path: Path) -> None:
    kinds = (ast.FunctionDef, ast.ClassDef, ast.AsyncFunctionDef)
    names = [node.name for node in nodes(path) if isinstance(node, kinds)] + [path.stem]
    assert not [name for name in names if EMPTY_NAMES.search(name)]


# ── every key has its sentence ────────────────────────────────────────────────────────────────


@cache
def sentence_modules() -> dict[str, dict[str, str]]:
    topics = [path.stem for path in SENTENCES.glob("*.py") if path.name != "__init__.py"]
    return {topic: import_module(f"wickbench.app.sentences.{topic}").SENTENCES for topic in topics}


@cache
def all_sentences() -> dict[str, str]:
    return {key: text for topic in sentence_modules().values() for key, text in topic.items()}


def name_of(node: ast.expr) -> str:
    return node.attr if isinstance(node, ast.Attribute) else getattr(node, "id", "")


@cache
def error_classes() -> frozenset[str]:
    """Names of ``DomainError`` and of every class below it."""
    classes = [node for path in FILES for node in nodes(path) if isinstance(node, ast.ClassDef)]
    known = {"DomainError"}
    while True:
        below = {one.name for one in classes if {name_of(base) for base in one.bases} & known}
        if below <= known:
            return frozenset(known)
        known |= below


class Said(NamedTuple):
    """A place in the code that names a sentence; ``data`` is ``None`` where it cannot be seen."""

    where: str
    key: str
    data: frozenset[str] | None


def constant(node: ast.expr | None) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


def error_data(call: ast.Call) -> frozenset[str] | None:
    names = [keyword.arg for keyword in call.keywords]
    return None if None in names else frozenset(name for name in names if name)


def finding_data(call: ast.Call) -> frozenset[str] | None:
    named = {keyword.arg: keyword.value for keyword in call.keywords}
    node = call.args[2] if len(call.args) > 2 else named.get("data")
    if node is None:
        return frozenset()
    keys = [constant(key) for key in node.keys] if isinstance(node, ast.Dict) else [None]
    return None if None in keys else frozenset(key for key in keys if key)


def said_in(path: Path) -> Iterator[Said]:
    for node in nodes(path):
        if not isinstance(node, ast.Call):
            continue
        named = {keyword.arg: keyword.value for keyword in node.keywords}
        where = f"{short(path)}:{node.lineno}"
        name = name_of(node.func)
        if name == "Finding":
            key = constant(node.args[1] if len(node.args) > 1 else named.get("key"))
            data = finding_data(node)
        elif name in error_classes():
            key, data = constant(node.args[0] if node.args else None), error_data(node)
        else:
            continue
        if key is not None:
            yield Said(where, key, data)


SAID = [said for path in FILES for said in said_in(path)]


def test_the_search_for_keys_finds_some() -> None:
    assert any(said.data for said in SAID)
    assert "OutOfRange" in error_classes()


def placeholders(sentence: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(sentence) if name}


def test_every_key_has_a_sentence() -> None:
    without = {said.key: said.where for said in SAID if said.key not in all_sentences()}
    assert not without


def test_every_placeholder_is_filled() -> None:
    unfilled = {
        said.where: sorted(placeholders(all_sentences()[said.key]) - said.data)
        for said in SAID
        if said.data is not None and said.key in all_sentences()
    }
    assert not {where: names for where, names in unfilled.items() if names}


def strings(path: Path) -> set[str]:
    found = (constant(node) for node in nodes(path) if isinstance(node, ast.Constant))
    return {text for text in found if text}


# A function of the lower layers may pass a key on: what looks like a key there is one.
PASSING_ON = [path for layer in ("domain", "documents") for path in (PACKAGE / layer).rglob("*.py")]
FILE_NAME = re.compile(r".*\.(json|svg|pdf|png|ttf|otf|log|wickbench)")


def names_a_sentence(text: str) -> bool:
    """Whether it is a key, or the beginning of one that the code completes."""
    return any(key == text or key.startswith(f"{text.rstrip('-')}-") for key in all_sentences())


def test_every_string_that_looks_like_a_key_has_a_sentence() -> None:
    topics = {key.split(".")[0] for key in all_sentences()}
    found = {text for path in PASSING_ON for text in strings(path) if KEY.fullmatch(text)}
    keys = {text for text in found if text.split(".")[0] in topics and not FILE_NAME.match(text)}
    assert not {key for key in keys if not names_a_sentence(key)}


OUTSIDE_SENTENCES = [path for path in FILES if SENTENCES not in path.parents]


def test_no_sentence_stands_in_two_topics() -> None:
    counted = Counter(key for topic in sentence_modules().values() for key in topic)
    assert not [key for key, times in counted.items() if times > 1]


def stems(key: str, endings: set[str]) -> set[str]:
    """The key, and what stands before each ending that the code may have put to it."""
    return {key} | {key.removesuffix(ending) for ending in endings}


def test_no_sentence_is_left_over() -> None:
    used = {text for path in OUTSIDE_SENTENCES for text in strings(path)}
    beginnings = tuple(text for text in used if re.fullmatch(r"[a-z]+\.([a-z0-9-]+-)?", text))
    endings = {text for text in used if re.fullmatch(r"-[a-z][a-z-]+", text)}
    assert not [
        key
        for key in all_sentences()
        if not stems(key, endings) & used and not key.startswith(beginnings)
    ]


# ── what lies where ───────────────────────────────────────────────────────────────────────────


@cache
def tracked() -> tuple[Path, ...]:
    listed = subprocess.run(
        ["git", "-C", str(ROOT), "ls-files", "-z"], capture_output=True, text=True, check=False
    )
    if listed.returncode != 0:
        pytest.skip("this copy of the project is no git checkout")
    return tuple(ROOT / name for name in listed.stdout.split("\0") if name)


def test_the_top_of_the_repository_is_tidy() -> None:
    top = {path.relative_to(ROOT).parts[0] for path in tracked()}
    assert {name for name in top if not name.startswith(".")} <= TOP_LEVEL


# Written in two halves so that this file does not find itself.
MACHINE_PATHS = [f"/{name}/" for name in ("root", "work", "tmp", "home")] + ["C:" + "\\Users"]
HOSTS = ["pypi" + ".org", "python" + "hosted", "--index" + "-url", "--find" + "-links"]
FOREIGN = re.compile("|".join(rf"(?<![\w.}}]){re.escape(text)}" for text in MACHINE_PATHS + HOSTS))


@pytest.mark.parametrize(
    "text", ["see /" + "root/x", "https://pypi" + ".org/simple", '"/' + 'tmp/"']
)
def test_the_search_for_foreign_places_finds_them(text: str) -> None:
    assert FOREIGN.search(text)


def test_no_file_names_a_machine_or_a_registry() -> None:
    found = {}
    for path in tracked():
        if not path.is_file():
            continue
        text = path.read_bytes().decode("utf-8", errors="ignore")
        places = {match.group() for match in FOREIGN.finditer(text)}
        if places and b"\0" not in path.read_bytes()[:4096]:
            found[short(path)] = places
    assert not found
