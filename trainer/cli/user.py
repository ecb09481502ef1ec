"""``trainer user``: people and their first passwords, from the machine the program runs on."""

from __future__ import annotations

import sys

import click

from trainer.app import make_parts
from trainer.config import Settings
from trainer.errors import InputError
from trainer.services import accounts
from trainer.services.parts import Parts
from trainer.services.site import require_current


@click.group()
def user() -> None:
    """Add people and give them passwords.

    Example: trainer user add "Ana Ruiz" --sign-in ana --role supervisor --crew North
    """


@user.command()
@click.argument("name")
@click.option("--sign-in", "sign_in", required=True, metavar="NAME", help="Name to sign in with.")
@click.option(
    "--role", "roles", multiple=True, type=click.Choice(accounts.ROLES), default=["worker"],
    show_default=True, help="May be given several times.",
)  # fmt: skip
@click.option("--crew", default="", help="Crew; made when there is none of that name.")
@click.option("--password-stdin", is_flag=True, help="Read the first password from input.")
def add(name: str, sign_in: str, roles: tuple[str, ...], crew: str, password_stdin: bool) -> None:
    """Add a person who can sign in. They choose their own password when they first do.

    A supervisor leads the crew given. The password needs 15 characters.

    Example: trainer user add "Ana Ruiz" --sign-in ana --role supervisor --crew North
    """
    parts = _parts()
    new = accounts.NewPerson(name, sign_in, _password(password_stdin), roles, crew)
    accounts.add_person(parts, new)
    click.echo(f"{name} can sign in as {sign_in.strip()}.")


@user.command()
@click.argument("sign_in")
@click.option("--password-stdin", is_flag=True, help="Read the password from input.")
def password(sign_in: str, password_stdin: bool) -> None:
    """Give somebody a new first password. Ends their sessions and lifts a block.

    Example: trainer user password ana
    """
    parts = _parts()
    accounts.set_password(parts, sign_in, _password(password_stdin))
    click.echo(f"{sign_in} has a new first password.")


def _parts() -> Parts:
    parts = make_parts(Settings.load())
    require_current(parts.database)
    return parts


def _password(from_input: bool) -> str:
    """As typed, to the letter; from input without the line's end."""
    if not from_input:
        return click.prompt("Password", hide_input=True, confirmation_prompt=True)
    line = sys.stdin.buffer.readline().rstrip(b"\r\n")
    try:
        return line.decode("utf-8")
    except UnicodeDecodeError:
        raise InputError("password", "(not shown)", "text in UTF-8") from None
