"""The warm parent of the pages' kernels: a process that loads once what every page needs.

It reads its orders from the socket that it was given as standard input, keeps to one thread
(a fork copies only one) and never starts a kernel itself.
"""

import contextlib
import ctypes
import gc
import importlib
import json
import logging
import os
import signal
import socket
import sys

import numpy as np

from simulator.serve.guard import guard_this_process
from simulator.serve.kernels.forking.nursery import Nursery
from simulator.serve.kernels.kernel import do_without_debugger, run
from simulator.words.catalogue import catalogue, languages

# What a page's kernel has loaded when its page is ready.
MODULES = (
    "ipykernel.kernelapp",
    "ipykernel.debugger",
    "IPython.core.completerlib",
    "IPython.core.debugger",
    "IPython.core.oinspect",
    "IPython.extensions.storemagic",
    "tornado.platform.asyncio",
    "tornado.queues",
    "encodings.idna",
    "ipywidgets",
    "anywidget",
    "simulator.serve.kernels.heartbeat",
    "simulator.serve.pages",
    "simulator.serve.visits.visits",
    "simulator.serve.kernels.packing",
    "sqlalchemy.dialects.sqlite",
)
FIRST_LOOK = {
    "do": "set",
    "metering": "txv",
    "outdoor": "95",
    "return_db": "80",
    "return_wb": "67",
    "airflow": "100",
    "faults": [],
    "units": "us",
}
END_WITH_PARENT = 1  # PR_SET_PDEATHSIG of prctl(2)
# mallopt(3): answers grow with a visit, and what held them is given back to the system, from
# one heap for all threads. Left to itself glibc keeps it.
THRIFT = {"M_TRIM_THRESHOLD": (-1, 65536), "M_MMAP_THRESHOLD": (-3, 32768), "M_ARENA_MAX": (-8, 1)}


def warm_up() -> None:
    """Load modules, and the tables that the first page would have to wait for."""
    do_without_debugger()
    for name in MODULES:
        importlib.import_module(name)
    from simulator.calls import call_file
    from simulator.calls.call_table import CallFileError
    from simulator.diagnosis.causes import causes
    from simulator.repairs import _catalogue as repairs
    from simulator.serve.stand_page import stand

    stand.answer(dict(FIRST_LOOK))
    for language in languages():
        catalogue(language)
    # What a call reads of files, short of any key.
    causes()
    repairs.discover()
    for name in call_file.names():
        with contextlib.suppress(CallFileError):
            call_file.load(name)
    _take_everything()
    # What is frozen is never written to by the collector, so its pages stay shared.
    gc.collect()
    gc.freeze()


def _take_everything() -> None:
    """Every reading once on a sound unit: what a first reading loads is loaded for all."""
    from simulator.instruments.measurements import MEASUREMENTS
    from simulator.instruments.session import Session
    from simulator.instruments.steps import STEPS
    from simulator.instruments.take import Hands, take
    from simulator.plant import standing, timeline
    from simulator.plant.catalogue import load_installation
    from simulator.plant.conditions import from_wet_bulb

    unit = load_installation()
    around = from_wet_bulb(outdoor=308.15, return_temperature=299.8, return_wet_bulb=292.6)
    now = timeline.quasi_steady(unit, around, 60.0)
    moment = timeline.Moment(now=now, before=standing.at_rest(unit, around), seconds=60.0)
    hands = Hands(prepared=frozenset(STEPS), session=Session.of_visit(0), texts={})
    for code, measurement in MEASUREMENTS.items():
        if measurement.has_number:
            way = measurement.techniques[0].id
            chance = np.random.default_rng(0)
            take(code, way, moment=moment, installation=unit, hands=hands, chance=chance)


def become_kernel(order: int, parent: int) -> None:
    """Turn a fresh child into the kernel of one page, until the page is left.

    Parameters
    ----------
    order : int
        Descriptor of a file with ``arguments``, ``environment`` and ``folder``.
    parent : int
        Process number of the warm parent.
    """
    os.setsid()
    system = ctypes.CDLL(None)
    system.prctl(END_WITH_PARENT, int(signal.SIGKILL))
    if os.getppid() != parent:
        return
    gc.enable()
    if hasattr(system, "mallopt"):
        for name, value in THRIFT.values():
            system.mallopt(name, value)
    with open(order, encoding="utf-8") as file:
        told = json.load(file)
    os.environ.clear()
    os.environ.update(told["environment"])
    os.chdir(told["folder"])
    # Brothers must not draw alike. Python's own generator draws anew by itself.
    np.random.seed()
    run(told["arguments"], parent)


def main() -> None:
    """Warm up, then fork until the server is gone."""
    gc.disable()
    guard_this_process()
    warm_up()
    here = os.getpid()
    order = Nursery(socket.socket(fileno=0)).serve()
    if order is None:
        return
    status = 1
    try:
        become_kernel(order, here)
        status = 0
    except BaseException:
        logging.getLogger("benchcall").exception("a forked kernel failed")
    finally:
        # Without the parent's farewells: they are not the child's to say.
        sys.stdout.flush()
        os._exit(status)


if __name__ == "__main__":
    main()
