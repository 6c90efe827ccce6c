"""How far a long command has come, shown on a terminal and silent elsewhere."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from rich.console import Console


@contextmanager
def progress(console: Console) -> Iterator[Callable[[str, int, int], None]]:
    """Yield a function `moved(step, done, of)` that draws a bar for each step."""
    if not console.is_terminal:
        yield lambda _step, _done, _of: None
        return
    bar = Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        console=console,
        transient=True,
    )
    tasks: dict[str, object] = {}
    with bar:

        def moved(step: str, done: int, of: int) -> None:
            if step not in tasks:
                tasks[step] = bar.add_task(step, total=of)
            bar.update(tasks[step], completed=done, total=of)  # type: ignore[arg-type]

        yield moved
