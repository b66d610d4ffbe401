"""A browser for the tests of a file, where there is one."""

import pytest
from pages import browser as chromium


@pytest.fixture(scope="module")
def browser():
    with chromium() as started:
        yield started
