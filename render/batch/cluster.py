"""The way to a dask cluster. The only home of ``distributed``, which is an extra."""

import logging
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from drafting.errors import DraftingError, quoted

PATIENCE = 5
"""Seconds to wait for a scheduler that does not answer."""

_ADDRESS = re.compile(
    r"(?:(?:tcp|tls|ws|wss|ucx)://)?(?:[\w.-]+|\[[0-9a-fA-F:]+\]):(?P<port>\d{1,5})"
)


class ClusterError(DraftingError):
    """A cluster was asked for that cannot be had."""


@contextmanager
def connected(address: str) -> Iterator[Any]:
    """Connect to the scheduler at an address, and yield the client.

    Raises:
        ClusterError: dask is not installed, the address is none, nothing answers there, or no
            worker has joined.
    """
    found = _ADDRESS.fullmatch(address.strip())
    if found is None or not 0 < int(found["port"]) < 65536:
        raise ClusterError(
            f"{quoted(address)} is not the address of a scheduler; write it with its port,"
            " such as tcp://192.168.1.20:8786"
        )
    try:
        import distributed
    except ImportError:
        raise ClusterError(
            'A cluster needs dask, which is not installed: pip install "hemsweep[cluster]"'
        ) from None
    logging.getLogger("distributed").setLevel(logging.CRITICAL)
    try:
        client = distributed.Client(address.strip(), timeout=PATIENCE, set_as_default=False)
    except OSError:
        raise ClusterError(
            f"no scheduler answers at {quoted(address)} within {PATIENCE} seconds; is it running,"
            " and may this machine reach it?"
        ) from None
    except Exception as error:
        # Something else may answer there, and what it says is taken for lengths of messages.
        raise ClusterError(
            f"what answers at {quoted(address)} is no dask scheduler of this edition"
            f" ({type(error).__name__})"
        ) from None
    try:
        if not client.nthreads():
            raise ClusterError(f"the cluster at {quoted(address)} has no workers yet; start some")
        yield client
    finally:
        client.close()
