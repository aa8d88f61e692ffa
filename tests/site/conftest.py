"""The example, published once a session in each edition."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from published import EDITIONS, EXAMPLE, Site, published


@pytest.fixture(scope="session")
def sites(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Site]:
    """Both editions of the example."""
    folder = tmp_path_factory.mktemp("example")
    return {name: published(EXAMPLE.read_bytes(), name, folder / name) for name in EDITIONS}


@pytest.fixture(scope="session", params=EDITIONS)
def site(request: pytest.FixtureRequest, sites: Mapping[str, Site]) -> Site:
    """One edition of the example after the other."""
    return sites[request.param]


@pytest.fixture(scope="session")
def workshop(sites: Mapping[str, Site]) -> Site:
    return sites["workshop"]


@pytest.fixture(scope="session")
def owner(sites: Mapping[str, Site]) -> Site:
    return sites["owner"]
