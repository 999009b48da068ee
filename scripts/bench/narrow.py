"""A narrow line in front of a server: 10 Mbit/s for everything together, and half of 60 ms each way.

A browser's own throttling does not reach its workers, where most of the bytes are fetched; this does.
"""

from __future__ import annotations

import asyncio
import threading
import time

BYTES_A_SECOND = 10e6 / 8
ONE_WAY = 0.030
PIECE = 16_384
LATE = 0.005


class NarrowLine:
    """Passes connections on to a port of this machine; connect to `port`. `open_wide`: everything passes at once."""

    def __init__(self, upstream: int) -> None:
        self._upstream = upstream
        self._turn = asyncio.Lock()
        self._free_at = 0.0
        self.open_wide = False
        self.port = 0
        ready = threading.Event()
        self._loop = asyncio.new_event_loop()
        threading.Thread(target=self._run, args=(ready,), daemon=True).start()
        ready.wait(10)

    def _run(self, ready: threading.Event) -> None:
        asyncio.set_event_loop(self._loop)
        server = self._loop.run_until_complete(asyncio.start_server(self._connected, "127.0.0.1", 0))
        self.port = server.sockets[0].getsockname()[1]
        ready.set()
        self._loop.run_forever()

    async def _connected(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            there, back = await asyncio.open_connection("127.0.0.1", self._upstream)
        except OSError:
            writer.close()
            return
        await asyncio.gather(self._pass_on(reader, back, 0.0), self._pass_on(there, writer, 1 / BYTES_A_SECOND))

    async def _pass_on(self, source: asyncio.StreamReader, target: asyncio.StreamWriter, cost: float) -> None:
        """Each piece arrives after the line was free for it and the way was gone; a later piece waits behind it."""
        pieces: asyncio.Queue[tuple[float, bytes]] = asyncio.Queue()

        async def deliver() -> None:
            while True:
                due, piece = await pieces.get()
                await asyncio.sleep(max(0.0, due - time.monotonic()))
                if not piece:
                    break
                target.write(piece)
                await target.drain()

        delivering = asyncio.ensure_future(deliver())
        try:
            while piece := await source.read(PIECE):
                if self.open_wide:
                    await pieces.put((time.monotonic(), piece))
                    continue
                if cost:
                    # Connections take turns, a piece each: none waits behind all that another has asked for.
                    async with self._turn:
                        # By the clock, so that a sleep which lasts a little too long is made up for by the next.
                        self._free_at = max(self._free_at, time.monotonic() - LATE) + len(piece) * cost
                        await asyncio.sleep(self._free_at - time.monotonic())
                await pieces.put((time.monotonic() + ONE_WAY, piece))
            await pieces.put((time.monotonic() + ONE_WAY, b""))
            await delivering
        except OSError:
            delivering.cancel()
        finally:
            target.close()
