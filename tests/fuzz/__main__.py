"""
Fuzz a reader for a while: `python -m tests.fuzz TARGET [SECONDS]`; needs `requirements-fuzz.txt`.

An input that breaks a reader is left in `crash-…`; mend the reader, then keep the input in `tests/fuzz/cases/TARGET/`.
"""

import sys
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["macros", "markdown", "yaml", "jinja2"]):
    from tests.fuzz.targets import TARGETS

CASES = Path(__file__).parent / "cases"


def main() -> None:
    name, seconds = sys.argv[1], sys.argv[2] if len(sys.argv) > 2 else "60"
    options = [f"-max_total_time={seconds}", "-max_len=4096", "-rss_limit_mb=1024", "-timeout=60"]
    found = Path("build/fuzz") / name  # what reaches further goes to the first folder; the cases are only read
    found.mkdir(parents=True, exist_ok=True)
    atheris.Setup([sys.argv[0], *options, str(found), str(CASES / name)], TARGETS[name])
    atheris.Fuzz()


main()
