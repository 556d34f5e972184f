from __future__ import annotations

import pytest

from hubwright.engineering.tyrewheel.from_sizes import rim_of, tyre_of
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.parts.rim_size import read_rim_size
from hubwright.parts.tyre_size import read_tyre_size


@pytest.fixture
def tyre() -> MountedTyre:
    """235/40R18 on 8J, measured 239 mm wide."""
    return tyre_of(read_tyre_size("235/40R18"), rim_of(read_rim_size("8Jx18 ET45")), section_width_read_mm=239.0)
