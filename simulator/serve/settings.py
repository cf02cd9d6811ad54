"""How the server is set up: what the command line decides, and what it never does."""

import logging
import secrets
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from traitlets.config import Config

LOOPBACK = ("127.0.0.1", "localhost", "::1")
# What a page needs to show a widget; other extensions of this Python would only slow it.
_EXTENSIONS = [
    "@voila-dashboards/widgets-manager8",
    "@jupyter-widgets/jupyterlab-manager",
    "anywidget",
]
_QUIET = {"loggers": {"Bench": {"handlers": [], "level": "WARNING", "propagate": True}}}


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What may differ from one server to the next.

    Parameters
    ----------
    host : str
        Address to listen on.
    port : int
        Port to listen on.
    base_url : str
        Path in front of every address, when a proxy adds one.
    open_browser : bool
        Whether to open the home page.
    places : int
        How many pages may run at once; the next one is asked to wait.
    idle_seconds : int
        How long a page that nobody is connected to keeps its kernel. Longer than
        a lunch break's dropped connection is worth keeping. [s]
    unopened_seconds : int
        How long a kernel waits for the page that asked for it; crawlers and
        link previews never come. [s]
    forks : bool
        Whether kernels are forked from a warm parent where the system allows it.
    """

    host: str = "127.0.0.1"
    port: int = 8866
    base_url: str = "/"
    open_browser: bool = True
    places: int = 40
    idle_seconds: int = 1200
    unopened_seconds: int = 90
    forks: bool = True

    @property
    def local_only(self) -> bool:
        """Whether only this computer can reach the server."""
        return self.host in LOOPBACK and self.base_url == "/"


def voila_config(settings: Settings, lessons: str, assets: dict[str, str]) -> Config:
    """The configuration of the Voila application.

    Parameters
    ----------
    settings : Settings
        What the command line chose.
    lessons : str
        The folder whose notebooks are the pages.
    assets : dict of str to str
        Addresses of the static files that the page template names.

    Returns
    -------
    Config
        Everything a stray configuration file or address parameter could loosen is fixed here.
    """
    config = Config()
    config.Voila.update(_application(settings, lessons))
    config.VoilaConfiguration.update(_pages(assets))
    config.VoilaExecutor.cell_error_instruction = ""
    config.PageKernels.update(_kernels(settings))
    # Notebooks are never trusted nor saved here, so nothing is signed and nothing written.
    config.NotebookNotary.update({"secret": secrets.token_bytes(32), "db_file": ":memory:"})
    # Everything is logged by the root logger, to the server's file; the terminal stays quiet.
    config.Application.update({"log_level": logging.WARNING, "logging_config": _QUIET})
    config.KernelManager.transport = "tcp" if sys.platform == "win32" else "ipc"
    config.KernelManager.shutdown_wait_time = 2.0
    return config


def _application(settings: Settings, lessons: str) -> dict[str, Any]:
    return {
        "ip": settings.host,
        "port": settings.port,
        "base_url": settings.base_url,
        "server_url": "/",
        "root_dir": lessons,
        "open_browser": False,
        "config_file_paths": [],
        "connection_dir_root": _connection_folder(),
    }


def _pages(assets: dict[str, str]) -> dict[str, Any]:
    return {
        "template": "lab",
        "theme": "light",
        "allow_template_override": "NO",
        "allow_theme_override": "NO",
        "strip_sources": True,
        "resources": {"assets": assets},
        "show_tracebacks": False,
        "file_allowlist": [],
        "preheat_kernel": False,
        "extension_allowlist": _EXTENSIONS,
        "multi_kernel_manager_class": "simulator.serve.kernels.page_kernels.PageKernels",
        "kernel_spec_manager_class": "simulator.serve.kernels.page_kernels.OneKernel",
        "http_header_envs": ["X-Benchcall-Trainee", "X-Benchcall-Language"],
    }


def _kernels(settings: Settings) -> dict[str, Any]:
    return {
        "cull_idle_timeout": settings.idle_seconds,
        "cull_interval": 60,
        "cull_connected": False,
        "places": settings.places,
        "unopened_seconds": settings.unopened_seconds,
        "forks": settings.forks,
    }


def _connection_folder() -> str:
    """A short folder for sockets, whose paths some systems limit to 104 characters."""
    usual = tempfile.gettempdir()
    return "/tmp" if len(usual) > 30 and Path("/tmp").is_dir() else usual
