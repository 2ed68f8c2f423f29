"""Every test that the tables about access name is there."""

import re
import unittest

import tree

HEADINGS = ("### Guards, and the tests that hold them", "### What of ASVS applies")


def _named(line):
    """(path, name) of each test a line names; the name is empty where the whole file is meant."""
    path = None
    for match in re.finditer(r'`(tests/[\w/.]+)`|`(\w+\.\w+)`|"([^"]+)"', line):
        if match.group(1):
            path = match.group(1)
            yield path, ""
        elif path is not None:
            yield path, match.group(2) or match.group(3)


def _titles(text):
    """Of the tests that a file of JavaScript defines, and the first strings of rows from which it
    makes tests; nothing of its comments."""
    code = re.sub(r"^\s*//.*$|\s// .*$", "", text, flags=re.MULTILINE)
    title = r"""'((?:[^'\\\n]|\\.)*)'|`((?:[^`\\]|\\.)*)`"""
    begins = rf"\btest\(\s*(?:{title})|(?:^|[\[{{,])\s*(?:{title})\s*[:,]"
    return {next(group for group in match.groups() if group is not None).replace("\\'", "'")
            for match in re.finditer(begins, code, re.MULTILINE)}


def _holds(text, path, name):
    if path.endswith(".cpp") and "." in name:
        suite, test = name.split(".")
        return re.search(rf"\bTEST(?:_F|_P)?\({suite}, {test}\)", text) is not None
    if path.endswith(".mjs"):
        return not name or name in _titles(text)
    return name in text


def table_faults(texts):
    document = texts.get("DEVELOPERS.md", "")
    faults = []
    for heading in HEADINGS:
        start = document.find(heading)
        if start < 0:
            faults.append(tree.fault("DEVELOPERS.md", 1, f"there is no section '{heading}'"))
            continue
        for line in document[start:].split("\n### ")[0].split("\n## ")[0].splitlines()[1:]:
            for path, name in _named(line):
                if path not in texts or not _holds(texts[path], path, name):
                    faults.append(tree.fault("DEVELOPERS.md", tree.line_of(document, start),
                                             f"{path} has no test {name}"))
    return faults


class TheTree(unittest.TestCase):
    def test_tables_name_tests_that_are_there(self):
        tree.expect_none(self, table_faults(tree.load()))


class OfText(unittest.TestCase):
    TEXTS = {"tests/a_test.cpp": "TEST_F(One, Two) {", "tests/b.test.mjs": "test('three four', "}

    def faults(self, row):
        document = f"{HEADINGS[0]}\n\n| x | {row} |\n\n{HEADINGS[1]}\n"
        return table_faults({**self.TEXTS, "DEVELOPERS.md": document})

    def test_what_stands_in_a_comment_or_a_value_is_no_test(self):
        for text in ("// test('three four', () => {})", "const told = 'three four';"):
            document = f'{HEADINGS[0]}\n`tests/b.test.mjs` "three four"\n{HEADINGS[1]}\n'
            faults = table_faults({"tests/b.test.mjs": text, "DEVELOPERS.md": document})
            self.assertEqual(1, len(faults), text)

    def test_what_is_there_is_found(self):
        self.assertEqual([], self.faults("`tests/a_test.cpp` `One.Two`"))
        self.assertEqual([], self.faults('`tests/b.test.mjs` "three four"'))

    def test_what_is_not_is_told(self):
        for row in ("`tests/a_test.cpp` `One.Three`", '`tests/b.test.mjs` "four three"',
                    "`tests/c_test.cpp`"):
            self.assertEqual(1, len(self.faults(row)), row)

    def test_a_section_that_is_missing_is_told(self):
        self.assertEqual(2, len(table_faults({"DEVELOPERS.md": "none"})))


if __name__ == "__main__":
    unittest.main()
