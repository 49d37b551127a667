"""What goes into the frozen program and what stays out; read by ``wickbench.spec``."""

from pathlib import Path, PurePosixPath

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src"
WORK = ROOT / "build" / "freeze"
DEMO = WORK / "demo"
METADATA = WORK / "metadata"
RESOURCES = "wickbench/_resources"

FONT_PACKAGES = ("font_source_sans_pro", "font_source_serif_pro")

# ReportLab looks for its barcodes by name, while it runs.
BARCODES = (
    "reportlab.graphics.barcode.code128",
    "reportlab.graphics.barcode.code39",
    "reportlab.graphics.barcode.code93",
    "reportlab.graphics.barcode.common",
    "reportlab.graphics.barcode.dmtx",
    "reportlab.graphics.barcode.eanbc",
    "reportlab.graphics.barcode.ecc200datamatrix",
    "reportlab.graphics.barcode.fourstate",
    "reportlab.graphics.barcode.lto",
    "reportlab.graphics.barcode.qr",
    "reportlab.graphics.barcode.qrencoder",
    "reportlab.graphics.barcode.usps",
    "reportlab.graphics.barcode.usps4s",
    "reportlab.graphics.barcode.widgets",
)

# None of these is imported by ``src``; a test looks. They come along with what is, if at all.
EXCLUDED = (
    "IPython",
    "PySide6.QtNetwork",
    "PySide6.QtQml",
    "PySide6.QtQuick",
    "PySide6.QtQuickWidgets",
    "PySide6.QtSql",
    "PySide6.QtTest",
    "PySide6.QtVirtualKeyboard",
    "PySide6.scripts",
    "_pytest",
    "babel",
    "hypothesis",
    "matplotlib",
    "numpy",
    "pip",
    "pkg_resources",
    "pydoc",
    "pytest",
    "pytestqt",
    "scipy",
    "setuptools",
    "tkinter",
    "uncertainties",
)

# Of Qt's plug-ins, those for networks, databases, keyboards on the glass and bare screens, and one
# that draws the window like GTK and brings all of GTK along.
_PLUGIN_FOLDERS = frozenset({
    "designer", "egldeviceintegrations", "generic", "networkinformation", "qmllint", "qmltooling",
    "sqldrivers", "tls", "vectorimageformats",
})  # fmt: skip
_PLUGINS = (
    "qeglfs", "qgtk3", "qlinuxfb", "qminimal", "qpdf", "qtvirtualkeyboardplugin", "qvkkhrdisplay",
    "qvnc",
)  # fmt: skip

# Starts of the names of files that none of the above may bring along; the smoke test looks.
STAYS_OUT = (
    "Qt6EglFS", "Qt6Network", "Qt6Pdf", "Qt6Qml", "Qt6Quick", "Qt6Sql", "Qt6Test",
    "Qt6VirtualKeyboard", "babel", "gtk-", "numpy", "pytest", "scipy",
)  # fmt: skip


def own_modules(source: Path = SOURCE) -> list[str]:
    """Every module of the program: pages, docks and sentences are found by name at run time."""
    found = sorted(source.glob("wickbench/**/*.py"))
    paths = [file.relative_to(source).with_suffix("") for file in found]
    return [".".join(path.parts).removesuffix(".__init__") for path in paths]


def hidden_imports() -> list[str]:
    """Modules that no import statement leads to."""
    return [*own_modules(), *BARCODES, *FONT_PACKAGES]


# Qt's own words, in the languages that the window has a catalog for.
_QT_LANGUAGES = ("qtbase_de.qm",)


def is_wanted(plugin: str) -> bool:
    """Whether a plug-in or file that comes with Qt is of use to the program.

    Args:
        plugin: its path, with either kind of slash.
    """
    path = PurePosixPath(plugin.replace("\\", "/"))
    if "translations" in path.parts[:-1]:
        return path.name in _QT_LANGUAGES
    if {*_PLUGIN_FOLDERS, "qml"} & set(path.parts[:-1]):
        return False
    return not path.name.removeprefix("lib").startswith(_PLUGINS)


def stowaways(program: Path) -> list[str]:
    """Names of files in the folder of a frozen program that should have stayed out."""
    names = {file.name for file in program.parent.rglob("*")}
    return sorted(name for name in names if name.removeprefix("lib").startswith(STAYS_OUT))
