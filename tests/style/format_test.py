"""All C++ is as clang-format leaves it."""

import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest

import tree


def format_faults(top, paths):
    """The first complaint for each file; clang-format being absent is one too."""
    if shutil.which("clang-format") is None:
        return ["clang-format is not installed; demo/packages.sh test installs it"]
    done = subprocess.run(["clang-format", "--dry-run", "--Werror", "--style=file", *paths],
                          cwd=top, capture_output=True, text=True, check=False)
    first = {}
    for path, line in re.findall(r"^([^:\n]+):(\d+):\d+: error: ", done.stderr, re.MULTILINE):
        first.setdefault(path, int(line))
    if done.returncode and not first:
        return [done.stderr.strip() or f"clang-format ended with {done.returncode}"]
    return [tree.fault(path, line, "not as clang-format leaves it") for path, line in first.items()]


class TheTree(unittest.TestCase):
    def test_formatted(self):
        paths = [path for path, _ in tree.under(tree.load(), "src", "tests", "demo",
                                                suffixes=tree.CPP)]
        self.assertGreater(len(paths), 200)
        tree.expect_none(self, format_faults(tree.TOP, paths))


class TheCheck(unittest.TestCase):
    def test_finds_what_is_not_formatted(self):
        with tempfile.TemporaryDirectory() as name:
            top = pathlib.Path(name)
            shutil.copy(tree.TOP / ".clang-format", top)
            (top / "good.cpp").write_text("int f() { return 1; }\n")
            (top / "bad.cpp").write_text("int a;\nint f()  { return  1; }\n")
            self.assertEqual(format_faults(top, ["good.cpp"]), [])
            faults = format_faults(top, ["good.cpp", "bad.cpp"])
            self.assertEqual(len(faults), 1, faults)
            self.assertTrue(faults[0].startswith("bad.cpp:2: "), faults)

    def test_a_file_that_is_not_there_is_a_fault(self):
        self.assertEqual(len(format_faults(tree.TOP, ["src/none.cpp"])), 1)


if __name__ == "__main__":
    unittest.main()
