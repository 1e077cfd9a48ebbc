"""Starts kernels from a process that has already imported what pages need: quicker, and with shared memory.

Linux only, where a process can be copied at once; elsewhere, and whenever the starter does not answer, kernels
start as usual. A copy is never made from outdated code: when a file of the package has changed since it was
imported, the starter says so and a new one takes its place.
"""

from __future__ import annotations

import asyncio
import gc
import importlib
import json
import os
import pkgutil
import signal
import socket
import subprocess
import sys
import time
from contextlib import suppress
from importlib.metadata import EntryPoint
from pathlib import Path
from typing import Any

from jupyter_client.connect import KernelConnectionInfo
from jupyter_client.provisioning.factory import KernelProvisionerFactory
from jupyter_client.provisioning.local_provisioner import LocalProvisioner

NAME = "rigcalc-starter"
ANSWER_WITHIN_S = 20.0
_LEFT_OUT = ("rigcalc.__main__", "rigcalc.serve", "rigcalc.widgets.site", "rigcalc.widgets.kernels")
_KERNEL = (
    "ipykernel.ipkernel", "ipykernel.kernelapp", "ipykernel.zmqshell", "ipykernel.debugger", "pdb",
    "IPython.core.completerlib", "IPython.extensions.storemagic", "tornado.platform.asyncio",
)  # fmt: skip


def available() -> bool:
    """Whether this machine can copy a process as the starter does."""
    return sys.platform == "linux"


# ---- the server's side ----------------------------------------------------------------------------


class Starter:
    """The process kernels are copied from, and the way to it."""

    def __init__(self) -> None:
        self._old: list[socket.socket] = []  # an outdated starter lives on while kernels copied from it do
        self._begin()

    def _begin(self) -> None:
        self._way, theirs = socket.socketpair()
        self._way.settimeout(ANSWER_WITHIN_S)
        command = [sys.executable, "-m", "rigcalc.widgets.starter", str(theirs.fileno())]
        env = os.environ | {"PYDEVD_DISABLE_FILE_VALIDATION": "1"}  # what the debugger says of itself helps nobody here
        self.process = subprocess.Popen(command, pass_fds=[theirs.fileno()], start_new_session=True, env=env)
        theirs.close()

    def start(self, arguments: list[str], env: dict[str, str], cwd: str | None) -> int | None:
        """The process id of a new kernel, or None where it has to be started as usual."""
        try:
            self._way.sendall(json.dumps({"argv": arguments, "env": env, "cwd": cwd}).encode() + b"\n")
            answer = self._way.recv(64)
        except OSError:
            answer = b""
        if answer.strip().isdigit():
            return int(answer)
        self._old.append(self._way)
        self._begin()
        return None

    def end(self) -> None:
        """Let the starters go; they end when their way to the server is closed."""
        for way in (self._way, *self._old):
            way.close()
        with suppress(subprocess.TimeoutExpired):
            self.process.wait(5)


class Copied:
    """A kernel that is a copy of the starter, in the shape of a `subprocess.Popen`."""

    stdin = stdout = stderr = None

    def __init__(self, pid: int) -> None:
        self.pid = pid
        self.returncode: int | None = None

    def poll(self) -> int | None:
        """None while it runs; how it ended is known to the starter alone."""
        if self.returncode is None:
            try:
                os.kill(self.pid, 0)
            except ProcessLookupError:
                self.returncode = 0
        return self.returncode

    def wait(self, timeout: float | None = None) -> int:
        """Wait until it has ended."""
        began = time.monotonic()
        while (code := self.poll()) is None:
            if timeout is not None and time.monotonic() - began > timeout:
                raise subprocess.TimeoutExpired(str(self.pid), timeout)
            time.sleep(0.02)
        return code

    def send_signal(self, signum: int) -> None:
        """Send a signal, unless it has ended."""
        with suppress(ProcessLookupError):
            os.kill(self.pid, signum)

    def terminate(self) -> None:
        """Ask it to end."""
        self.send_signal(signal.SIGTERM)

    def kill(self) -> None:
        """End it."""
        self.send_signal(signal.SIGKILL)


class CopiedKernel(LocalProvisioner):
    """Launches a kernel through the starter, or as usual where that cannot be."""

    starter: Starter | None = None

    async def launch_kernel(self, cmd: list[str], **kwargs: Any) -> KernelConnectionInfo:
        """Launch a kernel with a command, of which the starter needs what follows the module's name."""
        pid, starter = None, type(self).starter
        if starter is not None:
            arguments, env = cmd[cmd.index("ipykernel_launcher") + 1 :], dict(kwargs.get("env") or os.environ)
            pid = await asyncio.to_thread(starter.start, arguments, env, kwargs.get("cwd"))
        if pid is None:
            return await super().launch_kernel(cmd, **kwargs)
        self.process = Copied(pid)  # type: ignore[assignment]
        self.pid = self.pgid = pid
        return self.connection_info


def offer() -> Starter:
    """Begin a starter and let kernels whose spec names it be launched through it."""
    CopiedKernel.starter = Starter()
    entry = EntryPoint(NAME, "rigcalc.widgets.starter:CopiedKernel", KernelProvisionerFactory.GROUP_NAME)
    KernelProvisionerFactory.provisioners[NAME] = entry
    return CopiedKernel.starter


# ---- the starter's side ---------------------------------------------------------------------------


def modules() -> list[str]:
    """What is imported once for all kernels: the package without its server, and what a kernel imports."""
    package = importlib.import_module("rigcalc")
    names = [one.name for one in pkgutil.walk_packages(package.__path__, "rigcalc.")]
    return [*_KERNEL, *(name for name in names if name not in _LEFT_OUT and name != __name__)]


def imported_files() -> dict[str, float]:
    """The package's files in use, each with the time of its last change."""
    root = str(Path(__file__).parent.parent)
    paths = [str(getattr(module, "__file__", "") or "") for module in list(sys.modules.values())]
    return {path: os.stat(path).st_mtime for path in paths if path.startswith(root) and os.path.exists(path)}


def warm() -> None:
    """What every page works out first: this machine's addresses, and the example rig with the tables it reads."""
    from jupyter_client.localinterfaces import localhost

    from rigcalc.rules import findings
    from rigcalc.widgets.session import open_rig

    localhost()
    findings(open_rig().study)


def main(number: int) -> None:
    """Import, then copy this process for each line that asks for a kernel, until the server is gone."""
    for name in modules():
        with suppress(Exception):  # a kernel that needs it will say what is wrong with it
            importlib.import_module(name)
    with suppress(Exception):  # as above
        warm()
    as_imported = imported_files()
    gc.collect()
    gc.freeze()
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # ended kernels leave nothing behind
    way = socket.socket(fileno=number)
    for line in way.makefile("r", encoding="utf-8"):
        if imported_files() != as_imported:
            way.sendall(b"outdated\n")
            continue
        pid = os.fork()
        if pid == 0:
            way.detach()
            os.close(number)
            become_kernel(**json.loads(line))
        way.sendall(f"{pid}\n".encode())


def become_kernel(argv: list[str], env: dict[str, str], cwd: str | None) -> None:
    """From here on this process is a kernel like any other."""
    os.setsid()
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    os.environ.clear()
    os.environ.update(env)
    if cwd:
        os.chdir(cwd)
    del sys.path[0]  # the folder the server was started in; IPython puts the notebook's own first
    from ipykernel import kernelapp

    kernelapp.launch_new_instance(argv=[*argv, f"--IPKernelApp.parent_handle={os.getppid()}"])
    os._exit(0)


if __name__ == "__main__":
    main(int(sys.argv[1]))
