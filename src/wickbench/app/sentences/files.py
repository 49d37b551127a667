"""Sentences about the workshop file: opening, keeping changes, undo, backups."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    # Opening and making a file
    "file.missing": N_(
        "“{name}” is not there any more. It may have been moved or renamed, or the drive it is "
        "on is not connected."
    ),
    "file.empty": N_("“{name}” is an empty file. Choose another one, or open a backup."),
    "file.not-ours": N_(
        "“{name}” is not a workshop file, or its beginning is damaged. Choose another file, or "
        "open a backup."
    ),
    "file.newer": N_(
        "“{name}” was written by a newer version of this program. Update the program to open it."
    ),
    "file.damaged": N_(
        "“{name}” is damaged and was left as it is. Open the newest backup instead."
    ),
    "file.locked": N_(
        "“{name}” is already open in another window. Close it there first, then try again."
    ),
    "file.read-only": N_(
        "“{name}” cannot be changed where it is: the file or its folder allows reading only. "
        "Copy it to a folder of your own and open it there."
    ),
    "file.folder-closed": N_(
        "“{name}” cannot be written there: the folder allows reading only. Choose a folder of your "
        "own."
    ),
    "file.folder": N_("“{name}” is a folder. Choose a workshop file in it."),
    "file.no-room": N_("There is no room left on the drive of “{name}”. Make room and try again."),
    "file.disk-error": N_(
        "The drive of “{name}” did not answer as it should. Check that it is connected, and try "
        "again."
    ),
    "file.exists": N_("There is already something called “{name}”. Choose another name."),
    "file.no-folder": N_("The folder “{name}” is not there. Choose another one."),
    "file.same": N_("“{name}” is the file that is open. Choose another name for the copy."),
    "file.not-updated": N_(
        "“{name}” could not be brought up to date for this version, and was left as it is. Its "
        "backup is beside it or in the backup folder."
    ),
    # Keeping changes
    "storage.no-room": N_(
        "The drive is full, so this was not stored. Make room, then do it again; nothing else was "
        "lost."
    ),
    "storage.disk-error": N_(
        "The drive did not answer as it should, so this was not stored. Check that it is "
        "connected, then do it again."
    ),
    "storage.read-only": N_(
        "The file may no longer be changed where it is, so this was not stored. Save a copy in a "
        "folder of your own and go on there."
    ),
    "storage.moved": N_(
        "The workshop file was moved, renamed or deleted while it was open, so this was not "
        "stored. Put it back, or save a copy and go on there."
    ),
    "storage.locked": N_(
        "Another program holds the workshop file, so this was not stored. Wait a moment, then do "
        "it again."
    ),
    "storage.damaged": N_(
        "The workshop file is damaged, so this was not stored. Close it and open the newest backup."
    ),
    "storage.nul": N_(
        "This text has a character in it that cannot be kept. Type it by hand instead of pasting."
    ),
    "storage.not-finite": N_("This number has no end. Enter an ordinary number."),
    "storage.too-large": N_("This number is too large to be kept. Enter a smaller one."),
    "storage.not-whole": N_("Enter a whole number here."),
    "storage.not-a-date": N_("Enter a day that is in the calendar."),
    "storage.negative": N_("This cannot be less than nothing. Enter zero or more."),
    "storage.in-use": N_(
        "This is still used elsewhere. Take it out there first, or archive it instead."
    ),
    "storage.gone": N_("This is not there any more; it was removed in the meantime."),
    "storage.booked": N_(
        "This is already booked and stays as it is. Enter a correction that balances it."
    ),
    # Undo
    "storage.nothing-to-undo": N_("There is nothing to undo or redo."),
    "storage.booked-earlier": N_(
        "This was booked on an earlier day and stays as it is. Enter a correction that balances it."
    ),
    "storage.on-paper": N_(
        "This was already printed or handed on, so it stays as it is. Enter a correction that "
        "balances it."
    ),
    # Backups
    "backup.not-written": N_(
        "No backup could be written to “{name}”. Check the folder, or choose another in the "
        "settings."
    ),
    "backup.damaged": N_("The copy “{name}” did not pass its check and was thrown away."),
}
