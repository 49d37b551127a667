"""Stands in for PyInstaller's own hook, which takes every plug-in that the window toolkit has.

What an unused plug-in needs would come along too: the GTK theme alone brings 20 MB of libraries.
"""

from frozen_parts import is_wanted
from PyInstaller.utils.hooks.qt import add_qt6_dependencies

hiddenimports, binaries, datas = add_qt6_dependencies(__file__)
binaries = [(file, folder) for file, folder in binaries if is_wanted(file)]
datas = [(file, folder) for file, folder in datas if is_wanted(file)]
