"""Sentences about papers as files, pictures and typefaces."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "paper.is-folder": N_("{path} is a folder. Type a file name inside it."),
    "paper.folder-missing": N_("The folder {folder} is not there any more. Choose another one."),
    "paper.folder-read-only": N_("Nothing may be written to {folder}. Choose another folder."),
    "paper.disk-full": N_(
        "There is no room left for {path}. Free some space, or choose another drive."
    ),
    "paper.file-in-use": N_(
        "{path} cannot be replaced; it may be open in another program. Close it there and try"
        " again, or choose another name."
    ),
    "paper.not-written": N_("{path} could not be written. Choose another folder."),
    "recipe-card.nothing": N_(
        "No recipe has any wax yet. Add a wax to a recipe, then there is something to write."
    ),
    "picture.damaged": N_(
        "This picture is damaged or of an unknown kind. Open it in a picture program, save it"
        " as PNG or JPEG, and choose it again."
    ),
    "picture.too-large": N_(
        "This picture has too many dots to be opened safely. Make it smaller in a picture "
        "program and choose it again."
    ),
    "typeface.unreadable": N_("{file} is no font that can be printed with."),
    "typeface.not-found": N_("{family} {style} is not installed. Choose another typeface."),
}
