"""The examples in the docstrings of the hanger's mechanics are true."""

import doctest

import pytest

from fitwright.physics import arm, batten, carried, fixing, machine_screws, wood, wood_edges, wood_joint, wood_shear

MODULES = (arm, batten, carried, fixing, machine_screws, wood, wood_edges, wood_joint, wood_shear)


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__.rsplit(".", 1)[-1])
def test_examples(module):
    found = doctest.testmod(module)
    assert found.attempted and not found.failed
