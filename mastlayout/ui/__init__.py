"""The window; the only room that knows Qt."""

import builtins

import PySide6.QtCore  # noqa: F401 - it hooks itself into every import

# The hook reads the source of each module for PySide6's `__feature__`, which nothing here asks for.
builtins.__import__ = getattr(builtins, "__orig_import__", builtins.__import__)

# Python 3.11 keeps its frames in pieces of 16 kB: a long import that stands at the edge of one, as these
# would below twenty imports of ours, takes a piece and gives it back with every call. So they come first.
import numpy  # noqa: E402, F401, ICN001

import mastlayout.model.layout  # noqa: E402, F401
