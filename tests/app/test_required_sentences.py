"""Every rule about a label's texts that can be told has its words: keys are made of two halves."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from wickbench.app import label_rules
from wickbench.app.sentences.required_texts import SENTENCES

APP = Path(label_rules.__file__).parent
ROOMS = ("required_texts", "required_net", "required_place", "required_heights")
KEY = re.compile(r"[a-z]+(-[a-z]+)+")


def told_in(room: str) -> set[str]:
    """Second halves of the keys that a module hands to ``ruled``."""
    tree = ast.parse((APP / f"{room}.py").read_text(encoding="utf-8"))
    calls = [one for one in ast.walk(tree) if isinstance(one, ast.Call)]
    asked = {
        argument.value
        for call in calls
        if isinstance(call.func, ast.Name) and call.func.id in {"rule_of", "rules_of"}
        for argument in call.args
        if isinstance(argument, ast.Constant)
    }
    words = {
        one.value
        for one in ast.walk(tree)
        if isinstance(one, ast.Constant) and isinstance(one.value, str)
    }
    return {word for word in words if KEY.fullmatch(word)} - asked


@pytest.mark.parametrize("room", ROOMS)
def test_what_is_told_has_a_sentence(room: str) -> None:
    assert {key for key in told_in(room) if f"required.{key}" not in SENTENCES} == set()


def test_there_is_something_to_look_at() -> None:
    assert len(set().union(*map(told_in, ROOMS))) > 20
