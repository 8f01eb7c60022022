"""What holds of every test: what is shared of the examples is, at the end, what it was."""

import known
import pytest


@pytest.fixture(scope="session", autouse=True)
def unchanged():
    """Hold what the tests were given of the examples against a fresh check, when all are done."""
    yield
    known.unchanged()
