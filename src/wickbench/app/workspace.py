"""The open workshop: one door for reading, one for steps, undo and redo, and who wants to know."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from wickbench.app.kinds_of_change import Changes, changes_of
from wickbench.app.questions import Ask
from wickbench.app.settings import Settings
from wickbench.app.texts import Texts
from wickbench.app.user_settings import UserSettings
from wickbench.storage import state, workshop_file
from wickbench.storage.clock import Clock

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator, Mapping

    from wickbench.storage.workshop_file import Connection, WorkshopFile


_WHAT = "\x1f"


def act(name: str, what: str) -> str:
    """A label for a step that names what it was done to: two msgids, translated when shown.

    Args:
        name: with ``{what}`` in it.
        what: goes there.
    """
    return f"{name}{_WHAT}{what}"


@dataclass(frozen=True, slots=True)
class Services:
    """What main builds once and hands to whoever opens a workshop."""

    clock: Clock
    texts: Texts
    ask: Ask
    backup_folder: Path | None = None
    user: UserSettings = field(default_factory=UserSettings)


class Workspace:
    """An open workshop file with its texts, clock and listeners.

    All reads go through ``read``, all changes through ``step`` or ``unjournalled``.
    """

    def __init__(self, file: WorkshopFile, services: Services) -> None:
        self._file = file
        self._listeners: list[Callable[[Changes], None]] = []
        self.services = services
        self.clock = services.clock
        self.ask = services.ask
        self._load_settings()

    @classmethod
    def create(cls, path: Path, services: Services) -> Workspace:
        """Make a new workshop file.

        Raises:
            FileRefused: it exists already or cannot be written there.
        """
        return cls(workshop_file.create(path, clock=services.clock, made_by="wickbench"), services)

    @classmethod
    def open(cls, path: Path, services: Services) -> Workspace:
        """Open a workshop file.

        Raises:
            FileRefused: with a sentence for each reason.
        """
        opened = workshop_file.open_workshop(
            path, clock=services.clock, backup_folder=services.backup_folder
        )
        return cls(opened, services)

    def _load_settings(self) -> None:
        with self.read() as connection:
            self.settings = Settings(state.settings(connection))
        self.texts = self.services.texts.with_units(self.settings.units)

    @property
    def path(self) -> Path:
        """Where the file is."""
        return self._file.path

    @property
    def name(self) -> str:
        """The file's name without its suffix."""
        return self._file.path.stem

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A door for reading; inside a step it sees the step's own changes."""
        with self._file.read() as connection:
            yield connection

    @contextmanager
    def step(
        self, label: str, *, merge: Hashable | None = None, origin: object = None
    ) -> Iterator[Connection]:
        """One undoable act, all or nothing; ``label`` is a msgid in the imperative."""
        with self._file.step(label, merge=merge) as connection:
            yield connection
        self._tell(changes_of(self._file.last_tables, origin))

    @contextmanager
    def unjournalled(self, *kinds: str, origin: object = None) -> Iterator[Connection]:
        """For settings, counters, drafts and print records, which undo leaves alone."""
        with self._file.unjournalled() as connection:
            yield connection
        if "settings" in kinds:
            self._load_settings()
        self._tell(Changes(frozenset(kinds), origin))

    def undo(self, origin: object = None) -> None:
        """Take the last step back."""
        self._tell(changes_of(self._file.undo().tables, origin))

    def redo(self, origin: object = None) -> None:
        """Do the step again that was taken back."""
        self._tell(changes_of(self._file.redo().tables, origin))

    @property
    def may_undo(self) -> bool:
        """Whether there is a step to take back."""
        return self._file.may_undo

    @property
    def may_redo(self) -> bool:
        """Whether there is a step to do again."""
        return self._file.may_redo

    @property
    def undo_label(self) -> str:
        """The act that undo would take back, in the person's language."""
        return self._said(self._file.undo_label)

    @property
    def redo_label(self) -> str:
        """The act that redo would do again, in the person's language."""
        return self._said(self._file.redo_label)

    def _said(self, label: str | None) -> str:
        name, _, what = (label or "").partition(_WHAT)
        return self.texts(name, what=self.texts(what)) if what else self.texts(name)

    def subscribe(self, listener: Callable[[Changes], None]) -> Callable[[], None]:
        """Be told after each change; call what is returned to stop."""
        self._listeners.append(listener)

        def stop() -> None:
            if listener in self._listeners:
                self._listeners.remove(listener)

        return stop

    def _tell(self, changes: Changes) -> None:
        if changes.kinds:
            for listener in tuple(self._listeners):
                # One that was told before may have closed this one.
                if listener in self._listeners:
                    listener(changes)

    def set_setting(self, name: str, value: object, origin: object = None) -> None:
        """Store a setting of the file; ``None`` brings the default back."""
        self.set_settings({name: value}, origin)

    def set_settings(self, values: Mapping[str, object], origin: object = None) -> None:
        """Store several settings of the file at once; everybody is told once."""
        with self.unjournalled("settings", origin=origin) as connection:
            for name, value in values.items():
                state.set_setting(connection, name, value)

    def save_copy(self, path: Path) -> None:
        """Write a verified copy beside; the open file stays this one."""
        self._file.save_copy(path)

    def seal(self, *tables: str) -> None:
        """Booked facts of these tables left the file on paper: undo no longer takes them back."""
        self._file.seal(*tables)

    def close(self) -> None:
        """Close the file; the workspace is of no use afterwards."""
        self._listeners.clear()
        self._file.close()
