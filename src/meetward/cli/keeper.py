"""Writing files into a folder without harm to what stands there."""

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from meetward.publish.paper import OUR_MARK


class Keeper:
    """Writes into a folder, whole files only, and never over a file that is not from here.

    files : written so far; ``replaced`` of them took the place of a file of an earlier run.
    troubles : whole sentences; what they are about was not written.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.files: list[Path] = []
        self.replaced = 0
        self.troubles: list[str] = []

    def write(self, name: str, make: Callable[[], bytes]) -> None:
        """Write what ``make`` gives, unless somebody else's file stands there."""
        path = self.folder / name
        try:
            there = path.exists() or path.is_symlink()
            if there and not _is_ours(path):
                self.troubles.append(
                    f"{path} was not written by Meetward, so it stays as it is. "
                    "Move it away or choose another folder with --out."
                )
                return
            path.parent.mkdir(parents=True, exist_ok=True)
            _write_whole(path, make())
        except OSError as error:
            self.troubles.append(f"{path} cannot be written ({error.strerror}).")
            return
        self.replaced += there
        self.files.append(path)


def _is_ours(path: Path) -> bool:
    return path.is_file() and not path.is_symlink() and OUR_MARK.encode() in path.read_bytes()


def _write_whole(path: Path, data: bytes) -> None:
    """A reader sees the old file or the new one, never a half."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        # A temporary file is private; a sheet is as readable as any other new file.
        mask = os.umask(0)
        os.umask(mask)
        Path(temporary).chmod(0o666 & ~mask)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
