"""Papers as files, pages and flowing text."""

from __future__ import annotations

import errno
import io
from typing import TYPE_CHECKING

import pdfplumber
import pypdfium2
import pytest
from PIL import Image

from documents.samples import MM, png, sample_face
from wickbench.app.texts import all_sentences
from wickbench.documents.flow import Cell, Flow, PaperFaces
from wickbench.documents.page import A4_MM, LETTER_MM, page_name, page_size_mm
from wickbench.documents.pdf_file import pdf_bytes, write_pdf
from wickbench.documents.pictures import open_picture, picture_for_paper, picture_size
from wickbench.documents.surface import RecordingSurface, Surface
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from pathlib import Path


def _faces() -> PaperFaces:
    return PaperFaces(sample_face("sans"), sample_face("serif"))


def _names(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir()]


def _blank(surface: Surface) -> None:
    surface.begin_page(100, 100)


def test_a_paper_replaces_the_one_before_and_leaves_nothing_beside(tmp_path: Path) -> None:
    path = tmp_path / "labels.pdf"
    path.write_bytes(b"old")
    assert write_pdf(path, _blank, title="Labels") == path
    assert len(pypdfium2.PdfDocument(path)) == 1
    assert _names(tmp_path) == ["labels.pdf"]


def test_a_drawing_that_fails_leaves_the_old_paper(tmp_path: Path) -> None:
    path = tmp_path / "labels.pdf"
    path.write_bytes(b"old")
    with pytest.raises(DomainError):
        write_pdf(path, lambda s: s.image(b"", 0, 0, 1, 1), title="Labels")
    assert path.read_bytes() == b"old"
    assert _names(tmp_path) == ["labels.pdf"]


def test_each_reason_has_its_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def key(path: Path) -> str:
        with pytest.raises(DomainError) as caught:
            write_pdf(path, _blank, title="x")
        assert all_sentences()[caught.value.key].format(**caught.value.data)
        return caught.value.key

    assert key(tmp_path) == "paper.is-folder"
    assert key(tmp_path / "gone" / "a.pdf") == "paper.folder-missing"
    (tmp_path / "file").write_bytes(b"")
    assert key(tmp_path / "file" / "a.pdf") == "paper.folder-missing"
    for number, wanted in (
        (errno.ENOSPC, "paper.disk-full"),
        (errno.EACCES, "paper.folder-read-only"),
        (errno.EROFS, "paper.folder-read-only"),
        (errno.EIO, "paper.not-written"),
    ):

        def fail(_handle: int, number: int = number) -> None:
            raise OSError(number, "no")

        monkeypatch.setattr("wickbench.documents.pdf_file.os.fsync", fail)
        assert key(tmp_path / "a.pdf") == wanted
    assert _names(tmp_path) == ["file"]


def test_a_paper_open_elsewhere_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def locked(_self: object, _target: object) -> None:
        raise PermissionError(errno.EACCES, "open elsewhere")

    monkeypatch.setattr("pathlib.Path.replace", locked)
    with pytest.raises(DomainError) as caught:
        write_pdf(tmp_path / "a.pdf", _blank, title="x")
    assert caught.value.key == "paper.file-in-use"
    assert _names(tmp_path) == []


def test_pages_are_known_by_their_measures() -> None:
    assert page_name(*A4_MM) == "a4"
    assert page_name(279.4, 215.9) == "letter"
    assert page_name(100, 150) == "free"
    assert page_size_mm("Letter") == LETTER_MM
    assert page_size_mm("unheard of") == A4_MM


def test_pictures_stand_upright_and_lose_what_the_camera_wrote() -> None:
    out = io.BytesIO()
    tags = Image.Exif()
    tags[0x0112] = 6  # Exif 2.32, 4.6.4: row 0 is the right side of the picture
    tags[0x010F] = "Camera"
    Image.new("RGB", (40, 20), (10, 200, 30)).save(out, "JPEG", exif=tags)
    size = picture_size(out.getvalue())
    assert (size.width_px, size.height_px) == (20, 40)
    plain = io.BytesIO()
    tags[0x0112] = 1
    Image.new("RGB", (40, 20), (10, 200, 30)).save(plain, "JPEG", exif=tags)
    kept = picture_for_paper(plain.getvalue())
    assert isinstance(kept, io.BytesIO)
    assert b"Camera" not in kept.getvalue()
    assert b"Camera" in plain.getvalue()


def test_a_picture_that_would_fill_the_memory_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 100)
    for side in (12, 40):
        with pytest.raises(DomainError) as caught:
            open_picture(png(side, side))
        assert caught.value.key == "picture.too-large"


@pytest.mark.parametrize(
    ("kind", "mode"),
    [
        *(("PNG", mode) for mode in ("1", "L", "P", "RGB", "RGBA", "LA", "I;16")),
        *(("TIFF", mode) for mode in ("1", "L", "P", "RGB", "RGBA", "LA", "CMYK", "I;16")),
        *(("JPEG", mode) for mode in ("1", "L", "RGB", "CMYK")),
    ],
)
def test_every_kind_of_picture_reaches_the_paper(kind: str, mode: str) -> None:
    out = io.BytesIO()
    Image.new(mode, (8, 8)).save(out, kind)

    def draw(surface: Surface) -> None:
        surface.begin_page(50, 50)
        surface.image(out.getvalue(), 10, 10, 20, 20)

    with pdfplumber.open(io.BytesIO(pdf_bytes(draw, title="x"))) as document:
        assert len(document.pages[0].images) == 1


def test_rows_keep_their_columns_and_figures_stand_right() -> None:
    record = RecordingSurface()
    flow = Flow(record, _faces(), 210, 297, margin_mm=15)
    for figure in ("3070 g", "8.4 g"):
        flow.row([Cell("Soy wax", 3), Cell(figure, 1, "right", 14)], rule=True)
    rights = [one.x_mm + one.run.width_mm(one.size_pt) for one in record.texts if one.size_pt == 14]
    assert rights == pytest.approx([210 - 15 - 2] * 2)
    lines = [one.y_mm for one in record.texts]
    assert lines[0] == lines[1] < lines[2] == lines[3]


def test_text_goes_over_pages_and_rows_are_never_split() -> None:
    record = RecordingSurface()
    footers: list[int] = []
    flow = Flow(record, _faces(), 210, 297, 20, lambda _surface, number: footers.append(number))
    for at in range(60):
        flow.row([Cell(f"Row {at} " + "word " * 40, 1, size_pt=12), Cell("x", 0.2, size_pt=12)])
    assert len(record.pages) == flow.pages == len(footers) > 1
    assert all(20 < one.y_mm < 297 - 20 for one in record.texts)
    for at in range(60):
        first = next(one for one in record.texts if one.run.text.startswith(f"Row {at} "))
        beside = [o for o in record.texts if o.page == first.page and o.y_mm == first.y_mm]
        assert len(beside) == 2


def test_boxes_rules_and_lines_to_write_on_are_drawn() -> None:
    def draw(surface: Surface) -> None:
        flow = Flow(surface, _faces(), 210, 297)
        flow.heading("Weigh <b>sheet</b>")
        flow.tick("Wicks centred", 14)
        flow.rule()
        flow.writing_lines(3)
        flow.keep(500)
        flow.text("last")

    with pdfplumber.open(io.BytesIO(pdf_bytes(draw, title="x"))) as document:
        first, second = document.pages
        assert "Weigh <b>sheet</b>" in first.extract_text()
        assert first.rects[0]["width"] * MM == pytest.approx(14 * MM, abs=0.05)
        assert len(first.lines) == 4
        assert second.extract_text() == "last"
