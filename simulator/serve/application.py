"""The server: Voila, closed where it is open by default, with a home page of our own."""

import hashlib
import webbrowser
from collections.abc import Callable
from typing import Any

import tornado.ioloop
from jinja2 import Environment, FileSystemLoader, select_autoescape
from jupyter_server.services.kernels.handlers import KernelHandler
from tornado.web import StaticFileHandler
from voila.app import Voila
from voila.shutdown_kernel_handler import VoilaShutdownKernelHandler
from voila.tornado.contentshandler import VoilaContentsHandler
from voila.tornado.handler import TornadoVoilaHandler
from voila.tornado.kernel_websocket_handler import VoilaKernelWebsocketHandler
from voila.tornado.treehandler import TornadoVoilaTreeHandler
from voila.voila_identity_provider import VoilaLoginHandler

from simulator.serve.home.landing import ChooseLanguage, Home, Join, StartCall
from simulator.serve.home.paper_pages import Record, Worksheet
from simulator.serve.instructor.class_pages import class_handlers
from simulator.serve.instructor.corner_pages import instructor_handlers
from simulator.serve.instructor.door import Door
from simulator.serve.paths import TEMPLATES, lessons_directory
from simulator.serve.settings import Settings, voila_config
from simulator.serve.web.front_end import first_scripts
from simulator.serve.web.handlers import NotFound, OpenPage, OwnKernel, OwnShutdown, OwnSocket
from simulator.serve.web.shared_tables import shared_tables
from simulator.serve.web.speaking import page_language, say

STATIC = TEMPLATES / "static"
PING = 30_000  # [ms]
# An answer is looked for when the next ping is due, so a shorter wait would end every line.
PONG = 3 * PING  # [ms]
PAGE_ASSETS = ("benchcall.css", "page.css", "page.js", "mark.svg")

# What a page asks of its kernel, and no more: a page may not run code or end a kernel.
ALLOWED_MESSAGES = [
    "comm_open",
    "comm_close",
    "comm_msg",
    "comm_info_request",
    "kernel_info_request",
]

# Panels are loaded as modules from memory (blob:); nothing at all comes from another server.
CONTENT_POLICY = (
    "default-src 'self'; script-src 'self' blob:; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' blob: data:; "
    "object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'self'"
)
HEADERS = {
    "Content-Security-Policy": CONTENT_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
}
_REPLACED = {
    KernelHandler: OwnKernel,
    TornadoVoilaHandler: OpenPage,
    VoilaKernelWebsocketHandler: OwnSocket,
    VoilaShutdownKernelHandler: OwnShutdown,
}
_CLOSED = (TornadoVoilaTreeHandler, VoilaContentsHandler, VoilaLoginHandler)


def asset(name: str) -> str:
    """Address of a static file of ours, new whenever its content is.

    Parameters
    ----------
    name : str
        File name in the static folder.

    Returns
    -------
    str
        To be put after the base address.
    """
    mark = hashlib.sha256((STATIC / name).read_bytes()).hexdigest()[:12]
    return f"benchcall/static/{name}?v={mark}"


class Bench(Voila):  # type: ignore[misc]
    """Serves the home page and the lessons, and nothing else."""

    settings: Settings
    scripts: list[str]
    announce: Callable[[str], object]

    def setup_template_dirs(self) -> None:
        """Look for templates in the package before Voila's own."""
        super().setup_template_dirs()
        self.template_paths: list[str] = [str(TEMPLATES / "voila"), *self.template_paths]
        self.scripts = [f"voila/static/{name}" for name in first_scripts(self.static_paths)]
        self.voila_configuration.config.VoilaConfiguration.resources["scripts"] = self.scripts
        self.voila_configuration.config.VoilaConfiguration.resources |= {
            "say": say,
            "language": page_language,
        }

    def init_settings(self) -> dict[str, Any]:
        """Add what our pages need to the web server's settings.

        Returns
        -------
        dict
            For the tornado application.
        """
        chosen: dict[str, Any] = super().init_settings()
        self.kernel_manager.allowed_message_types = ALLOWED_MESSAGES
        pages = Environment(
            loader=FileSystemLoader(TEMPLATES / "pages"), autoescape=select_autoescape()
        )
        return chosen | {
            "headers": HEADERS,
            "compress_response": True,
            "allow_remote_access": not self.settings.local_only,
            "local_hostnames": ["localhost"],
            "xsrf_cookie_kwargs": {"path": self.base_url, "samesite": "Lax"},
            "ws_ping_interval": PING,
            "ws_ping_timeout": PONG,
            "default_handler_class": NotFound,
            "benchcall_pages": pages,
            "benchcall_asset": asset,
            "benchcall_scripts": self.scripts,
            "benchcall_settings": self.settings,
            "benchcall_door": Door(),
        }

    def init_handlers(self) -> list[Any]:
        """Close Voila's open doors and add ours.

        Returns
        -------
        list
            For the tornado application.
        """
        kept = [
            (rule[0], _REPLACED.get(rule[1], rule[1]), *rule[2:])
            for rule in super().init_handlers()
            if not issubclass(rule[1], _CLOSED)
        ]
        return [
            (r"/", Home),
            (r"/start/([A-Za-z0-9_-]{1,64})", StartCall),
            (r"/join", Join),
            (r"/language", ChooseLanguage),
            (r"/worksheet", Worksheet),
            (r"/record", Record),
            *instructor_handlers(),
            *class_handlers(),
            (r"/benchcall/static/(.*)", StaticFileHandler, {"path": str(STATIC)}),
            *kept,
        ]

    def listen(self) -> None:
        """Listen on the one port that was chosen, until stopped."""
        self.ioloop = tornado.ioloop.IOLoop.current()
        try:
            self.app.listen(self.port, self.ip)
            self.ioloop.add_callback(self.kernel_manager.warm_up)
            self.ioloop.add_callback(self.announce, self._home())
            self.ioloop.start()
        except KeyboardInterrupt:
            self.log.info("Stopped from the keyboard.")
        finally:
            self.stop()
            self.kernel_manager.cool_down()

    def _home(self) -> str:
        ip = {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(str(self.ip), str(self.ip))
        shown = f"[{ip}]" if ":" in ip else ip
        return f"http://{shown}:{self.port}/"


def serve(settings: Settings, announce: Callable[[str], object]) -> None:
    """Serve until stopped.

    Parameters
    ----------
    settings : Settings
        Where and for how many.
    announce : callable
        Called once with the address of the home page, when it can be opened.

    Raises
    ------
    OSError
        When the address or port cannot be had.
    """

    def ready(address: str) -> None:
        announce(address)
        if settings.open_browser:
            tornado.ioloop.IOLoop.current().run_in_executor(None, webbrowser.open, address)

    assets = {name: asset(name) for name in PAGE_ASSETS}
    bench = Bench(config=voila_config(settings, str(lessons_directory()), assets))
    bench.settings = settings
    bench.announce = ready
    with shared_tables():
        bench.initialize(argv=[])
        bench.start()
