"""Nothing in the tree that the build or the test run does not reach, and nothing missing."""

import fnmatch
import json
import posixpath
import re
import unittest

import cmake
import source
import tree

BUILD = "CMakeLists.txt"
RUNNABLE = (".test.mjs", "_test.py", "_test.sh")


def source_faults(texts):
    named = cmake.sources(texts[BUILD])
    known = {path for path, _ in named}
    faults = [tree.fault(path, 1, "not in CMakeLists.txt, so never built")
              for path, _ in tree.under(texts, "src", "tests", "demo", suffixes=(".cpp",))
              if path not in known]
    return faults + [tree.fault(BUILD, line, f"{path} does not exist")
                     for path, line in named if path not in texts]


def _listing_faults(texts, variable, prefix, wanted):
    listed = [(prefix + value, line) for value, line in cmake.listed(texts[BUILD], variable)]
    known = {path for path, _ in listed}
    faults = [tree.fault(path, 1, f"not in the list {variable} of CMakeLists.txt")
              for path in wanted if path not in known]
    return faults + [tree.fault(BUILD, line, f"{path} in {variable} does not exist")
                     for path, line in listed if path not in texts]


def data_faults(texts):
    """Data that is not embedded is not in the program."""
    wanted = [path for path, _ in tree.under(texts, "forms/calculations", "forms/definitions",
                                             "forms/wording", "reports")]
    return _listing_faults(texts, "data_files", "", wanted)


def app_faults(texts):
    """A part of the app that is not listed would not be bundled anew when it changes."""
    wanted = [path for path, _ in tree.under(texts, "forms/app")]
    return _listing_faults(texts, "app_sources", "forms/app/", wanted)


def header_faults(texts):
    """A header that nobody includes is dead."""
    included = set()
    for path, text in tree.under(texts, "src", "tests", "demo", suffixes=tree.CPP):
        for name in re.findall(r'^\s*#\s*include\s*"([^"]+)"', source.without_comments(path, text),
                               re.MULTILINE):
            included |= {posixpath.normpath(folder + "/" + name)
                         for folder in ("src", "tests", posixpath.dirname(path))}
    return [tree.fault(path, 1, "included nowhere")
            for path, _ in tree.under(texts, "src", "tests", "demo", suffixes=(".h",))
            if path not in included]


def _words(text):
    return re.split(r"[\s\"'();,=]+", text)


def _commands_run(texts):
    """(folder, text) of each add_test and of every script one of them leads to."""
    waiting = [("", " ".join(word.text for word in command.words))
               for command in cmake.commands(texts[BUILD])
               if command.name in ("add_test", "bw_script_test")]
    found, seen = [], set()
    while waiting:
        folder, text = waiting.pop()
        found.append((folder, text))
        text = text.replace("${CMAKE_SOURCE_DIR}/", "")
        paths = {posixpath.normpath(posixpath.join(base, word))
                 for word in _words(text) for base in ("", folder)}
        if re.search(r"\bnpm\b.*\btest\b", text):
            paths |= {posixpath.join(path, "package.json") for path in paths | {folder}}
        for path in sorted(paths - seen):
            script = texts.get(path, "")
            if path.endswith("package.json"):
                script = json.loads(script or "{}").get("scripts", {}).get("test", "")
            elif not path.endswith((".sh", ".py", ".mjs")):
                continue
            seen.add(path)
            if script:
                waiting.append((posixpath.dirname(path), script))
    return found


def _reaches(folder, text, path):
    """Whether a command that stands in `folder` and reads `text` runs the test file `path`."""
    home, name = posixpath.split(path)
    words = _words(text.replace("${CMAKE_SOURCE_DIR}/", ""))
    if re.search(r"\bnode --test\b", text):
        words.append("*.test.mjs")
    in_home = folder == home or any(
        posixpath.normpath(posixpath.join(base, word)).startswith(home)
        for word in words if word for base in ("", folder))
    return in_home and any(fnmatch.fnmatch(name, posixpath.basename(word))
                           for word in words if name[-4:] == word[-4:])


def script_faults(texts):
    run = _commands_run(texts)
    return [tree.fault(path, 1, "no add_test of CMakeLists.txt leads to this test")
            for path, _ in tree.under(texts, "tests", suffixes=RUNNABLE)
            if not any(_reaches(folder, text, path) for folder, text in run)]


class TheTree(unittest.TestCase):
    def test_every_source_is_built(self):
        self.assertGreater(len(cmake.sources(tree.load()[BUILD])), 150)
        tree.expect_none(self, source_faults(tree.load()))

    def test_every_data_file_is_embedded(self):
        tree.expect_none(self, data_faults(tree.load()))

    def test_every_part_of_the_app_is_listed(self):
        tree.expect_none(self, app_faults(tree.load()))

    def test_every_header_is_included(self):
        tree.expect_none(self, header_faults(tree.load()))

    def test_every_script_test_is_run(self):
        tree.expect_none(self, script_faults(tree.load()))


class TheCheck(unittest.TestCase):
    def starts(self, faults, *expected):
        self.assertEqual(len(faults), len(expected), faults)
        for found, start in zip(faults, expected):
            self.assertTrue(found.startswith(start), faults)

    def test_finds_sources_not_built_and_not_there(self):
        build = "bw_library(base SOURCES a.cpp # b.cpp\n)\nbw_test(base SOURCES a_test.cpp\n" \
                "  ../x/y.cpp)\nadd_executable(d demo/d.cpp)\n"
        texts = {BUILD: build, "src/base/a.cpp": "", "tests/base/a_test.cpp": "",
                 "tests/x/y.cpp": "", "demo/d.cpp": ""}
        self.assertEqual(source_faults(texts), [])
        self.starts(source_faults(texts | {"src/base/b.cpp": ""}), "src/base/b.cpp:1: ")
        self.starts(source_faults(texts | {"tests/base/b_test.cpp": ""}), "tests/base/b_test.cpp:1")
        del texts["tests/x/y.cpp"]
        self.starts(source_faults(texts), "CMakeLists.txt:4: tests/x/y.cpp")

    def test_finds_data_not_embedded_and_not_there(self):
        texts = {BUILD: "set(data_files\n  forms/definitions/a.toml)\n"}
        self.starts(data_faults(texts), "CMakeLists.txt:2: ")
        texts |= {"forms/definitions/a.toml": "", "reports/cautions/b.toml": ""}
        self.starts(data_faults(texts), "reports/cautions/b.toml:1: ")

    def test_finds_a_part_of_the_app_not_listed(self):
        texts = {BUILD: "set(app_sources a.js)", "forms/app/a.js": "", "forms/app/src/b.js": ""}
        self.starts(app_faults(texts), "forms/app/src/b.js:1: ")

    def test_finds_a_header_nobody_includes(self):
        texts = {"src/base/a.cpp": '#include "base/a.h"\n// #include "base/b.h"\n',
                 "src/base/a.h": "", "src/base/b.h": ""}
        self.starts(header_faults(texts), "src/base/b.h:1: ")

    def test_finds_a_script_test_nobody_runs(self):
        test = "tests/browser/a.test.mjs"
        for build, more in (
                ("add_test(NAME b COMMAND node --test tests/browser/a.test.mjs)", {}),
                ("add_test(NAME b COMMAND ${CMAKE_SOURCE_DIR}/tests/browser/run.sh)",
                 {"tests/browser/run.sh": "cd x\nnode --test"}),
                ("add_test(NAME b COMMAND npm --prefix tests/browser test)",
                 {"tests/browser/package.json": '{"scripts": {"test": "node --test"}}'})):
            self.assertEqual(script_faults({BUILD: build, test: ""} | more), [], build)
            self.starts(script_faults({BUILD: "# " + build, test: ""} | more), test)
        build = "add_test(NAME b COMMAND node --test tests/api/a.test.mjs)"
        self.starts(script_faults({BUILD: build, test: ""}), test)
        build = "add_test(NAME s COMMAND python3 -m unittest discover -s tests/style -p *_test.py)"
        texts = {BUILD: build, "tests/style/a_test.py": "", "tests/api/b_test.py": ""}
        self.starts(script_faults(texts), "tests/api/b_test.py:1: ")


if __name__ == "__main__":
    unittest.main()
