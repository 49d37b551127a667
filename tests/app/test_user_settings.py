"""Settings of the person: kept in a file, and a damaged file costs settings, never the start."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickbench.app.user_settings import MOST_RECENT, UserSettings

if TYPE_CHECKING:
    from pathlib import Path


def test_settings_are_there_at_the_next_start(tmp_path: Path) -> None:
    file = tmp_path / "new folder" / "settings.json"
    UserSettings(file).set_text("theme", "dark")
    assert UserSettings(file).text("theme") == "dark"
    assert UserSettings(file).text("language") == "en"


@pytest.mark.parametrize("content", ["", "{", "[1, 2]", '{"theme": 7, "recent_files": "x"}', "\0"])
def test_a_damaged_file_means_defaults(tmp_path: Path, content: str) -> None:
    file = tmp_path / "settings.json"
    file.write_text(content, encoding="utf-8")
    settings = UserSettings(file)
    assert settings.text("theme") == "system"
    assert settings.recent_files == ()


def test_an_unknown_setting_is_a_bug_of_ours() -> None:
    with pytest.raises(KeyError):
        UserSettings(None).set_text("themes", "dark")
    with pytest.raises(KeyError):
        UserSettings(None).text("themes")


def test_recent_files_are_newest_first_once_each_and_only_while_they_exist(tmp_path: Path) -> None:
    settings = UserSettings(None)
    files = [tmp_path / f"{number}.wickbench" for number in range(MOST_RECENT + 2)]
    for file in files:
        file.touch()
        settings.remember_file(file)
    settings.remember_file(files[5])
    assert settings.recent_files[0] == files[5]
    assert len(settings.recent_files) == len(set(settings.recent_files)) == MOST_RECENT
    files[5].unlink()
    assert files[5] not in settings.recent_files


def test_a_folder_that_cannot_be_written_costs_nothing_else(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.touch()
    settings = UserSettings(blocked / "settings.json")
    settings.set_text("theme", "dark")
    assert settings.text("theme") == "dark"
