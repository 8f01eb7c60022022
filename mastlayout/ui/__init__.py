"""The window; the only room that knows Qt."""

import builtins

import PySide6.QtCore  # noqa: F401 - it hooks itself into every import

# The hook reads the source of each module for PySide6's `__feature__`, which nothing here asks for.
builtins.__import__ = getattr(builtins, "__orig_import__", builtins.__import__)
