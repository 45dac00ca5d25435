"""The bench set up and run: workers, server and the watch over the author's files, until it is stopped."""

import asyncio
import signal
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Any

import uvicorn
from watchfiles import awatch

from foldproof.documents.theme_folders import PLAIN, theme_folder, themes_folder
from foldproof.preview.bench import Bench
from foldproof.preview.server import application
from foldproof.preview.task import WORKS, Task
from foldproof.preview.worker import Newest, Worker

SETTLE_MS, LOOK_MS = 400, 20
"""Saves that follow each other closely count as one, over when nothing changes for LOOK_MS, or after SETTLE_MS."""
LAST = 1
"""Seconds that open connections are given when the bench is closed."""


def take_port(port: int) -> socket.socket:
    """A socket on this machine's own address, reachable from nowhere else; 0 takes any port that is free.

    Raises OSError where the port is taken.
    """
    taken = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        taken.bind(("127.0.0.1", port))
    except OSError:
        taken.close()
        raise
    return taken


def run(task: Task, taken: socket.socket, ready: Callable[[str], None]) -> None:
    """Run until it is interrupted, or asked to end. `ready` is given the address once it answers."""
    signal.signal(signal.SIGTERM, signal.default_int_handler)  # ended either way, the workers are ended, too
    newest = Newest()
    workers: dict[str, Worker] = {}
    try:
        asyncio.run(_run(task, taken, ready, newest, workers))
    except KeyboardInterrupt:
        pass
    finally:
        for worker in workers.values():
            worker.stop()
        taken.close()


async def _run(
    task: Task, taken: socket.socket, ready: Callable[[str], None], newest: Newest, workers: dict[str, Worker],
) -> None:
    loop = asyncio.get_running_loop()

    def ask(work: str, number: int) -> None:
        newest.now(number)
        workers[work].ask(number)

    bench = Bench(task, ask)

    def told(number: int, kind: str, result: Any) -> None:
        if not loop.is_closed():
            loop.call_soon_threadsafe(bench.take, number, kind, result)

    workers |= {work: Worker(work, task, newest, told) for work in WORKS}
    port = taken.getsockname()[1]
    servers: list[uvicorn.Server] = []

    def closing() -> bool:
        return any(server.should_exit for server in servers)

    server = uvicorn.Server(uvicorn.Config(
        application(bench, port, closing), log_level="error", access_log=False, lifespan="off",
        timeout_graceful_shutdown=LAST, server_header=False, ws="none"))
    servers.append(server)
    bench.saved()
    watching = asyncio.create_task(_watch(bench, task, closing))
    serving = asyncio.create_task(server.serve(sockets=[taken]))
    while not server.started and not serving.done():
        await asyncio.sleep(0.02)
    ready(f"http://127.0.0.1:{port}/")
    await serving
    watching.cancel()


async def _watch(bench: Bench, task: Task, closing: Callable[[], bool]) -> None:
    """Tell the bench of every save, whatever way an editor has of saving: its folder is looked at, not the file."""
    theme = (theme_folder(task.theme) or themes_folder() / PLAIN).resolve()
    seen = await asyncio.to_thread(_stamp, task.recipe)
    while not closing():
        folders = bench.folders | {task.recipe.resolve().parent, theme}
        more = asyncio.Event()
        looking = asyncio.create_task(_folders_differ(bench, folders, theme, more))
        async for changes in awatch(
            *folders, debounce=SETTLE_MS, step=LOOK_MS, recursive=False, stop_event=more, watch_filter=None,
        ):
            if any(bench.concerns(Path(path), theme) for _, path in changes):
                seen = await asyncio.to_thread(_stamp, task.recipe)
                bench.saved()
        looking.cancel()
        if (now := await asyncio.to_thread(_stamp, task.recipe)) != seen:
            seen = now
            bench.saved()


async def _folders_differ(bench: Bench, folders: frozenset[Path], theme: Path, more: asyncio.Event) -> None:
    """Set `more` once the card has to do with other folders."""
    own = bench.task.recipe.resolve().parent
    while bench.folders | {own, theme} == folders:
        await bench.after(bench.version, 60)
    more.set()


def _stamp(path: Path) -> tuple[int, int]:
    try:
        state = path.stat()
    except OSError:
        return 0, 0
    return state.st_mtime_ns, state.st_size
