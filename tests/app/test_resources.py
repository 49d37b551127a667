from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickbench.app import resources

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Path, Path]:
    installed, checkout = tmp_path / "_resources", tmp_path / "resources"
    monkeypatch.setattr(resources, "resource_folders", lambda: (installed, checkout))
    checkout.mkdir()
    return installed, checkout


def write(folder: Path, name: str, text: str) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")
    return folder / name


def test_the_two_places_are_the_package_and_the_checkout() -> None:
    installed, checkout = resources.resource_folders()
    assert installed.name == "_resources"
    assert (installed.parent / "py.typed").is_file()
    assert (checkout.parent / "pyproject.toml").is_file()


def test_a_checkout_serves_what_is_not_installed(folders: tuple[Path, Path]) -> None:
    written = write(folders[1], "a.json", '{"jar": "Gläser"}')
    assert resources.resource_path("a.json") == written
    assert resources.read_json("a.json") == {"jar": "Gläser"}


def test_the_installed_file_comes_first(folders: tuple[Path, Path]) -> None:
    write(folders[1], "a.json", "1")
    write(folders[0], "a.json", "2")
    assert resources.read_json("a.json") == 2


def test_a_missing_file_is_named(folders: tuple[Path, Path]) -> None:
    del folders
    with pytest.raises(resources.ResourceMissing) as caught:
        resources.resource_path("icons", "no-such.svg")
    assert caught.value.key == "program.resource-missing"
    assert caught.value.data == {"name": "icons/no-such.svg"}


@pytest.mark.parametrize("text", ["", "{", '{"a": 1'])
def test_a_damaged_file_is_named(folders: tuple[Path, Path], text: str) -> None:
    write(folders[1], "a.json", text)
    with pytest.raises(resources.ResourceMissing) as caught:
        resources.read_json("a.json")
    assert caught.value.key == "program.resource-damaged"
    assert caught.value.data == {"name": "a.json"}
