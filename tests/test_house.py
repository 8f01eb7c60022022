"""The house rules that a machine can hold: imports in one direction, light commands, one test command."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
TEST_COMMAND = (
    "python3 -m venv .venv && .venv/bin/pip install --quiet --editable '.[test]' && .venv/bin/pytest"
)


def run(*command):
    """Run a command of this Python in the project's root."""
    return subprocess.run([sys.executable, *command], cwd=ROOT, capture_output=True, text=True, check=False)


def test_rooms_import_only_to_their_right():
    """Every contract of import-linter in pyproject.toml holds."""
    done = run("-c", "from importlinter.cli import lint_imports_command as c; c()")
    assert done.returncode == 0, done.stdout + done.stderr


def test_lint_is_clean():
    """Ruff finds nothing, and every exception it is told of carries its reason."""
    done = run("-m", "ruff", "check", ".")
    assert done.returncode == 0, done.stdout


def test_types_are_strict_below_the_window():
    """Mypy --strict finds nothing."""
    done = run("-m", "mypy")
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("command", ["check", "ranges"])
def test_a_command_without_paper_imports_no_heavy_library(command):
    """Check and ranges load no units library, no Qt, no PDF and no drawing library."""
    code = (
        "import sys; from mastlayout.__main__ import main; main(sys.argv[1:]);"
        "heavy = ('pint', 'PySide6', 'reportlab', 'ezdxf');"
        "sys.exit(' '.join(m for m in heavy if m in sys.modules) or 0)"
    )
    done = run("-c", code, command, "demo_masts/whimbrel.toml")
    assert done.returncode == 0, done.stderr


def test_the_readme_names_the_command_that_ci_runs():
    """One test command, in the README and in .ci/run alike."""
    assert TEST_COMMAND in (ROOT / "README.md").read_text(encoding="utf-8")
    assert TEST_COMMAND in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_qt_is_pinned_below_the_version_that_crashes():
    """PySide6 6.12.0 aborts under Python 3.11."""
    assert '"PySide6-Essentials>=6.8,<6.12"' in (ROOT / "pyproject.toml").read_text(encoding="utf-8")


def test_no_module_is_over_five_hundred_lines():
    """A module that long is two modules."""
    long = [p for p in (ROOT / "mastlayout").rglob("*.py") if p.read_text(encoding="utf-8").count("\n") > 500]
    assert not long
