"""How pages get their kernels quickly: which Python runs them, when one counts as ready, and what it need not run.

A page's lesson is not run again for each view: its calls and answers were stored when the notebook was run, and
`nbval` runs them again as tests. What a page runs is the view and whatever else has no stored answer.
"""

from __future__ import annotations

import sys
import time
from queue import Empty

from jupyter_client.asynchronous.client import AsyncKernelClient
from jupyter_client.kernelspec import KernelSpec, KernelSpecManager
from nbformat import NotebookNode
from nbformat.v4 import new_raw_cell

from rigcalc.widgets import starter

CHECKED = "nbval-check-output"


class OwnKernel(KernelSpecManager):
    """The kernel of this very Python, whatever else is installed for the person."""

    def get_kernel_spec(self, kernel_name: str) -> KernelSpec:
        """The named kernel, run by this Python."""
        spec = super().get_kernel_spec(kernel_name)
        launch = [sys.executable, "-m", "ipykernel_launcher", "-f", "{connection_file}"]
        spec.argv = [*launch, "--HistoryManager.enabled=False", "--log-level=ERROR"]
        if starter.available():
            spec.metadata["kernel_provisioner"] = {"provisioner_name": starter.NAME}
        return spec


class PromptClient(AsyncKernelClient):
    """Takes a kernel as ready once it has answered, without waiting a fifth of a second for silence after it."""

    async def wait_for_ready(self, timeout: float | None = None) -> None:
        """Wait for an answer on both channels that running a cell needs; RuntimeError where none comes."""
        until_s = time.monotonic() + (float("inf") if timeout is None else timeout)
        while time.monotonic() < until_s and await self.is_alive():
            self.kernel_info()
            try:
                await self.get_shell_msg(timeout=1)
                await self.get_iopub_msg(timeout=0.2)
            except Empty:
                continue
            return
        raise RuntimeError("The kernel did not answer")


def as_stored(_request: object, notebook: NotebookNode, **_: object) -> NotebookNode:
    """The notebook with each cell whose answer is checked as a stored one, which the template shows unrun."""
    for at, cell in enumerate(notebook.cells):
        if cell.cell_type == "code" and cell.outputs and CHECKED in cell.metadata.get("tags", []):
            kept = {**cell.metadata, "stored": cell.outputs}
            notebook.cells[at] = new_raw_cell(cell.source, id=cell.id, metadata=kept)  # type: ignore[no-untyped-call]
    return notebook
