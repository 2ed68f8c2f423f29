"""The source tree as the style tests see it: a dict of path (from the top, with /) to text.

Every check is a function from such a dict to a list of faults, one line each:
    path:line: what is wrong (the rule)
so the same function judges the real tree and the small bad samples of its own test.
"""

import functools
import os
import pathlib

TOP = pathlib.Path(__file__).resolve().parents[2]
FOLDERS = (".ci", "demo", "forms", "reports", "src", "tests")
BINARY = {".db", ".gz", ".ico", ".jpg", ".pdf", ".png", ".seed", ".ttf", ".woff2"}
NOT_OURS = {"__pycache__", "node_modules"}
CPP = (".cpp", ".h")
JS = (".js", ".mjs")


@functools.cache
def load():
    """All text files of the repository. Bytes that are not UTF-8 become lone surrogates."""
    paths = [path for path in TOP.iterdir() if path.is_file()]
    for folder in FOLDERS:
        for where, folders, names in os.walk(TOP / folder):
            folders[:] = sorted(set(folders) - NOT_OURS)
            paths += [pathlib.Path(where, name) for name in names]
    texts = {}
    for path in sorted(paths):
        if path.suffix not in BINARY:
            name = path.relative_to(TOP).as_posix()
            texts[name] = path.read_bytes().decode("utf-8", errors="surrogateescape")
    return texts


def under(tree, *folders, suffixes=()):
    """(path, text) of the files below one of `folders` that end in one of `suffixes`."""
    starts = tuple(folder + "/" for folder in folders)
    return [(path, text) for path, text in tree.items()
            if path.startswith(starts) and (not suffixes or path.endswith(tuple(suffixes)))]


def line_of(text, offset):
    return text.count("\n", 0, offset) + 1


def fault(path, line, rule):
    return f"{path}:{line}: {rule}"


def expect_none(test, faults):
    """Fails `test` with every fault on a line of its own."""
    if faults:
        test.fail(f"{len(faults)} fault(s)\n" + "\n".join(faults))
