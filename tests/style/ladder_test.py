"""Proves the include ladder from every #include in src and from the links in CMakeLists.txt."""

import re
import unittest

import cmake
import ladder
import source
import tree

_INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"\n]+)[>"]', re.MULTILINE)


def includes(path, text):
    """(line, "<" or '"', name) of each #include."""
    for match in _INCLUDE.finditer(source.without_comments(path, text)):
        yield tree.line_of(text, match.start()), match.group(1), match.group(2)


def _place(path):
    """folder and file below src: ("daemon", "daemon/main.cpp")."""
    below = path.removeprefix("src/")
    return below.split("/")[0], below


def folder_faults(texts):
    return [tree.fault(path, 1, f"src/{folder} is not in the ladder (tests/style/ladder.py)")
            for path, _ in tree.under(texts, "src")
            for folder, _ in [_place(path)] if folder not in ladder.MAY_INCLUDE]


def own_include_faults(texts):
    faults = []
    for path, text in tree.under(texts, "src"):
        folder, _ = _place(path)
        allowed = (folder,) + ladder.MAY_INCLUDE.get(folder, ())
        for line, bracket, name in includes(path, text):
            if bracket != '"' or folder in ladder.GENERATED.get(name, ()):
                continue
            if "src/" + name not in texts:
                faults.append(tree.fault(path, line, f'"{name}" is not a file below src'))
            elif name.split("/")[0] not in allowed:
                faults.append(tree.fault(
                    path, line, f'"{name}": {folder} may include only {", ".join(allowed)}'))
    return faults


def third_party_faults(texts):
    faults = []
    for path, text in tree.under(texts, "src"):
        folder, below = _place(path)
        for line, bracket, name in includes(path, text):
            if bracket != "<" or name.startswith(ladder.SYSTEM) or not re.search("[./]", name):
                continue
            starts = [start for start in ladder.THIRD_PARTY if name.startswith(start)]
            if not starts:
                faults.append(tree.fault(path, line, f"<{name}> is not known to ladder.py"))
            elif not {folder, below} & set(ladder.THIRD_PARTY[starts[0]]):
                places = ", ".join(ladder.THIRD_PARTY[starts[0]])
                faults.append(tree.fault(path, line, f"<{name}> belongs in {places} only"))
            elif path.endswith(".h"):
                faults.append(tree.fault(
                    path, line, f"<{name}> must not leak through a header; include it in the .cpp"))
    return faults


def link_faults(texts):
    faults = []
    path = "CMakeLists.txt"
    for command in cmake.libraries(texts[path]):
        folder = command.words[0].text
        for word in command.groups().get("LINKS", []):
            if word.text.startswith("bw_"):
                allowed = word.text[3:] in ladder.MAY_INCLUDE.get(folder, ())
            else:
                allowed = folder in ladder.THIRD_PARTY_LINKS.get(word.text, ())
            if not allowed:
                faults.append(tree.fault(
                    path, word.line, f"bw_{folder} may not link {word.text} (ladder.py)"))
    for command in cmake.commands(texts[path]):
        if command.name == "target_link_libraries" and re.match("bw_[a-z]", command.words[0].text):
            faults.append(tree.fault(path, command.line,
                                     f"link {command.words[0].text} in its bw_library block only"))
    return faults


def block_faults(texts):
    """Each folder of src has one bw_library, in ladder order, that links what it includes."""
    path = "CMakeLists.txt"
    blocks = {command.words[0].text: command for command in cmake.libraries(texts[path])}
    order = [folder for folder in ladder.MAY_INCLUDE if folder in blocks]
    faults = []
    lines = [blocks[folder].line for folder in order]
    for folder, line, before in zip(order[1:], lines[1:], lines):
        if line < before:
            faults.append(tree.fault(path, line, f"bw_library({folder}) is out of ladder order"))
    for file, text in tree.under(texts, "src", suffixes=tree.CPP):
        folder, _ = _place(file)
        if folder not in blocks:
            faults.append(tree.fault(file, 1, f"src/{folder} has no bw_library in CMakeLists.txt"))
            continue
        links = {word.text for word in blocks[folder].groups().get("LINKS", [])} | {f"bw_{folder}"}
        for line, bracket, name in includes(file, text):
            other = name.split("/")[0]
            if bracket == '"' and other in blocks and f"bw_{other}" not in links:
                faults.append(tree.fault(file, line, f"bw_{folder} does not link bw_{other}"))
    return faults


class TheTree(unittest.TestCase):
    def test_every_folder_of_src_has_a_row(self):
        tree.expect_none(self, folder_faults(tree.load()))

    def test_folders_include_only_what_their_row_names(self):
        tree.expect_none(self, own_include_faults(tree.load()))

    def test_third_party_headers_stay_in_their_skin(self):
        tree.expect_none(self, third_party_faults(tree.load()))

    def test_libraries_link_only_what_their_row_names(self):
        tree.expect_none(self, link_faults(tree.load()))

    def test_libraries_stand_in_order_and_link_what_they_include(self):
        tree.expect_none(self, block_faults(tree.load()))

    def test_the_reader_sees_the_tree(self):
        seen = sum(1 for path, text in tree.under(tree.load(), "src")
                   for _ in includes(path, text))
        self.assertGreater(seen, 500)
        self.assertGreater(len(cmake.libraries(tree.load()["CMakeLists.txt"])), 12)


class TheCheck(unittest.TestCase):
    def one(self, check, texts, expected):
        faults = check(texts)
        self.assertEqual(len(faults), 1, faults)
        self.assertTrue(faults[0].startswith(expected), faults)

    def test_the_table_has_no_way_up(self):
        order = list(ladder.MAY_INCLUDE)
        for folder, row in ladder.MAY_INCLUDE.items():
            for other in row:
                self.assertLess(order.index(other), order.index(folder), f"{folder} → {other}")

    def test_finds_an_unknown_folder(self):
        self.one(folder_faults, {"src/helpers/a.cpp": "\n"}, "src/helpers/a.cpp:1: ")

    def test_finds_an_include_upwards(self):
        texts = {"src/book/book.h": "", "src/base/a.cpp": '#include "base/b.h"\n'
                 '// #include "book/book.h"\n#include "book/book.h"\n', "src/base/b.h": ""}
        self.one(own_include_faults, texts, "src/base/a.cpp:3: ")

    def test_finds_an_include_of_a_file_that_is_not_there(self):
        self.one(own_include_faults, {"src/base/a.cpp": '#include "b.h"\n'}, "src/base/a.cpp:1: ")

    def test_accepts_the_generated_list_in_its_folder_only(self):
        text = '#include "embedded_list.inc"\n'
        self.assertEqual(own_include_faults({"src/daemon/a.cpp": text}), [])
        self.one(own_include_faults, {"src/http/a.cpp": text}, "src/http/a.cpp:1: ")

    def test_finds_a_third_party_header_elsewhere(self):
        text = "#include <string>\n#include <sys/stat.h>\n#include <Poco/Net/Socket.h>\n"
        self.assertEqual(third_party_faults({"src/http/a.cpp": text}), [])
        self.one(third_party_faults, {"src/workshop/a.cpp": text}, "src/workshop/a.cpp:3: ")
        text = "#include <CLI/CLI.hpp>\n"
        self.assertEqual(third_party_faults({"src/daemon/main.cpp": text}), [])
        self.one(third_party_faults, {"src/daemon/a.cpp": text}, "src/daemon/a.cpp:1: ")

    def test_finds_a_third_party_header_in_a_header(self):
        self.one(third_party_faults, {"src/print/a.h": "#include <hpdf.h>\n"}, "src/print/a.h:1: ")

    def test_finds_a_library_nobody_decided_on(self):
        self.one(third_party_faults, {"src/base/a.cpp": "#include <fmt/core.h>\n"},
                 "src/base/a.cpp:1: ")

    def test_finds_links_upwards_and_of_foreign_libraries(self):
        good = "bw_library(sqlite\n  SOURCES a.cpp\n  LINKS bw_base SQLiteCpp)\n"
        self.assertEqual(link_faults({"CMakeLists.txt": good}), [])
        for link in ("bw_book", "Poco::Net", "whatever"):
            self.one(link_faults, {"CMakeLists.txt": good.replace("SQLiteCpp", link)},
                     "CMakeLists.txt:3: ")
        self.one(link_faults, {"CMakeLists.txt": "target_link_libraries(bw_base PUBLIC bw_http)"},
                 "CMakeLists.txt:1: ")

    def test_finds_blocks_missing_out_of_order_or_without_a_link(self):
        good = "bw_library(base SOURCES a.cpp)\nbw_library(sqlite SOURCES a.cpp LINKS bw_base)\n"
        texts = {"CMakeLists.txt": good, "src/sqlite/a.cpp": '\n#include "base/a.h"\n'}
        self.assertEqual(block_faults(texts), [])
        self.one(block_faults, texts | {"src/book/a.cpp": ""}, "src/book/a.cpp:1: ")
        self.one(block_faults, texts | {"CMakeLists.txt": good.replace("LINKS bw_base", "")},
                 "src/sqlite/a.cpp:2: ")
        swapped = "\n".join(reversed(good.splitlines()))
        self.one(block_faults, texts | {"CMakeLists.txt": swapped}, "CMakeLists.txt:1: ")


if __name__ == "__main__":
    unittest.main()
