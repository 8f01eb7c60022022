"""The end of a run: the process leaves as soon as its verdict is written."""

import os
import sys

import pytest

_STATUS = pytest.StashKey[int]()


def pytest_sessionfinish(session, exitstatus):
    """Keep the verdict."""
    session.config.stash[_STATUS] = int(exitstatus)


@pytest.hookimpl(trylast=True)
def pytest_unconfigure(config):
    """Leave at once where Qt was used.

    After the whole tour of the window Qt crashes while Python takes its objects apart, when every
    test is over; which of the dialogs leaves that behind is not found yet.
    """
    if "PySide6" in sys.modules and _STATUS in config.stash:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(config.stash[_STATUS])
