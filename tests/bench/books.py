"""Books of several sizes, made once and kept: to make them takes minutes."""

import datetime
import os
import pathlib
import shutil
import subprocess
import tempfile

import served


def last_day_before(today):
    """The last day of the month before: the books end with a whole month."""
    return today.replace(day=1) - datetime.timedelta(days=1)


class Shelf:
    """A folder with one data folder for each size and last day."""

    def __init__(self, folder, program, last_day, tell):
        self._folder, self._program, self._last_day = folder, program, last_day
        self._tell = tell

    @property
    def month(self):
        """The last month of all books, which is the same in all of them."""
        return self._last_day.strftime("%Y-%m")

    def book(self, entries):
        """The data folder of a book of about so many entries. Nobody may write to it."""
        path = self._folder / f"{entries}-{self._last_day}"
        if not path.exists():
            self._tell(f"making a book of {entries} entries in {path}")
            self._make(path, entries)
        return path

    def _make(self, path, entries):
        in_memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
        with tempfile.TemporaryDirectory(prefix="benchwarden-bench-", dir=in_memory) as place:
            subprocess.run([self._program, place, served.TOP / "demo/inventory.toml", str(entries),
                            self._last_day.isoformat()], check=True, stdout=subprocess.DEVNULL)
            whole = path.with_suffix(".partial")
            shutil.rmtree(whole, ignore_errors=True)
            shutil.copytree(place, whole)
            os.replace(whole, path)
