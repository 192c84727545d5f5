"""Put the app together: the workshop, the guard and the pages."""

import contextlib
from collections.abc import AsyncIterator, Sequence
from os import PathLike, fspath
from pathlib import Path

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles

from crankwise.tasks.joining import Joining
from crankwise.tasks.workshop import open_workshop
from crankwise.web.errors import our_own_fault, refusal
from crankwise.web.guard import Guard
from crankwise.web.routes import ROUTES


def create_app(
    store_path: str | PathLike[str] | None,
    demo: bool = False,
    allowed_hosts: Sequence[str] = (),
    joining: Joining | None = None,
) -> Starlette:
    """Return the web app on one store.

    store_path     the store's file; None for the platform's own place
    demo           whether an empty store gets the demo workshop
    allowed_hosts  names this server may be called by, beside the loopback ones; no ports
    joining        how phones on the network come in; None where all who can reach the server may

    Raises StoreTrouble when the store cannot be opened.
    """
    workshop = open_workshop(None if store_path is None else fspath(store_path), demo=demo)

    @contextlib.asynccontextmanager
    async def lifespan(app: Starlette) -> AsyncIterator[None]:
        yield
        workshop.close()

    app = Starlette(
        routes=[*ROUTES, Mount("/static", StaticFiles(directory=Path(__file__).parent / "static"))],
        middleware=[Middleware(Guard, allowed_hosts=tuple(allowed_hosts), joining=joining)],
        exception_handlers={HTTPException: refusal, Exception: our_own_fault},
        lifespan=lifespan,
    )
    app.state.workshop = workshop
    app.state.joining = joining
    return app
