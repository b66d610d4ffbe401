"""Profiles of hypothesis, and the commands of the program as fixtures."""

import os
from pathlib import Path

import pytest
import running
from hypothesis import settings
from remembered import MEMORY
from thorough import PROFILE

import outrigger

# a process that a test starts runs this program, whatever else is installed
ROOT = str(Path(outrigger.__file__).parents[1])
os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, [ROOT, os.environ.get("PYTHONPATH")]))

settings.register_profile("default", deadline=None, derandomize=True, max_examples=100)
settings.register_profile(
    "thorough", deadline=None, derandomize="CI" in os.environ, max_examples=1000
)
settings.load_profile(PROFILE)
MEMORY.wrap()
REMEMBERING = ("commands", "report", "page", "library")


def pytest_runtest_setup(item):
    """Studies are remembered where commands and pages are looked at, not where the physics is
    changed under them."""
    MEMORY.on = item.path.parent.name in REMEMBERING


@pytest.fixture(scope="session")
def run():
    """Runs a command in this process: run("check", path, "gap=9 in", width=40, folder=tmp_path)."""
    return running.run


@pytest.fixture(scope="session")
def process():
    """Runs a command in a process of its own, for what only a process shows."""
    return running.process
