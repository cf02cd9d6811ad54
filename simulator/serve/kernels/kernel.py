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
        No streams to the browser, no history, no modules from the working folder, messages
        packed in parts.
    """
    config = Config()
    config.IPKernelApp.outstream_class = None
    config.IPKernelApp.capture_fd_output = False
    config.InteractiveShellApp.ignore_cwd = True
    config.HistoryManager.enabled = False
    config.Session.packer = "simulator.serve.kernels.packing.packed"
    return config


def do_without_debugger() -> None:
    """Keep the debugger out: no page may ask for one, and it is a third of a kernel."""
    sys.modules["debugpy"] = None  # type: ignore[assignment]


def run(arguments: list[str], parent: int = 0) -> None:
    """Run one kernel until its page is left.

    Parameters
    ----------
    arguments : list of str
        Of the kernel's command line.
    parent : int
        Process number of the parent with which a forked kernel ends; 0 for an ordinary one.
    """
    guard_this_process()
    do_without_debugger()
    config = kernel_config()
    if parent:
        config.IPKernelApp.parent_handle = parent
    application = IPKernelApp.instance(config=config)
    application.initialize(arguments)  # type: ignore[no-untyped-call]
    guard_shell(application.shell)
    if "ipywidgets" in sys.modules:
        # Imported before there was a kernel, it could not register its messages itself.
        from ipywidgets import register_comm_target

        register_comm_target()
    application.start()  # type: ignore[no-untyped-call]


def main() -> None:
    """Run the kernel that the command line describes."""
    run(sys.argv[1:])


if __name__ == "__main__":
    main()
