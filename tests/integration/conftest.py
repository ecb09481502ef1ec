"""Row makers for tests of the records."""

import pytest
import rows as row_makers


@pytest.fixture
def rows():
    return row_makers
