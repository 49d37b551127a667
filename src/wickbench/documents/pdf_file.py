"""A PDF written whole or not at all: beside its place first, then renamed."""

from __future__ import annotations

import errno
import os
import secrets
from typing import TYPE_CHECKING

from wickbench.documents.pdf import PdfSurface
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Iterable
    from pathlib import Path

    from wickbench.documents.surface import Surface

_FULL = (errno.ENOSPC, errno.EDQUOT) if hasattr(errno, "EDQUOT") else (errno.ENOSPC,)


def pdf_bytes(
    draw: Callable[[Surface], None],
    *,
    title: str,
    language: str = "",
    author: str = "",
    invariant: bool = False,
    compress: bool = True,
) -> bytes:
    """Draw a document and give its bytes.

    Args:
        draw: draws every page on the surface.
        title: shown in the window of the reading program.
        language: BCP 47, for example ``"en-GB"``.
        author: name of the business, if any.
        invariant: equal drawings give equal bytes.
        compress: pack the streams.
    """
    surface = PdfSurface(invariant=invariant, compress=compress)
    surface.describe(title=title, language=language, author=author)
    draw(surface)
    return surface.finish()


def write_pdf(
    path: Path,
    draw: Callable[[Surface], None],
    *,
    title: str,
    language: str = "",
    author: str = "",
    invariant: bool = False,
) -> Path:
    """Draw a document and put it at a path, over what was there.

    Raises:
        DomainError: ``paper.is-folder``, ``paper.folder-missing``, ``paper.folder-read-only``,
            ``paper.disk-full``, ``paper.file-in-use``, ``paper.not-written``; what drawing raises.
    """
    _refuse_folder(path)
    data = pdf_bytes(draw, title=title, language=language, author=author, invariant=invariant)
    return _put(path, data)


def write_pages(
    path: Path,
    draws: Iterable[Callable[[Surface], None]],
    *,
    title: str,
    language: str = "",
    author: str = "",
    invariant: bool = False,
) -> Generator[int, None, Path]:
    """Draw a document page by page; gives after each how many are drawn, at the end the path.

    The file is there when all is done; whoever stops before leaves nothing behind.

    Args:
        path: where it goes, over what was there.
        draws: draws one page each.
        title: shown in the window of the reading program.
        language: BCP 47.
        author: name of the business, if any.
        invariant: equal drawings give equal bytes.

    Raises:
        DomainError: as `write_pdf`.
    """
    _refuse_folder(path)
    surface = PdfSurface(invariant=invariant)
    surface.describe(title=title, language=language, author=author)
    for done, draw in enumerate(draws, 1):
        draw(surface)
        yield done
    return _put(path, surface.finish())


def _refuse_folder(path: Path) -> None:
    if path.is_dir():
        raise DomainError("paper.is-folder", path=str(path))


def _put(path: Path, data: bytes) -> Path:
    """Write beside first, then rename."""
    try:
        beside = _write_beside(path, data)
    except OSError as error:
        raise DomainError(_key_for(error), path=str(path), folder=str(path.parent)) from error
    try:
        beside.replace(path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise DomainError("paper.file-in-use", path=str(path)) from error
    return path


def _write_beside(path: Path, data: bytes) -> Path:
    beside = path.with_name(f".{path.stem}-{secrets.token_hex(4)}.part")
    try:
        with beside.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        beside.unlink(missing_ok=True)
        raise
    return beside


def _key_for(error: OSError) -> str:
    if error.errno in _FULL:
        return "paper.disk-full"
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return "paper.folder-missing"
    if isinstance(error, PermissionError) or error.errno == errno.EROFS:
        return "paper.folder-read-only"
    return "paper.not-written"
