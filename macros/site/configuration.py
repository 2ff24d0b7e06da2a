"""
What a handbook's `mkdocs.yml` may say.

The generator reads that file with everything its YAML can do, which is to run anything; it would follow hooks, plugins,
folders of templates and a `main.py` beside it. So the file is read here first, as the strict subset in which plants are
written, and may set a few things only: then a whole handbook is data, whoever sent it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final

from macros.description import strict_yaml
from macros.description.plain_files import content_of
from macros.quantities import Fault, Faults, say
from macros.quantities.languages import SOURCE, languages

__all__ = ["configuration_faults", "edition_line", "languages_in", "languages_of"]

CONFIGURATION: Final = "mkdocs.yml"
STRANGERS: Final = ("main.py", "main", "hooks.py", "overrides")
"""What the generator or its plugins would run or take templates from, beside the configuration."""

_ADDRESS: Final = re.compile(r"https?://[A-Za-z0-9.-]+(?::[0-9]+)?(?:/[A-Za-z0-9._~/-]*)?")


def _words(value: Any) -> bool:
    return isinstance(value, str) and 0 < len(value) <= 300 and not re.search(r"[<>&\"\n{}]", value)


def _address(value: Any) -> bool:
    return isinstance(value, str) and _ADDRESS.fullmatch(value) is not None


def _is(*known: Any) -> Callable[[Any], bool]:
    return lambda value: any(value == one and type(value) is type(one) for one in known)


def _checks(value: Any) -> bool:
    """What the generator does about links: warn, so that the build fails; what is left out of the navigation is ours."""
    return isinstance(value, dict) and all(
        isinstance(inside, dict)
        and all(one == "warn" or (key, one) == ("omitted_files", "ignore") for key, one in inside.items())
        for inside in value.values()
    )


def _languages(value: Any) -> bool:
    """The language in which the handbook is written, then those in which it is published too, each once."""
    return isinstance(value, list) and 0 < len(value) == len(set(map(str, value))) and set(value) <= set(languages())


PLUGINS: Final = [{"macros": {"modules": ["macros.site.registered"], "render_by_default": False}}, "gaswright"]

KNOWN: Final[Mapping[tuple[str, ...], Callable[[Any], bool]]] = {
    ("site_name",): _words,
    ("site_description",): _words,
    ("site_url",): _address,
    ("copyright",): _words,
    ("use_directory_urls",): _is(False),
    ("strict",): _is(True),
    ("theme", "name"): _is("material"),
    ("theme", "font"): _is(False),
    ("extra", "generator"): _is(False),
    ("extra", "edition"): _words,
    ("extra", "newer_at"): _address,
    ("extra", "languages"): _languages,
    ("plugins",): lambda value: value == PLUGINS,
    ("validation",): _checks,
}
"""The settings that may stand in the file, each with what it may hold."""

NEEDED: Final = (
    ("site_name",),
    ("use_directory_urls",),
    ("strict",),
    ("theme", "name"),
    ("theme", "font"),
    ("plugins",),
)


def configuration_faults(handbook: Path) -> list[Fault]:
    """
    What is wrong with the configuration of a handbook, and what beside it would run.

    Parameters
    ----------
    handbook : Path
        The folder that holds `mkdocs.yml` and `docs/`.
    """
    try:
        content = content_of(handbook / CONFIGURATION, strict_yaml.LARGEST_BYTES)
    except OSError:
        return [Fault(str(handbook / CONFIGURATION), 0, "", say("site.no_configuration"))]
    try:
        document = strict_yaml.parse(content, CONFIGURATION)
    except Faults as error:
        return list(error)
    faults = list(document.faults)
    settings = _flat(document.data)
    for path, value in settings.items():
        fits = KNOWN.get(path)
        if fits is None:
            known = ", ".join(dict.fromkeys(".".join(one) for one in KNOWN))
            faults.append(Fault(CONFIGURATION, document.line(path), ".".join(path), say("site.setting", known=known)))
        elif not fits(value):
            faults.append(Fault(CONFIGURATION, document.line(path), ".".join(path), say("site.setting_value")))
    faults += [
        Fault(CONFIGURATION, 0, ".".join(path), say("site.setting_missing"))
        for path in NEEDED
        if path not in settings and not document.faults
    ]
    faults += [Fault(name, 0, "", say("site.would_run")) for name in STRANGERS if (handbook / name).exists()]
    return sorted(faults)


def languages_of(handbook: Path) -> tuple[str, ...]:
    """
    The languages of a handbook: the one in which it is written, then those into which it is translated.

    Raises
    ------
    Faults
        If its configuration is none.
    """
    if faults := configuration_faults(handbook):
        raise Faults(faults)
    document = strict_yaml.parse(content_of(handbook / CONFIGURATION, strict_yaml.LARGEST_BYTES), CONFIGURATION)
    return languages_in(document.data.get("extra") or {})


def languages_in(extra: Mapping[str, Any]) -> tuple[str, ...]:
    """The same, from the settings of the handbook's own that stand under `extra`."""
    return tuple(extra.get("languages") or (SOURCE,))


def _flat(data: Mapping[str, Any]) -> dict[tuple[str, ...], Any]:
    """Settings by path; those of the theme and of `extra` one by one, all others whole."""
    found: dict[tuple[str, ...], Any] = {}
    for key, value in data.items():
        if key in ("theme", "extra") and isinstance(value, dict):
            found.update({(key, name): one for name, one in value.items()})
        else:
            found[key,] = value
    return found


def edition_line(extra: Mapping[str, Any], version: str) -> str:
    """What stands on every page of which edition it is and where a newer one may be; words only, no request."""
    edition, newer_at = str(extra.get("edition") or ""), str(extra.get("newer_at") or "")
    told = say("site.edition", edition=edition, version=version) if edition else say("site.version", version=version)
    return f"{told} {say('site.newer_at', address=newer_at)}" if newer_at else told
