"""The example's two editions, published once."""

from __future__ import annotations

import pytest
from example_site import EXAMPLE, Site, publish


@pytest.fixture(scope="session")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Site:
    return publish(tmp_path_factory.mktemp("workshop") / "manual", EXAMPLE.read_bytes(), "workshop")


@pytest.fixture(scope="session")
def owner(tmp_path_factory: pytest.TempPathFactory) -> Site:
    return publish(tmp_path_factory.mktemp("owner") / "manual", EXAMPLE.read_bytes(), "owner")


@pytest.fixture(params=["workshop", "owner"])
def site(request: pytest.FixtureRequest) -> Site:
    found: Site = request.getfixturevalue(request.param)
    return found
