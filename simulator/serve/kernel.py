"""The kernel of a page: an ordinary IPython kernel that cannot tell tales."""

import sys

from ipykernel.kernelapp import IPKernelApp
from traitlets.config import Config

from simulator.serve.guard import guard_shell, guard_this_process


def kernel_config() -> Config:
    """How a page's kernel differs from an ordinary one.

    Returns
    -------
    Config
        No streams to the browser, no history, no modules from the working folder.
    """
    config = Config()
    config.IPKernelApp.outstream_class = None
    config.IPKernelApp.capture_fd_output = False
    config.InteractiveShellApp.ignore_cwd = True
    config.HistoryManager.enabled = False
    return config


def main() -> None:
    """Run one kernel until its page is left."""
    guard_this_process()
    application = IPKernelApp.instance(config=kernel_config())
    application.initialize(sys.argv[1:])  # type: ignore[no-untyped-call]
    guard_shell(application.shell)
    application.start()  # type: ignore[no-untyped-call]


if __name__ == "__main__":
    main()
