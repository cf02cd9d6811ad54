"""The kernels behind the pages: one kind, a limited number, a clean environment."""

import os
import sys
import time
from typing import Any

from jupyter_client.kernelspec import KernelSpec, KernelSpecManager
from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager
from tornado.ioloop import PeriodicCallback
from tornado.web import HTTPError
from traitlets import Bool, Integer

from simulator.serve.kernels.forking import provisioner
from simulator.serve.kernels.forking.parent_line import WarmParent, can_fork
from simulator.serve.paths import PACKAGE, data_directory

NAME = "benchcall"
MODULE = "simulator.serve.kernels.kernel"
CLASS_FULL = "class full"

# What a Python process needs to run at all; nothing a person could have put a secret in.
_NEEDED = frozenset(
    (
        "PATH",
        "HOME",
        "LANG",
        "LANGUAGE",
        "TZ",
        "TMPDIR",
        "TEMP",
        "TMP",
        "VIRTUAL_ENV",
        "CONDA_PREFIX",
        "LD_LIBRARY_PATH",
        "DYLD_LIBRARY_PATH",
        "SYSTEMROOT",
        "SYSTEMDRIVE",
        "COMSPEC",
        "PATHEXT",
        "USERPROFILE",
        "APPDATA",
        "LOCALAPPDATA",
        "XDG_DATA_HOME",
        "XDG_RUNTIME_DIR",
        "QUERY_STRING",
        "SCRIPT_NAME",
        "HTTP_X_BENCHCALL_TRAINEE",
        "HTTP_X_BENCHCALL_LANGUAGE",
    )
)
_NEEDED_PREFIXES = ("LC_", "BENCHCALL_", "VOILA_")


def clean_environment(environment: dict[str, str]) -> dict[str, str]:
    """The part of an environment that a page's kernel may see.

    Parameters
    ----------
    environment : dict of str to str
        The server's environment with the request's facts added.

    Returns
    -------
    dict of str to str
        Without anything that was not asked for by name; one thread per kernel
        for linear algebra, because a class shares the processor.
    """
    kept = {
        name: value
        for name, value in environment.items()
        if name.upper() in _NEEDED or name.startswith(_NEEDED_PREFIXES)
    }
    return kept | {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"}


class OneKernel(KernelSpecManager):
    """Knows one kernel only: this Python, guarded.

    A kernel that some other program registered for the user could belong to
    another Python that lacks this package.
    """

    def find_kernel_specs(self) -> dict[str, str]:
        """The one kernel there is.

        Returns
        -------
        dict of str to str
            Name to folder.
        """
        return {NAME: str(PACKAGE)}

    def get_kernel_spec(self, kernel_name: str) -> KernelSpec:
        """How to start it, whatever name a notebook carries.

        Parameters
        ----------
        kernel_name : str
            Not looked at.

        Returns
        -------
        KernelSpec
            This interpreter running the guarded kernel.
        """
        return KernelSpec(
            argv=[sys.executable, "-P", "-m", MODULE, "-f", "{connection_file}"],
            display_name="Benchcall",
            language="python",
            env={
                "PYTHONPATH": str(PACKAGE.parent),
                "IPYTHONDIR": str(data_directory() / "ipython"),
                "BENCHCALL_SERVED": "yes",
                "PYDEVD_DISABLE_FILE_VALIDATION": "1",
            },
            metadata={"kernel_provisioner": {"provisioner_name": provisioner.NAME}},
        )

    def get_all_specs(self) -> dict[str, Any]:
        """The same as a table, as the page renderer wants it.

        Returns
        -------
        dict of str to dict
            Name to folder and start-up.
        """
        spec = self.get_kernel_spec(NAME).to_dict()
        return {name: {"resource_dir": str(PACKAGE), "spec": spec} for name in (NAME, "python3")}


class PageKernels(AsyncMappingKernelManager):
    """Starts and counts kernels, and remembers whose each one is."""

    places = Integer(40, help="Kernels at once.", config=True)
    unopened_seconds = Integer(90, help="Wait for the page, in seconds.", config=True)
    forks = Bool(True, help="Whether kernels are forked where that is possible.", config=True)
    warm_parent: WarmParent | None = None

    def __init__(self, **options: Any) -> None:
        provisioner.register()
        super().__init__(**options)  # type: ignore[no-untyped-call]
        self._starting = 0
        self._owners: dict[str, str] = {}
        self._unopened: dict[str, float] = {}
        self._sweeper = PeriodicCallback(self._free_unopened, 5000)

    def warm_up(self) -> None:
        """Start the parent that kernels are forked from. Needs a running loop."""
        if self.forks and can_fork():
            spec = OneKernel().get_kernel_spec(NAME)
            self.warm_parent = WarmParent(clean_environment(dict(os.environ)) | spec.env)
            self.warm_parent.start()

    def cool_down(self) -> None:
        """Let the parent go."""
        if self.warm_parent is not None:
            self.warm_parent.close()

    def is_owned_by(self, kernel_id: str, trainee: str) -> bool:
        """Whether a kernel was started for this browser.

        Parameters
        ----------
        kernel_id : str
            The kernel.
        trainee : str
            What the browser's cookie says.

        Returns
        -------
        bool
            False for a kernel that does not exist.
        """
        owner = self._owners.get(kernel_id)
        return bool(trainee) and kernel_id in self and owner == trainee

    async def start_kernel(self, **options: Any) -> str:  # type: ignore[override]
        """Start a kernel for one page.

        Parameters
        ----------
        **options
            As the kernel manager takes them; ``env`` is reduced to what a kernel needs.

        Returns
        -------
        str
            The kernel's id.

        Raises
        ------
        HTTPError
            503 when every place is taken.
        """
        if len(self) + self._starting >= self.places:
            raise HTTPError(503, CLASS_FULL)
        environment = clean_environment(options.pop("env", dict(os.environ)))
        self._starting += 1
        try:
            kernel_id: str = await super().start_kernel(env=environment, **options)
        finally:
            self._starting -= 1
        self._owners[kernel_id] = environment.get("HTTP_X_BENCHCALL_TRAINEE", "")
        self._unopened[kernel_id] = time.monotonic()
        if not self._sweeper.is_running():
            self._sweeper.start()
        return kernel_id

    def notify_connect(self, kernel_id: str) -> None:
        """Note that a page has come for its kernel.

        Parameters
        ----------
        kernel_id : str
            The kernel.
        """
        self._unopened.pop(kernel_id, None)
        super().notify_connect(kernel_id)  # type: ignore[no-untyped-call]

    def remove_kernel(self, kernel_id: str) -> Any:
        """Forget a kernel that has ended.

        Parameters
        ----------
        kernel_id : str
            The kernel.

        Returns
        -------
        object
            Whatever the kernel manager returns.
        """
        self._owners.pop(kernel_id, None)
        self._unopened.pop(kernel_id, None)
        return super().remove_kernel(kernel_id)

    async def _free_unopened(self) -> None:
        """End kernels whose page never came."""
        overdue = time.monotonic() - self.unopened_seconds
        for kernel_id, started in list(self._unopened.items()):
            if started < overdue and kernel_id in self:
                self._unopened.pop(kernel_id, None)
                await self.shutdown_kernel(kernel_id)  # type: ignore[no-untyped-call]
