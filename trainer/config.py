"""Settings: one frozen object, built once from the environment and the instance folder.

Every setting has a name in the environment (``TRAINER_DATABASE``) and may stand, lower case and
without the prefix, in ``instance/settings.toml`` (``database = "…"``). The environment wins.
"""

from __future__ import annotations

import os
import secrets
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from trainer.errors import InputError, TrainerError

_PREFIX = "TRAINER_"
_PACKAGE = Path(__file__).parent
_TRUE, _FALSE = frozenset({"1", "true", "yes", "on"}), frozenset({"0", "false", "no", "off", ""})
_SHORTEST_SECRET = 32
_IN_FILE = frozenset({
    "argon2_lanes", "argon2_memory_kib", "argon2_passes", "database", "demo", "secret",
    "session_idle_s", "session_longest_s", "site_name", "time_zone", "trusted_proxies",
})  # fmt: skip
"""Settings that may stand in the file; the environment has these and two more."""
_ENVIRONMENT_ONLY = frozenset({"instance", "trace"})
_OF_TESTS = _PREFIX + "TESTS_"


@dataclass(frozen=True)
class Argon2Cost:
    """What one password hash costs. The defaults are the OWASP password storage cheat sheet's
    "m=19456 (19 MiB), t=2, p=1" (from memory)."""

    memory_kib: int = 19456
    passes: int = 2
    lanes: int = 1


@dataclass(frozen=True)
class Settings:
    """Everything the program takes from its surroundings; times in seconds."""

    instance: Path
    database: str
    secret: str = field(repr=False)
    demo: bool = False
    demo_password: str = "gravel stops the bucket slide"
    site_name: str = "Roof site"
    time_zone: str = "UTC"
    session_idle_s: int = 12 * 3600
    session_longest_s: int = 14 * 24 * 3600
    trusted_proxies: int = 0
    argon2: Argon2Cost = Argon2Cost()
    static: Path = _PACKAGE.parent / "static"

    @classmethod
    def load(
        cls,
        environment: Mapping[str, str] | None = None,
        given: Mapping[str, str | None] | None = None,
    ) -> Settings:
        """Settings from ``environment`` (default: the process's) and the instance folder.

        ``given`` holds what a command was told, by setting name; it wins, unless None.
        Creates the instance folder and its secret when they are not there yet.
        Raises InputError for a name that is no setting and for a value that cannot be taken,
        TrainerError for an unreadable file.
        """
        environment = dict(os.environ if environment is None else environment)
        told = {name: value for name, value in (given or {}).items() if value is not None}
        environment |= {_PREFIX + name.upper(): value for name, value in told.items()}
        instance = Path(environment.get(f"{_PREFIX}INSTANCE") or _default_instance()).absolute()
        _refuse_unknown_variables(environment)
        found = _Found(environment, _settings_file(instance))
        _make_folder(instance)
        return cls(
            instance=instance,
            database=_database(found, instance),
            secret=_long_enough(found.text("secret", "") or _kept_secret(instance / "secret")),
            demo=found.flag("demo", cls.demo),
            site_name=found.text("site_name", cls.site_name),
            time_zone=_time_zone(found.text("time_zone", cls.time_zone)),
            session_idle_s=found.number("session_idle_s", cls.session_idle_s, low=60),
            session_longest_s=found.number("session_longest_s", cls.session_longest_s, low=60),
            trusted_proxies=found.number("trusted_proxies", cls.trusted_proxies, low=0),
            argon2=_argon2(found),
            static=_beside_package("static"),
        )


class _Found:
    """Values by setting name: the environment first, then the settings file."""

    def __init__(self, environment: Mapping[str, str], from_file: Mapping[str, Any]) -> None:
        self._environment = environment
        self._from_file = from_file

    def text(self, name: str, default: str) -> str:
        value = self._value(name, default)
        if not isinstance(value, str):
            raise InputError(name, value, "text")
        return value

    def flag(self, name: str, default: bool) -> bool:
        value = str(self._value(name, default)).lower()
        if value not in _TRUE | _FALSE:
            raise InputError(name, value, "yes or no")
        return value in _TRUE

    def number(self, name: str, default: int, low: int) -> int:
        value = self._value(name, default)
        try:
            number = int(str(value))
        except ValueError:
            number = low - 1
        if number < low:
            raise InputError(name, value, f"a whole number ≥ {low}")
        return number

    def _value(self, name: str, default: Any) -> Any:
        from_file = self._from_file.get(name, default)
        return self._environment.get(_PREFIX + name.upper(), from_file)


def _default_instance() -> Path:
    """The checkout's ``instance/``, or one in the working folder for an installed program."""
    checkout = _PACKAGE.parent
    return (checkout if (checkout / "pyproject.toml").is_file() else Path.cwd()) / "instance"


def _beside_package(name: str) -> Path:
    """A top-level folder of the checkout, or the same folder inside an installed package."""
    packaged = _PACKAGE / name
    return packaged if packaged.is_dir() else _PACKAGE.parent / name


def _refuse_unknown_variables(environment: Mapping[str, str]) -> None:
    """A misspelt name would leave a default in force without a word. Values may be secret."""
    known = {_PREFIX + name.upper() for name in _IN_FILE | _ENVIRONMENT_ONLY}
    for name in sorted(environment):
        if name.startswith(_PREFIX) and not name.startswith(_OF_TESTS) and name not in known:
            raise InputError("environment variable", name, ", ".join(sorted(known)))


def _settings_file(instance: Path) -> Mapping[str, Any]:
    """What ``settings.toml`` says; nothing without the file. Refuses a name that is no setting."""
    content = _toml(instance / "settings.toml")
    for name in content:
        if name not in _IN_FILE:
            raise InputError("name in settings.toml", name, ", ".join(sorted(_IN_FILE)))
    return content


def _toml(path: Path) -> Mapping[str, Any]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return {}
    except OSError as problem:
        raise TrainerError(
            f"settings.toml cannot be read: {problem.strerror}.", "Mend its rights."
        ) from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as problem:
        raise TrainerError(f"settings.toml cannot be read: {problem}.", "Mend the file.") from None


def _make_folder(instance: Path) -> None:
    try:
        instance.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as problem:
        raise InputError("instance", str(instance), f"a folder ({problem.strerror})") from None


def _database(found: _Found, instance: Path) -> str:
    url = found.text("database", f"sqlite:///{instance / 'trainer.db'}")
    if not url.startswith(("sqlite:///", "postgresql")) or url.endswith((":///", ":memory:")):
        allowed = "sqlite:///FILE or postgresql+psycopg://…"
        raise InputError("database", url.partition("://")[0], allowed)
    return url


def _time_zone(name: str) -> str:
    try:
        return ZoneInfo(name).key
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise InputError("time_zone", name, 'an IANA name such as "America/Toronto"') from None


def _argon2(found: _Found) -> Argon2Cost:
    cost = Argon2Cost()
    return Argon2Cost(
        memory_kib=found.number("argon2_memory_kib", cost.memory_kib, low=8),
        passes=found.number("argon2_passes", cost.passes, low=1),
        lanes=found.number("argon2_lanes", cost.lanes, low=1),
    )


def _kept_secret(path: Path) -> str:
    """The secret that signs cookies; made on first need, readable by its owner alone.

    Written whole under another name and linked into place, so that two processes starting at the
    same moment end up with the same secret and none ever reads half of one.
    """
    if not path.exists():
        draft = path.with_name(f"secret.{secrets.token_hex(8)}")
        descriptor = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(descriptor, "w", encoding="ascii") as file:
            file.write(secrets.token_urlsafe(48))
        _link_unless_there(draft, path)
    return path.read_text(encoding="ascii", errors="replace").strip()


def _link_unless_there(draft: Path, path: Path) -> None:
    try:
        path.hardlink_to(draft)
    except FileExistsError:
        pass
    finally:
        draft.unlink()


def _long_enough(secret: str) -> str:
    if len(secret) < _SHORTEST_SECRET:
        problem = f"The secret has fewer than {_SHORTEST_SECRET} characters."
        raise TrainerError(problem, "Delete the file instance/secret; a new one is made.")
    return secret
