"""How a page gets its kernel: when it counts as ready, and which cells it need not run."""

from __future__ import annotations

import asyncio
from concurrent.futures import ThreadPoolExecutor
from queue import Empty

import pytest
from nbformat import v4

from rigcalc.widgets.kernels import CHECKED, PromptClient, as_stored


class Channels(PromptClient):
    """A client whose kernel answers as it is told."""

    def __init__(self, answers: list[bool], alive: int = 100) -> None:
        super().__init__()
        self.answers, self.alive, self.asked = answers, alive, 0

    def kernel_info(self, *_: object, **__: object) -> str:
        self.asked += 1
        return "1"

    async def is_alive(self) -> bool:
        self.alive -= 1
        return self.alive >= 0

    async def get_shell_msg(self, *_: object, **__: object) -> dict:
        if not self.answers.pop(0):
            raise Empty
        return {}

    get_iopub_msg = get_shell_msg


def wait(client: Channels, timeout: float | None) -> None:
    """In a thread of its own: a browser of other tests may have left a loop running in this one."""
    with ThreadPoolExecutor(1) as pool:
        pool.submit(lambda: asyncio.run(client.wait_for_ready(timeout))).result()


@pytest.mark.parametrize(
    ("answers", "asked"), [([True, True], 1), ([False, True, True], 2), ([True, False, True, True], 2)]
)
def test_a_kernel_is_ready_once_it_answers_on_both_channels(answers, asked):
    client = Channels(answers)
    wait(client, 60)
    assert (client.asked, client.answers) == (asked, [])


@pytest.mark.parametrize(("alive", "timeout"), [(1, None), (100, 0)])
def test_a_kernel_that_ends_or_stays_silent_is_an_error(alive, timeout):
    with pytest.raises(RuntimeError, match="did not answer"):
        wait(Channels([False] * 9, alive), timeout)


def test_only_checked_cells_with_an_answer_are_kept_as_stored():
    answer = [v4.new_output("execute_result", {"text/plain": "5"}, execution_count=1)]
    cells = [
        v4.new_markdown_cell("# Which?"),
        v4.new_code_cell("2 + 3", outputs=answer, metadata={"tags": [CHECKED]}),
        v4.new_code_cell("2 + 4", metadata={"tags": [CHECKED]}),
        v4.new_code_cell("3 + 4", outputs=answer),
        v4.new_code_cell("view()", metadata={"tags": ["view"]}),
    ]
    kept = as_stored(None, v4.new_notebook(cells=cells), cwd=".")
    assert [cell.cell_type for cell in kept.cells] == ["markdown", "raw", "code", "code", "code"]
    assert kept.cells[1].source == "2 + 3"
    assert kept.cells[1].metadata["stored"] == answer
