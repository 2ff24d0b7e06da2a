"""What takes long is made once for all tests, whichever process of theirs asks first."""

import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
WITHOUT_GENERATOR = """
import sys

class Uninstalled:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in {blocked!r}:
            raise ModuleNotFoundError(f"No module named {{name!r}}", name=name)

sys.meta_path.insert(0, Uninstalled())
from pathlib import Path
from macros.pages.edition import Edition

edition, faults = Edition.of(Path({docs!r}))
print(len(edition.finished))
sys.exit("\\n".join(map(str, faults)) or 0)
"""
GENERATOR = ("mkdocs", "mkdocs_macros", "material")


def made_once(folder: Path, make) -> Path:
    """A folder that the first process to ask makes; the others wait for it, so that what takes long is made once for all."""
    done, failed = (folder.with_name(f"{folder.name}.{word}") for word in ("done", "failed"))
    try:
        folder.with_name(f"{folder.name}.begun").touch(exist_ok=False)
    except FileExistsError:
        while not done.exists():
            if failed.exists():
                pytest.fail(f"{folder.name} was not made: {failed.read_text(encoding='utf-8')}")
            time.sleep(0.2)
        return folder
    try:
        make(folder)
    except BaseException as error:
        failed.write_text(str(error), encoding="utf-8")
        raise
    done.touch()
    return folder
