"""What holds of every test: the longest files first, the same draws, what is shared of the examples stays."""

import pytest
from hypothesis import settings

# A short form draws the same examples in every run, so that it tells of the change it is run for; the
# long forms draw others each time.
settings.register_profile("short", derandomize=True, deadline=None, database=None)
settings.register_profile("long", derandomize=False, deadline=None, database=None)
settings.load_profile("short")

# What is held against what is said where it differs, as in a test's own file.
pytest.register_assert_rewrite("agreement")

import known  # noqa: E402 - it imports what was just named

# A file is one worker's; begun last, one of these would leave the other workers idle.
_LONGEST = (
    "ui/test_machine.py",
    "ui/tour/test_tour.py",
    "places/test_suggest.py",
    "checks/test_kept_reports.py",
    "test_house.py",
    "ui/section/test_section_panel.py",
    "ui/test_files.py",
    "ui/test_window.py",
    "ui/test_arrangement.py",
    "test_command_line.py",
    "ui/tour/test_plain_words.py",
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the longest files first; --no-loadscope-reorder keeps it so."""

    def turn(item: pytest.Item) -> int:
        path = item.path.as_posix()
        return next((at for at, name in enumerate(_LONGEST) if path.endswith(f"tests/{name}")), len(_LONGEST))

    items.sort(key=turn)


@pytest.fixture(scope="session", autouse=True)
def unchanged():
    """Hold what the tests were given of the examples against a fresh check, when all are done."""
    yield
    known.unchanged()
