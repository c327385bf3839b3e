"""The same batch on a cluster: the same bytes, and a plain word where there is none."""

import builtins
from collections.abc import Iterator
from typing import Any

import pytest

from render.batch.cluster import ClusterError, connected
from tests.render.batch.companies import files, pages

distributed = pytest.importorskip("distributed")


@pytest.fixture
def cluster(request: pytest.FixtureRequest) -> Iterator[str]:
    """A scheduler on this machine with as many workers as asked for, each a thread."""
    with distributed.LocalCluster(
        n_workers=request.param,
        threads_per_worker=1,
        processes=False,
        protocol="tcp",
        dashboard_address=None,
    ) as found:
        yield found.scheduler_address


@pytest.mark.parametrize("cluster", [1], indirect=True)
def test_a_cluster_gives_the_same_bytes(cluster: str, tmp_path_factory: Any) -> None:
    here, there = tmp_path_factory.mktemp("here"), tmp_path_factory.mktemp("there")
    pages(here, here / "out")
    done = pages(there, there / "out", cluster=cluster, processes=None)
    assert (done.drafted, done.faulty) == (4, 2)
    assert files(there / "out") == files(here / "out")


@pytest.mark.parametrize("cluster", [0], indirect=True)
def test_a_cluster_without_workers_is_told_at_once(cluster: str) -> None:
    with pytest.raises(ClusterError, match="has no workers yet"), connected(cluster):
        pass


@pytest.mark.parametrize(
    "address",
    [
        "",
        "nonsense",
        "http://example.org:8786",
        "tcp://:8786",
        "host:99999",
        "host:0",
        "=1+1",
        "a b:1",
    ],
)
def test_an_address_that_is_none_is_refused_before_anything_is_tried(address: str) -> None:
    with pytest.raises(ClusterError, match="not the address of a scheduler"), connected(address):
        pass


def test_nobody_at_the_address_is_told(
    tmp_path_factory: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("render.batch.cluster.PATIENCE", 0.5)
    out = tmp_path_factory.mktemp("none")
    # Port 1 of this machine is nobody's.
    with pytest.raises(ClusterError, match="no scheduler answers at"):
        pages(out, out / "out", cluster="127.0.0.1:1")
    assert not (out / "out").exists()


def test_without_dask_the_extra_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def without_dask(name: str, *more: Any, **named: Any) -> Any:
        if name == "distributed":
            raise ImportError(name)
        return real(name, *more, **named)

    monkeypatch.setattr(builtins, "__import__", without_dask)
    with pytest.raises(ClusterError, match=r"hemsweep\[cluster\]"), connected("127.0.0.1:8786"):
        pass
