"""The acts of the canvas as a menu with keys: align, space out, order, group, copy, take off."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QMimeData, QObject, Qt
from PySide6.QtGui import QAction, QGuiApplication, QKeySequence
from PySide6.QtWidgets import QMenu

from wickbench.app import label_arranging as arranging
from wickbench.app.label_clips import elements_from_text, elements_to_text
from wickbench.app.label_guides import lay_guides
from wickbench.app.texts_marker import N_
from wickbench.domain.arranging import Box, bounds, box_of, guides_along, guides_through
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from wickbench.app.workspace import Workspace
    from wickbench.domain.guides import Guide
    from wickbench.domain.labels import LabelDesign
    from wickbench.gui.labels.canvas.label_canvas import LabelCanvas

CLIP: Final = "application/x-wickbench-label"
_ALIGN: Final = {
    "left": N_("Left edges"), "centre": N_("Centres"), "right": N_("Right edges"),
    "top": N_("Top edges"), "middle": N_("Middles"), "bottom": N_("Bottom edges"),
}  # fmt: skip
_ORDER: Final = {
    "front": (N_("To the front"), "Ctrl+Shift+]"), "forwards": (N_("Further front"), "Ctrl+]"),
    "backwards": (N_("Further back"), "Ctrl+["), "back": (N_("To the back"), "Ctrl+Shift+["),
}  # fmt: skip
_SEVERAL: Final = 2
_ENOUGH_TO_SPACE: Final = 3


class CanvasActs(QObject):
    """What can be done with what is chosen on a canvas.

    Attributes:
        menu: all acts; shown by a button and at the pointer.
        label_id: the label that is shown; ``None`` while nothing can be done.
    """

    def __init__(self, workspace: Workspace, canvas: LabelCanvas) -> None:
        super().__init__(canvas)
        self._workspace, self._canvas = workspace, canvas
        self.label_id: int | None = None
        self.actions: dict[str, QAction] = {}
        self.menu = QMenu(canvas)
        self._fill()
        self.menu.aboutToShow.connect(self.enable)
        canvas.chosen_changed.connect(self.enable)
        canvas.menu_requested.connect(self.menu.popup)
        canvas.guides_laid.connect(self.keep_guides)

    def _fill(self) -> None:
        texts, menu = self._workspace.texts, self.menu
        self._add(menu, "copy", N_("Copy"), self.copy, QKeySequence.StandardKey.Copy)
        self._add(menu, "cut", N_("Cut"), self.cut, QKeySequence.StandardKey.Cut)
        self._add(menu, "paste", N_("Paste"), self.paste, QKeySequence.StandardKey.Paste)
        self._add(menu, "duplicate", N_("Duplicate"), self.duplicate, "Ctrl+D")
        self._add(
            menu, "all", N_("Choose all"), self.choose_all, QKeySequence.StandardKey.SelectAll
        )
        menu.addSeparator()
        align = menu.addMenu(texts(N_("Align")))
        for to, words in _ALIGN.items():
            self._add(align, f"align_{to}", words, partial(self.align, to))
        space = menu.addMenu(texts(N_("Space out")))
        self._add(space, "space_across", N_("From left to right"), partial(self.space, across=True))
        self._add(space, "space_down", N_("From top to bottom"), partial(self.space, across=False))
        order = menu.addMenu(texts(N_("From back to front")))
        for to, (words, keys) in _ORDER.items():
            self._add(order, f"order_{to}", words, partial(self.order, to), keys)
        self._fill_guides(menu.addMenu(texts(N_("Guides"))))
        menu.addSeparator()
        self._add(menu, "group", N_("Group"), self.group, "Ctrl+G")
        self._add(menu, "ungroup", N_("Ungroup"), self.ungroup, "Ctrl+Shift+G")
        menu.addSeparator()
        self._add(menu, "take_off", N_("Take off"), self.take_off, QKeySequence.StandardKey.Delete)

    def _fill_guides(self, menu: QMenu) -> None:
        along = N_("Along the edges of what is chosen")
        self._add(menu, "guides_along", along, partial(self.lay_guides, guides_along))
        through = N_("Through the middle of what is chosen")
        self._add(menu, "guides_through", through, partial(self.lay_guides, guides_through))
        self._add(menu, "guides_middle", N_("Through the middle of the label"), self.lay_middle)
        self._add(menu, "guides_away", N_("Take all guides away"), self.clear_guides)

    def _add(
        self,
        menu: QMenu,
        name: str,
        words: str,
        act: Callable[[], object],
        keys: QKeySequence.StandardKey | str | None = None,
    ) -> None:
        action = menu.addAction(self._workspace.texts(words))
        action.setObjectName(name)
        if keys is not None:
            action.setShortcut(QKeySequence(keys))
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        action.triggered.connect(lambda *_: act())
        self._canvas.addAction(action)
        self.actions[name] = action

    def enable(self) -> None:
        """Offer what can be done with what is chosen now."""
        count = len(self._canvas.chosen) if self.label_id is not None else 0
        design = self._design()
        grouped = design is not None and any(
            design.elements[at].group for at in self._canvas.chosen if at < len(design.elements)
        )
        least = {
            "space_across": _ENOUGH_TO_SPACE,
            "space_down": _ENOUGH_TO_SPACE,
            "group": _SEVERAL,
        }
        for name, action in self.actions.items():
            if name in {"paste", "all", "guides_middle", "guides_away"}:
                action.setEnabled(self.label_id is not None)
            else:
                action.setEnabled(count >= least.get(name, 1))
        self.actions["ungroup"].setEnabled(grouped)

    def _design(self) -> LabelDesign | None:
        laid = self._canvas.laid
        return laid.design if laid is not None else None

    @property
    def _chosen(self) -> tuple[int, ...]:
        return self._canvas.chosen

    # -- acts ------------------------------------------------------------------------------------
    def align(self, to: str) -> None:
        """Bring what is chosen to one edge or middle."""
        design = self._design()
        if self.label_id is not None and design is not None and self._chosen:
            arranging.align_elements(self._workspace, self.label_id, design, self._chosen, to)

    def space(self, *, across: bool) -> None:
        """Make the gaps equal."""
        design = self._design()
        if self.label_id is not None and design is not None and self._chosen:
            arranging.distribute_elements(
                self._workspace, self.label_id, design, self._chosen, across=across
            )

    def order(self, to: str) -> None:
        """Bring to the front or back."""
        if self.label_id is not None and self._chosen:
            places = arranging.order_elements(self._workspace, self.label_id, self._chosen, to)
            self._choose(places)

    def group(self) -> None:
        """Make one group."""
        if self.label_id is not None and len(self._chosen) >= _SEVERAL:
            arranging.group_elements(self._workspace, self.label_id, self._chosen)

    def ungroup(self) -> None:
        """Take groups apart."""
        if self.label_id is not None and self._chosen:
            arranging.ungroup_elements(self._workspace, self.label_id, self._chosen)

    def take_off(self) -> None:
        """Take off the label; undo brings it back."""
        if self.label_id is not None and self._chosen:
            chosen = self._chosen
            self._choose(())
            arranging.remove_elements(self._workspace, self.label_id, chosen)

    def copy(self) -> None:
        """Keep copies for pasting, here or onto another label."""
        design = self._design()
        if design is None or not self._chosen:
            return
        clip = QMimeData()
        text = elements_to_text([design.elements[at] for at in self._chosen])
        clip.setData(CLIP, text.encode())
        QGuiApplication.clipboard().setMimeData(clip)

    def cut(self) -> None:
        """Copy and take off."""
        self.copy()
        self.take_off()

    def paste(self) -> None:
        """Put what was copied onto the label; text from elsewhere becomes a text."""
        held = QGuiApplication.clipboard().mimeData()
        if self.label_id is None or held is None:
            return
        raw = bytes(held.data(CLIP).data()).decode() if held.hasFormat(CLIP) else ""
        try:
            copied = elements_from_text(raw, plain=held.text(), design=self._design())
        except DomainError:
            return
        if copied:
            self._choose(arranging.paste_elements(self._workspace, self.label_id, copied))

    def duplicate(self) -> None:
        """Copies beside what is chosen, without the clipboard."""
        design = self._design()
        if self.label_id is not None and design is not None and self._chosen:
            copied = [design.elements[at] for at in self._chosen]
            self._choose(arranging.paste_elements(self._workspace, self.label_id, copied))

    def lay_guides(self, made: Callable[[Box], tuple[Guide, ...]]) -> None:
        """Lay guides by the box round what is chosen."""
        design = self._design()
        if design is not None and self._chosen:
            box = bounds(box_of(design.elements[at]) for at in self._chosen)
            self.keep_guides((*self._canvas.guide_hand.guides, *made(box)))

    def lay_middle(self) -> None:
        """Lay two guides through the middle of the label."""
        design = self._design()
        if design is not None:
            whole = Box(0.0, 0.0, design.width_mm, design.height_mm)
            self.keep_guides((*self._canvas.guide_hand.guides, *guides_through(whole)))

    def clear_guides(self) -> None:
        """Take all guides off the label."""
        self.keep_guides(())

    def keep_guides(self, guides: Iterable[Guide]) -> None:
        """Keep these guides on the label."""
        if self.label_id is not None:
            lay_guides(self._workspace, self.label_id, guides)

    def choose_all(self) -> None:
        """Choose everything on the label."""
        self._choose(tuple(range(len(self._canvas.elements))))

    def _choose(self, chosen: tuple[int, ...]) -> None:
        self._canvas.choose(chosen)
        self._canvas.chosen_changed.emit()
