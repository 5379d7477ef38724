"""A theme: templates, style, script and palette, ours or from outside.

A folder of one's own stands in front of the built-in theme, file by file. Templates run in a sandbox: they
print what the view decided and reach nothing else.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType, TracebackType
from typing import Any, Final

import tomli
from jinja2 import (
    BaseLoader,
    Environment,
    StrictUndefined,
    TemplateError,
    TemplateNotFound,
    TemplateSyntaxError,
)
from jinja2.exceptions import SecurityError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from reportgen.model.values import dataclass
from reportgen.pages import places
from reportgen.pages.tables import shape
from reportgen.words import text

BUILT_IN: Final = "plain"
#: One file of a theme; its palette; and a page with all that it carries.
MOST_BYTES: Final = 4 * 2**20
MOST_PALETTE_BYTES: Final = 16 * 2**10
MOST_PAGE_LETTERS: Final = 512 * 2**20
SCHEMES: Final = ("light", "dark", "print")
_COLOUR: Final = re.compile(r"#[0-9a-fA-F]{6}")
_FORBIDDEN: Final = {
    ".css": re.compile(r"</style|@import|url\(\s*['\"]?(?!data:|#)", re.IGNORECASE),
    ".js": re.compile(r"</script|<!--", re.IGNORECASE),
}


class ThemeProblem(Exception):  # noqa: N818 - it is a problem to report, named like the others
    """A theme can't be used; the message names the file and, where it is known, the line."""

    def __init__(self, place: str, reason: str) -> None:
        super().__init__(place, reason)  # as they came: what a worker raises is made again from these
        self.place = place
        self.reason = reason

    def __str__(self) -> str:
        """Where, and what."""
        return f"{self.place}: {self.reason}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """A theme, read."""

    name: str  # for messages
    folders: tuple[Path, ...]  # where its files are looked for, the first one first
    palette: Mapping[str, Mapping[str, str]]  # scheme (light, dark, print) -> role -> colour
    environment: Environment  # renders its templates

    def text(self, file: str) -> str:
        """A style or script of the theme, ready to stand inside its element.

        Raises:
            ThemeProblem: It is missing, not UTF-8, would end its element or names another file.
        """
        path, source = _read(self.folders, file)
        forbidden = _FORBIDDEN[Path(file).suffix].search(source)
        if forbidden is not None:
            line = source.count("\n", 0, forbidden.start()) + 1
            raise ThemeProblem(f"{path}:{line}", text("pages.theme.forbidden", found=repr(forbidden[0])))
        return source

    def added(self, file: str) -> str:
        """As `text`; empty where the theme has no such file: it is one that a theme may have."""
        return self.text(file) if any((folder / file).is_file() for folder in self.folders) else ""

    def render(self, template: str, values: Mapping[str, Any]) -> str:
        """Fill a template.

        Raises:
            ThemeProblem: The template is missing, is no template or fails while it is filled.
        """
        try:
            return _whole(self.environment.get_template(template).generate(values), f"{self.folders[0]}")
        except TemplateNotFound as error:
            raise ThemeProblem(
                f"{self.folders[0]}", text("pages.theme.no_template", file=str(error.name))
            ) from error
        except TemplateSyntaxError as error:
            raise ThemeProblem(
                f"{error.filename or error.name}:{error.lineno}", str(error.message)
            ) from error
        except RecursionError as error:
            raise ThemeProblem(f"{self.folders[0]}", text("pages.theme.endless", file=template)) from error
        except (TemplateError, ArithmeticError, LookupError, TypeError, ValueError, AttributeError) as error:
            place = _template_place(error.__traceback__, self.folders)
            if place is None:
                raise
            raise ThemeProblem(place, str(error) or type(error).__name__) from error


def _whole(pieces: Iterator[str], place: str) -> str:
    """A page's pieces joined, as long as a page can be."""
    found, left = [], MOST_PAGE_LETTERS
    for piece in pieces:
        left -= len(piece)
        if left < 0:
            raise ThemeProblem(place, text("pages.theme.grows", most=str(MOST_PAGE_LETTERS)))
        found.append(piece)
    return "".join(found)


def load(theme: str | Path = BUILT_IN) -> Theme:
    """Read a theme.

    Args:
        theme: The name of a built-in one, or a folder that overrides some of its files.

    Raises:
        ThemeProblem: There is no such theme, or its palette can't be read.
    """
    ours = places.data("themes")
    if isinstance(theme, str) and re.fullmatch(r"[a-z][a-z0-9-]*", theme) and (ours / theme).is_dir():
        return _of_ours(theme)
    own = Path(theme)
    if not own.is_dir():
        raise ThemeProblem(str(theme), text("pages.theme.none"))
    return _made(str(theme), (own, ours / BUILT_IN), _Sandbox)


@cache
def _of_ours(name: str) -> Theme:
    """A built-in theme, its templates compiled once for all lifters: it does not change while we run.

    It is filled in outside of the sandbox, which looks at each attribute of each value.
    """
    ours = places.data("themes")
    folders = (ours / name,) if name == BUILT_IN else (ours / name, ours / BUILT_IN)
    return _made(name, folders, Environment)


def _made(name: str, folders: tuple[Path, ...], kind: type[Environment]) -> Theme:
    environment = kind(
        loader=_Templates(folders),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    environment.globals.update(word=word, shape=shape)
    del environment.filters["safe"]  # what is clean already comes as Markup; a template has no need to vouch
    return Theme(name=name, folders=folders, palette=_palette(folders), environment=environment)


def word(key: str, **values: str | int) -> str:
    """What a template says: the message `pages.KEY`, its placeholders filled in."""
    return text(f"pages.{key}", **values)


def files(theme: str | Path = BUILT_IN) -> tuple[tuple[str, bytes], ...]:
    """Name and content of every file that a theme is read from, the built-in ones behind it too.

    Raises:
        ThemeProblem: There is no such theme, or a file of it can't be read.
    """
    try:
        return tuple(
            (f"{place}/{path.name}", _bytes(path, MOST_BYTES))
            for place, folder in enumerate(load(theme).folders)
            for path in sorted(folder.iterdir())
            if path.is_file()
        )
    except OSError as error:
        raise ThemeProblem(str(error.filename), error.strerror or str(error)) from error


def _bytes(path: Path, most: int) -> bytes:
    with path.open("rb") as file:
        content = file.read(most + 1)
    if len(content) > most:
        raise ThemeProblem(str(path), text("pages.theme.large", most=str(most)))
    return content


class _Sandbox(ImmutableSandboxedEnvironment):
    """The sandbox, and no sum that takes all memory: a template prints, it has nothing to multiply."""

    intercepted_binops = frozenset(("*", "**"))

    def call_binop(self, _context: Any, operator: str, left: Any, right: Any) -> Any:
        """Multiply small numbers; refuse anything else."""
        if operator == "*" and all(isinstance(one, int | float) for one in (left, right)):
            return left * right
        raise SecurityError(text("pages.theme.operator", operator=operator))


class _Templates(BaseLoader):
    """Templates by plain file name; a link out of the theme's folder is not followed."""

    def __init__(self, folders: tuple[Path, ...]) -> None:
        self.folders = folders

    def get_source(self, _environment: Any, template: str) -> tuple[str, str, None]:
        if not re.fullmatch(r"[A-Za-z0-9_-]+\.html", template):
            raise TemplateNotFound(template)
        try:
            path, source = _read(self.folders, template)
        except ThemeProblem as error:
            raise TemplateNotFound(template, str(error)) from error
        return source, str(path), None


def _read(folders: tuple[Path, ...], file: str, most: int = MOST_BYTES) -> tuple[Path, str]:
    for folder in folders:
        path = folder / file
        if not path.is_file():
            continue
        if not path.resolve().is_relative_to(folder.resolve()):
            raise ThemeProblem(str(path), text("pages.theme.out"))
        try:
            return path, _bytes(path, most).decode("utf-8").replace("\r\n", "\n")
        except (OSError, UnicodeError) as error:
            raise ThemeProblem(str(path), text("pages.archive.unreadable", why=str(error))) from error
    raise ThemeProblem(str(folders[0]), text("pages.theme.no_file", file=file))


def _palette(folders: tuple[Path, ...]) -> Mapping[str, Mapping[str, str]]:
    """Every scheme's colours; an own palette may name a few roles only."""
    merged: dict[str, dict[str, str]] = {scheme: {} for scheme in SCHEMES}
    for folder in reversed(folders):
        if not (folder / "palette.toml").is_file():
            continue
        path, source = _read((folder,), "palette.toml", MOST_PALETTE_BYTES)
        try:
            found = tomli.loads(source)
        except RecursionError as error:
            raise ThemeProblem(str(path), text("pages.theme.brackets")) from error
        except ValueError as error:  # TOMLDecodeError is one; so is a number of thousands of digits
            raise ThemeProblem(str(path), str(error)) from error
        for scheme, roles in found.items():
            if scheme not in SCHEMES or not isinstance(roles, dict):
                raise ThemeProblem(
                    str(path), text("pages.theme.scheme", found=scheme, known=", ".join(SCHEMES))
                )
            for role, colour in roles.items():
                if not isinstance(colour, str) or not _COLOUR.fullmatch(colour):
                    told = text(
                        "pages.theme.colour",
                        role=f"{scheme}.{role}",
                        found=repr(colour) if isinstance(colour, str) else type(colour).__name__,
                    )
                    raise ThemeProblem(str(path), told)
                if not re.fullmatch(r"[a-z]+(-[a-z0-9]+)*", role):
                    raise ThemeProblem(str(path), text("pages.theme.role", role=f"{scheme}.{role!r}"))
            merged[scheme] |= roles
    return MappingProxyType({scheme: MappingProxyType(roles) for scheme, roles in merged.items()})


def _template_place(trace: TracebackType | None, folders: tuple[Path, ...]) -> str | None:
    """The innermost line of a template in a traceback, or None where no template is in it."""
    place = None
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if file.endswith(".html") and any(Path(file).parent == folder for folder in folders):
            place = f"{file}:{trace.tb_lineno}"
        trace = trace.tb_next
    return place


def markup(text: str) -> Markup:
    """Text that this package made itself and that is clean already, marked as such for a template."""
    return Markup(text)
