"""Every paper of a workshop, written as PDF into one folder: for a look without a window."""

from __future__ import annotations

import re
import unicodedata
from functools import partial
from typing import TYPE_CHECKING

from wickbench.app.calendar_paper import write_calendar
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_store import stored_labels
from wickbench.app.paper_sizes import paper_size
from wickbench.app.plans import load_plans, pour_day
from wickbench.app.print_run_view import run_view
from wickbench.app.print_runs import print_run, run_ids
from wickbench.app.printing import run_title, write_calibration_page, write_labels
from wickbench.app.recipe_card import write_recipe_cards
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_card import vessel_card
from wickbench.app.vessels import remembered_version, view_vessel
from wickbench.app.weigh_sheets import paper_sheet, paper_texts, write_weigh_sheets
from wickbench.documents.numbered_pages import draw_numbered
from wickbench.documents.pdf_file import write_pdf
from wickbench.documents.vessel_card import draw_vessel_card
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from wickbench.app.workspace import Workspace
    from wickbench.documents.flow import Flow
    from wickbench.documents.surface import Surface

_LONGEST_NAME = 60


def write_all_papers(workspace: Workspace, folder: Path) -> Iterator[Path]:
    """Write every paper of the workshop; yields each file.

    Weigh sheets and calendar of each plan, labels of each print run, vessel cards, recipe cards
    and the calibration page.

    A paper that cannot be made is told through ``workspace.ask`` and left out.

    Raises:
        DomainError: the folder cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise DomainError("paper.folder-missing", folder=str(folder)) from error
    shelf, files = load_shelf(workspace), _Files(workspace, folder)
    yield from _weigh_sheets(workspace, files)
    yield from _labels(workspace, shelf, files)
    if shelf.vessels:
        yield write_vessel_cards(workspace, shelf, files.next(N_("Vessel cards")))
    if any(part.role == "wax" for one in shelf.newest_versions() for part in one.parts):
        path = files.next(N_("Recipe cards"))
        yield from _told(workspace, partial(write_recipe_cards, workspace, path))
    page = files.next(N_("Calibration page"))
    yield write_calibration_page(workspace, paper_size(workspace.settings), page)


def _weigh_sheets(workspace: Workspace, files: _Files) -> Iterator[Path]:
    for plan in load_plans(workspace):
        day = pour_day(plan, workspace.clock.today()).isoformat()
        path = files.next(N_("Weigh sheets"), f"{day} {plan.name or plan.id}")
        yield from _told(workspace, partial(write_weigh_sheets, workspace, plan.id, path))
        if plan.needed_on is not None and plan.state == "planned":
            path = files.next(N_("Calendar"), f"{plan.needed_on} {plan.name or plan.id}")
            yield from _told(workspace, partial(write_calendar, workspace, plan.id, path))


def _labels(workspace: Workspace, shelf: Shelf, files: _Files) -> Iterator[Path]:
    known = {label.id: label for label in stored_labels(workspace, archived=True)}
    maker = LabelMaker(workspace)
    for key in run_ids(workspace):
        view = run_view(workspace, maker, shelf, known, print_run(workspace, key))
        path = files.next(N_("Labels"), run_title(workspace, view))
        yield from _told(workspace, partial(write_labels, workspace, view, path))


def _told(workspace: Workspace, write: Callable[[], Path]) -> Iterator[Path]:
    """The file, or why there is none."""
    try:
        yield write()
    except DomainError as error:
        workspace.ask.tell(workspace.texts.say(error))


def write_vessel_cards(
    workspace: Workspace, shelf: Shelf, path: Path, *, only: int | None = None
) -> Path:
    """Write a card for each vessel in use, two to a page; or for only one of them.

    Raises:
        DomainError: the file cannot be written.
    """
    texts, settings = paper_texts(workspace), workspace.settings
    version = remembered_version(workspace, shelf)
    every = [one for one in shelf.vessels.values() if not one.archived]
    vessels = every if only is None else [shelf.vessels[only]]
    cards = [
        vessel_card(view_vessel(one, shelf, settings, texts, version), texts, settings)
        for one in sorted(vessels, key=lambda one: one.name.casefold())
    ]
    sheet = paper_sheet(workspace, texts, N_("Vessel card"), workspace.clock.today())

    def draw_cards(flow: Flow) -> None:
        for card in cards:
            draw_vessel_card(flow, card)

    def draw(surface: Surface) -> None:
        draw_numbered(surface, sheet, draw_cards)

    return write_pdf(path, draw, title=texts(N_("Vessel cards")), language=texts.language)


class _Files:
    """Names of files that every system takes, each given once."""

    def __init__(self, workspace: Workspace, folder: Path) -> None:
        self._texts = workspace.texts
        self._folder = folder
        self._given: set[str] = set()

    def next(self, kind: str, more: str = "") -> Path:
        """What a paper is and of what, in letters, digits and hyphens; numbered from the second."""
        plain = unicodedata.normalize("NFKD", f"{self._texts(kind)} {more}")
        kept = "".join(one for one in plain if not unicodedata.combining(one))
        stem = re.sub(r"[^\w]+", "-", kept).strip("-").lower()[:_LONGEST_NAME].rstrip("-")
        names = (stem, *(f"{stem}-{number}" for number in range(2, len(self._given) + 3)))
        name = next(name for name in names if name not in self._given)
        self._given.add(name)
        return self._folder / f"{name}.pdf"
