"""Helpers of the tests in this folder: YAML that must load, YAML that must be refused."""

from __future__ import annotations

import textwrap

import pytest

from fitwright.errors import Problem, SpecError
from fitwright.spec.load import load_text
from fitwright.spec.models import PartSpec

MINIMUM = """
part: reducer
end_a: {socket: {over: 107.1}}
end_b: {hose_tail: {hose_inside: 100}}
"""
HOSE_END = "end_b: {hose_tail: {hose_inside: 100}}\n"
PIPE_END = "end_a: {socket: {over: 107.1}}\n"


def loaded(text: str, name: str = "part.yaml") -> PartSpec:
    """The one part of this YAML."""
    (spec,) = load_text(textwrap.dedent(text), name)
    return spec


def refused(text: str, name: str = "part.yaml") -> list[Problem]:
    """The problems of YAML that must not load; each has a place."""
    with pytest.raises(SpecError) as raised:
        load_text(textwrap.dedent(text), name)
    for problem in raised.value.problems:
        assert problem.line > 0 and problem.column > 0 and problem.key, problem
        assert problem.file == name and problem.found and problem.allowed, problem
        assert "\n" not in str(problem)
    return raised.value.problems


def only(text: str) -> Problem:
    """The one problem of YAML that must not load."""
    (problem,) = refused(text)
    return problem


def end_a(joint: str, more: str = "") -> str:
    """A reducer with this joint as its end_a."""
    return f"part: reducer\nend_a: {joint}\n{HOSE_END}{more}"
