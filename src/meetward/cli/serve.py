"""``meetward serve``: the site of a club on this machine."""

import os
import socket
import threading
import time
from http.client import HTTPConnection
from pathlib import Path
from typing import Annotated, NoReturn

import django
import typer
from django.core.exceptions import ImproperlyConfigured
from django.core.management import call_command
from granian import Granian
from granian.constants import Interfaces
from granian.log import LogLevels

from meetward.web.data_folder import DRAWINGS, BadSetting, own_drawings

PORT = 8620
ANSWER_SECONDS = 60

PortOption = Annotated[
    int, typer.Option(min=1, max=65535, help="Where to listen; the next free one when it is taken.")
]
HostOption = Annotated[str, typer.Option(help="Address to listen on; 0.0.0.0 for every one of this machine.")]
DataOption = Annotated[
    Path | None,
    typer.Option(
        help="Folder of the database and everything else that is kept.",
        file_okay=False,
        envvar="MEETWARD_DATA",
    ),
]


def serve(
    port: PortOption = PORT,
    host: HostOption = "127.0.0.1",
    data: DataOption = None,
    club: Annotated[str, typer.Option(help="Begin a club of this name before serving; needs --owner.")] = "",
    owner: Annotated[str, typer.Option(help="Name by which its owner coach signs in.")] = "",
) -> None:
    """Serve the site of your club; the data stand in ./meetward-data unless you name another folder.

    The first time: meetward serve --club "Your club" --owner you. It asks for your password.
    """
    if bool(club) != bool(owner):
        stop("A new club needs both: --club with its name and --owner with the name its owner signs in by.")
    prepare(data or Path("meetward-data"), demo=False)
    # Only now: the rows can be imported after Django knows its settings.
    from meetward.web.actions import beginning

    if club:
        password = typer.prompt("Password of the owner coach", hide_input=True, confirmation_prompt=True)
        try:
            beginning.begin_club(club, owner, password)
        except beginning.Refused as refused:
            stop(str(refused))
    elif not beginning.has_club():
        typer.echo(
            'Nobody can sign in yet. Stop this and run: meetward serve --club "Your club" --owner you',
            err=True,
        )
    run(host, port)


def prepare(data: Path, *, demo: bool) -> None:
    """Django with its database and static files, ready in ``data``; a bad setting ends it in words."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "meetward.web.settings"
    os.environ["MEETWARD_DATA"] = str(data.expanduser().resolve())
    os.environ["MEETWARD_DEMO"] = "1" if demo else ""
    try:
        django.setup()
        call_command("migrate", verbosity=0, interactive=False)
        call_command("collectstatic", verbosity=0, interactive=False)
        for problem in own_drawings(data)[1]:
            typer.echo(f"{data / DRAWINGS}: {problem}", err=True)
    except BadSetting as error:
        stop(str(error))
    except ImproperlyConfigured as error:
        stop(
            f"The database cannot be used ({str(error).strip()}). For PostgreSQL install meetward[postgres]; "
            "leave DATABASE_URL out for SQLite."
        )
    except django.db.Error as error:
        stop(f"The database does not answer: {str(error).strip()}. Check DATABASE_URL or the data folder.")
    except OSError as error:
        stop(
            f"{error.filename or data} cannot be written ({error.strerror}). "
            "Choose another folder with --data."
        )


def run(host: str, port: int, *, words: str = "Meetward answers at {address}") -> None:
    """Serve until somebody stops it; ``words`` are printed once the site answers."""
    listening = free_port(host, port)
    if listening != port:
        typer.echo(f"Port {port} is taken; listening on {listening}.", err=True)
    shown = "127.0.0.1" if host in ("0.0.0.0", "") else host
    address = f"http://{f'[{shown}]' if ':' in shown else shown}:{listening}/"
    threading.Thread(
        target=_say_when_it_answers, args=(shown, listening, words.format(address=address)), daemon=True
    ).start()
    Granian(
        "meetward.web.wsgi:application",
        address=host,
        port=listening,
        interface=Interfaces.WSGI,
        workers=1,
        blocking_threads=4,
        log_level=LogLevels.warning,
        websockets=False,
    ).serve()


def free_port(host: str, wanted: int) -> int:
    """``wanted`` if nothing listens there, else the next free port after it, else any free one."""
    for port in (*range(wanted, min(wanted + 20, 65536)), 0):
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        with socket.socket(family, socket.SOCK_STREAM) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((host, port))
            except OSError:
                continue
            return int(probe.getsockname()[1])
    return stop(f"Nothing can listen on {host}. Name another address with --host.")


def stop(words: str) -> NoReturn:
    """End the command with words on standard error and exit code 2."""
    typer.echo(words, err=True)
    raise typer.Exit(2)


def _say_when_it_answers(host: str, port: int, words: str) -> None:
    until = time.monotonic() + ANSWER_SECONDS
    while time.monotonic() < until:
        try:
            connection = HTTPConnection(host, port, timeout=5)
            connection.request("GET", "/", headers={"Host": f"{host}:{port}"})
            connection.getresponse().read()
        except OSError:
            time.sleep(0.1)
        else:
            typer.echo(words)
            return
    typer.echo(f"The site has not answered for {ANSWER_SECONDS} seconds; see the lines above.", err=True)
