"""Request handlers that Voila's own are not strict enough for."""

import secrets
from collections.abc import Awaitable
from http import HTTPStatus
from typing import Any

from jinja2 import Environment
from jupyter_server.services.kernels.handlers import KernelHandler
from tornado.web import HTTPError, RequestHandler
from voila.shutdown_kernel_handler import VoilaShutdownKernelHandler
from voila.tornado.handler import TornadoVoilaHandler
from voila.tornado.kernel_websocket_handler import VoilaKernelWebsocketHandler

from simulator.serve.guard import ticket_for
from simulator.serve.kernels.page_kernels import PageKernels
from simulator.serve.kernels.session import is_token
from simulator.serve.paths import lessons_directory
from simulator.serve.web.notebooks import pages
from simulator.serve.web.speaking import COOKIE as LANGUAGE_COOKIE
from simulator.serve.web.speaking import begin, chosen, page_language, say

COOKIE = "benchcall-trainee"
A_YEAR = 365
TRY_AGAIN = 30

_WORDS = {
    400: ("That request was not understood", "Go back to the home page and try once more."),
    403: ("This page is not open to you", "Start from the home page of this bench."),
    404: (
        "There is no such page",
        "The address may be mistyped, or the page may have been removed.",
    ),
    405: ("That cannot be done here", "Go back to the home page and try once more."),
    503: (
        "Every place is taken",
        "As soon as someone closes a page there is room. This page tries again by itself.",
    ),
}


async def _done(step: Awaitable[Any] | None) -> None:
    """Wait for a step that a base class may do at once or later."""
    if step is not None:
        await step


class OwnErrors(RequestHandler):
    """Pages for errors that say what to do, in our words and without details."""

    def write_error(self, status_code: int, **options: Any) -> None:
        """Answer a failed request.

        Parameters
        ----------
        status_code : int
            The HTTP status. [-]
        **options
            ``exc_info`` as tornado gives it.
        """
        error = (options.get("exc_info") or (None, None, None))[1]
        ticket = None
        if status_code not in _WORDS:
            ticket = ticket_for(error or RuntimeError(f"status {status_code}"))
        title, advice = _WORDS.get(
            status_code, ("Something failed on our side", "What you recorded is kept.")
        )
        is_full = status_code == HTTPStatus.SERVICE_UNAVAILABLE
        if is_full:
            self.set_header("Retry-After", str(TRY_AGAIN))
        self.set_header("Content-Type", "text/html; charset=utf-8")
        self.set_header("Cache-Control", "no-store")
        self.finish(
            self.rendered(
                "problem.html",
                title=title,
                advice=advice,
                ticket=ticket,
                again=TRY_AGAIN if is_full else None,
            )
        )

    def rendered(self, template: str, **names: Any) -> str:
        """Fill one of our page templates.

        Parameters
        ----------
        template : str
            File name among the page templates.
        **names
            What the template mentions.

        Returns
        -------
        str
            HTML, everything escaped.
        """
        environment: Environment = self.settings["benchcall_pages"]
        self.begin_language()
        return environment.get_template(template).render(
            base_url=self.settings["base_url"],
            asset=self.settings["benchcall_asset"],
            say=say,
            language=page_language(),
            **names,
        )

    def begin_language(self) -> None:
        """Say this page in the language that was chosen, or that the browser asks for."""
        accepted = self.request.headers.get("Accept-Language", "")
        begin(chosen(self.get_cookie(LANGUAGE_COOKIE, "") or "", accepted))

    def trainee(self) -> str:
        """The browser's own random name, given out on the first visit.

        Returns
        -------
        str
            A token of the right form.
        """
        known = self.get_cookie(COOKIE, "") or ""
        if is_token(known):
            return known
        fresh = secrets.token_urlsafe(24)
        self.set_cookie(
            COOKIE,
            fresh,
            expires_days=A_YEAR,
            path=self.settings["base_url"],
            httponly=True,
            samesite="Lax",
        )
        return fresh


class OwnPage(OwnErrors):
    """A plain page of ours, which starts no kernel."""

    def set_default_headers(self) -> None:
        """Send the same headers as every other page."""
        for name, value in self.settings["headers"].items():
            self.set_header(name, value)

    def prepare(self) -> None:
        """Refuse a page that a stranger's name for this computer asked for."""
        if not self.settings["benchcall_settings"].local_only:
            return
        host = self.request.host_name.strip("[]").lower()
        if host not in ("localhost", "127.0.0.1", "::1"):
            raise HTTPError(403)


class NotFound(OwnPage):
    """Anything that has no address here."""

    def prepare(self) -> None:
        """Answer every method alike.

        Raises
        ------
        HTTPError
            Always 404.
        """
        raise HTTPError(404)


class OpenPage(OwnErrors, TornadoVoilaHandler):  # type: ignore[misc]
    """Runs one of the allowed notebooks as a page."""

    async def prepare(self) -> None:
        """Check the notebook before any kernel is started for it."""
        await _done(super().prepare())
        notebook = self.path_args[0] if self.path_args else ""
        allowed = {page.notebook for page in pages(lessons_directory())}
        if notebook not in allowed:
            raise HTTPError(404)
        # Overwrites whatever the client sent under this name.
        self.request.headers["X-Benchcall-Trainee"] = self.trainee()
        self.begin_language()
        self.request.headers["X-Benchcall-Language"] = page_language()
        # Mentioning the token sends its cookie, without which a closing tab cannot
        # tell the server to free the kernel.
        _ = self.xsrf_token


class OwnKernelOnly(OwnErrors):
    """Refuses a kernel that was started for another browser."""

    def require_own(self, kernel_id: str) -> None:
        """Let only the browser through that the kernel was started for.

        Parameters
        ----------
        kernel_id : str
            From the address.

        Raises
        ------
        HTTPError
            404, whether the kernel is another's or does not exist.
        """
        kernels: PageKernels = self.settings["kernel_manager"]
        if not kernels.is_owned_by(kernel_id, self.get_cookie(COOKIE, "") or ""):
            raise HTTPError(404)


class OwnKernel(OwnKernelOnly, KernelHandler):
    """Tells a page that its kernel is there; it may not be ended this way."""

    SUPPORTED_METHODS = ("GET",)

    async def get(self, kernel_id: str) -> None:
        """Describe the kernel.

        Parameters
        ----------
        kernel_id : str
            The page's kernel.
        """
        self.require_own(kernel_id)
        await _done(super().get(kernel_id))


class OwnSocket(OwnKernelOnly, VoilaKernelWebsocketHandler):  # type: ignore[misc]
    """The line between a page and its kernel."""

    async def get(self, kernel_id: str) -> None:
        """Open the line.

        Parameters
        ----------
        kernel_id : str
            The page's kernel.
        """
        self.require_own(kernel_id)
        await _done(super().get(kernel_id))


class OwnShutdown(OwnKernelOnly, VoilaShutdownKernelHandler):  # type: ignore[misc]
    """Frees the kernel of a page that is being closed."""

    async def post(self, kernel_id: str) -> None:
        """End the kernel.

        Parameters
        ----------
        kernel_id : str
            The page's kernel.
        """
        self.require_own(kernel_id)
        await _done(super().post(kernel_id))
