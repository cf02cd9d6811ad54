"""Messages packed in parts: the very bytes of the stock packer, in less memory."""

import tracemalloc
from datetime import UTC, datetime
from typing import Any

import pytest
from jupyter_client.session import Session, json_packer

from simulator.serve.kernels.kernel import kernel_config
from simulator.serve.kernels.packing import packed

ROW = {"seq": 1, "name": "Suction pressure", "shown": "118", "unit": None, "steady": True}
VIEW = {"sheet": [{**ROW, "seq": n} for n in range(130)], "here": "outdoor_unit", "places": []}
MESSAGE = {"data": {"method": "custom", "content": {"view": VIEW, "id": 7}}, "comm_id": "a"}


@pytest.mark.parametrize(
    "message",
    [
        MESSAGE,
        {},
        [],
        "Zähler",
        {"a": {}, "b": []},
        {"rows": list(range(9)), "more": [[1] * 5] * 5, "five": [{}] * 5},
        {1: "a key that is no text", "b": 1.5},
        {"when": datetime(2026, 5, 31, 12, tzinfo=UTC)},
        {"deep": {"a": {"b": {"c": {"d": {"e": [{"f": [1] * 9}] * 9}}}}}},
        {'a "quoted" key\n': ("a", "tuple")},
    ],
)
def test_same_bytes_as_the_stock_packer(message: Any) -> None:
    assert packed(message) == json_packer(message)


@pytest.mark.filterwarnings("ignore:Message serialization failed")
def test_what_is_no_json_is_packed_as_the_stock_packer_does() -> None:
    message = {"a": [1.0] * 6, "b": {"c": float("nan")}}
    assert packed(message) == json_packer(message)


def test_takes_less_than_the_stock_packer() -> None:
    def most_held(pack: Any) -> int:
        tracemalloc.start()
        try:
            pack(MESSAGE)
            return tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()

    # The text and its copy, and little more; own bar.
    assert most_held(packed) <= 3 * len(packed(MESSAGE))


def test_kernels_use_it() -> None:
    assert Session(config=kernel_config()).pack is packed
