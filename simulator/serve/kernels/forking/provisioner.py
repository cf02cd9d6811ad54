"""How a page's kernel comes to be: forked where that is possible, else started alone."""

import logging
import os
from importlib.metadata import EntryPoint
from typing import Any

from jupyter_client.provisioning.factory import KernelProvisionerFactory
from jupyter_client.provisioning.local_provisioner import LocalProvisioner

from simulator.serve.kernels.forking.parent_line import ForkFailed, WarmParent

NAME = "benchcall-fork"
LOG = logging.getLogger("benchcall")


def register() -> None:
    """Make the provisioner known in this process, installed or not."""
    KernelProvisionerFactory.provisioners[NAME] = EntryPoint(
        name=NAME,
        value="simulator.serve.kernels.forking.provisioner:PageProvisioner",
        group=KernelProvisionerFactory.GROUP_NAME,
    )


class PageProvisioner(LocalProvisioner):
    """Asks the warm parent of the manager of all kernels, if there is one."""

    async def launch_kernel(self, cmd: list[str], **options: Any) -> Any:
        """Fork or start.

        Parameters
        ----------
        cmd : list of str
            The command line of an ordinary kernel.
        **options
            As for ``subprocess.Popen``; ``env`` and ``cwd`` reach a forked kernel too.

        Returns
        -------
        dict
            How to reach it.
        """
        warm: WarmParent | None = getattr(getattr(self.parent, "parent", None), "warm_parent", None)
        if warm is None:
            return await super().launch_kernel(cmd, **options)
        arguments = cmd[cmd.index("-m") + 2 :]
        folder = str(options.get("cwd") or os.getcwd())  # noqa: PTH109
        try:
            forked = await warm.fork(arguments, dict(options["env"]), folder)
        except ForkFailed as why:
            LOG.warning("no forked kernel: %s", why)
            return await super().launch_kernel(cmd, **options)
        self.process = forked  # type: ignore[assignment]
        self.pid, self.pgid, self.cwd = forked.pid, None, folder
        return self.connection_info
