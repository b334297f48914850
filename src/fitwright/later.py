"""A module that is imported only when something of it is asked for.

The kernel's bindings import all of `vtk` (130 modules, 0.6 s) on the way, for viewers that a worker never opens.
CadQuery itself takes the few modules that it does need from `vtkmodules`. The standard library's LazyLoader is no help:
the import statement itself already asks it for something.
"""

from __future__ import annotations

import sys
from importlib import import_module
from types import ModuleType
from typing import Any


class Later(ModuleType):
    """Stands for the module of its name until an attribute of it is asked for; then the real one takes its place."""

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__") and name != "__all__":  # asked by the import system about the module, not of it
            raise AttributeError(name)
        if sys.modules.get(self.__name__) is self:
            del sys.modules[self.__name__]
        return getattr(import_module(self.__name__), name)


def import_later(name: str) -> None:
    """Let `import name` do nothing yet, unless it has been imported already. For a process of our own only."""
    if name not in sys.modules:
        sys.modules[name] = Later(name)
