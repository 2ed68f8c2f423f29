"""The bytes of every file, where files may lie, and words the tool never says."""

import re
import unittest

import source
import tree

TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "src", "forms", "reports", "tests",
             "demo"}
_LATER = re.compile(r"\b(?:TO" r"DO|FIX" r"ME|XX" r"X)\b")
_CLAIM = re.compile(r"\b(?:safe|safely|compliant|ok|okay)\b", re.IGNORECASE)
CPP_ENDINGS = (".c", ".cc", ".cpp", ".cxx", ".h", ".hh", ".hpp", ".inc")

# Where one of those words is no claim: the file and the words around it.
NO_CLAIM = (
    ("forms/wording/openapi.json", "never says that a place, a tool or a person is safe"),
    ("src/book/verify.cpp", '"ok"'),  # what SQLite's integrity_check answers
    ("src/book/database_copy.cpp", '"ok"'),
)


def byte_faults(texts):
    faults = []
    for path, text in texts.items():
        if re.search("[\ud800-\udfff]", text):
            faults.append(tree.fault(path, 1, "not UTF-8"))
        if text and not text.endswith("\n"):
            faults.append(tree.fault(path, text.count("\n") + 1, "no newline at the end"))
        for number, line in enumerate(text.split("\n"), 1):
            if line != line.rstrip():
                faults.append(tree.fault(path, number, "blanks at the end of the line"))
            if "\t" in line:
                faults.append(tree.fault(path, number, "a tab; indent with spaces"))
            if _LATER.search(line):
                faults.append(tree.fault(path, number, "finish it or file an issue"))
    return faults


def header_faults(texts):
    return [tree.fault(path, 1, "#pragma once is missing")
            for path, text in texts.items() if path.endswith(".h")
            and not re.search(r"^#pragma once$", source.code(path, text), re.MULTILINE)]


def top_level_faults(names):
    return [tree.fault(name, 1, "the top level holds only " + ", ".join(sorted(TOP_LEVEL)))
            for name in names
            if name not in TOP_LEVEL and not name.startswith(".") and not name.startswith("build")]


def place_faults(texts):
    """src holds C++ only; forms and reports hold none."""
    faults = [tree.fault(path, 1, "no C++ in forms and reports")
              for path, _ in tree.under(texts, "forms", "reports", suffixes=CPP_ENDINGS)]
    return faults + [tree.fault(path, 1, "src holds .cpp and .h only")
                     for path, _ in tree.under(texts, "src") if not path.endswith(tree.CPP)]


def _spoken(texts):
    """(path, text) of what people get to read: data files whole, of code the strings."""
    for path, text in tree.under(texts, "forms", "reports", suffixes=(".toml", ".json", ".html")):
        if not path.endswith(("package.json", "package-lock.json")):
            yield path, re.sub(r"^\s*#[^\n]*", "", text, flags=re.MULTILINE)
    for path, text in tree.under(texts, "forms/app", "src", suffixes=tree.JS + tree.CPP):
        yield path, source.strings(path, text)


def claim_faults(texts):
    faults = []
    for path, text in _spoken(texts):
        for place, phrase in NO_CLAIM:
            if place == path:
                text = text.replace(phrase, " " * len(phrase))
        faults += [tree.fault(path, tree.line_of(text, match.start()),
                              f'"{match.group()}" claims too much; say what was measured or done')
                   for match in _CLAIM.finditer(text)]
    return faults


def twice_named_faults(texts):
    """The files of the app's words are spread into one: a name in two of them hides the other."""
    first, faults = {}, []
    for path, text in tree.under(texts, "forms/app", suffixes=("texts.js",)):
        for match in re.finditer(r"^  (\w+): ", text, re.MULTILINE):
            if first.setdefault(match[1], path) != path:
                faults.append(tree.fault(path, tree.line_of(text, match.start()),
                                         f"'{match[1]}' is named in {first[match[1]]}, too"))
    return faults


class TheTree(unittest.TestCase):
    def test_bytes(self):
        tree.expect_none(self, byte_faults(tree.load()))

    def test_headers_are_included_once(self):
        tree.expect_none(self, header_faults(tree.load()))

    def test_top_level(self):
        tree.expect_none(self, top_level_faults(path.name for path in tree.TOP.iterdir()))

    def test_places(self):
        tree.expect_none(self, place_faults(tree.load()))

    def test_words_of_the_app_are_named_once(self):
        tree.expect_none(self, twice_named_faults(tree.load()))

    def test_the_tool_claims_nothing(self):
        tree.expect_none(self, claim_faults(tree.load()))

    def test_every_exception_is_still_needed(self):
        for path, phrase in NO_CLAIM:
            self.assertIn(phrase, tree.load()[path])


class TheCheck(unittest.TestCase):
    def one(self, faults, start):
        self.assertEqual(len(faults), 1, faults)
        self.assertTrue(faults[0].startswith(start), faults)

    def test_finds_bad_bytes(self):
        good = {"a": "b\n\n  c\n", "empty": "", "d": "mktemp a.XXXXXX\n"}
        self.assertEqual(byte_faults(good), [])
        self.one(byte_faults({"a": "b\nc"}), "a:2: no newline")
        self.one(byte_faults({"a": "b\nc \n"}), "a:2: blanks")
        self.one(byte_faults({"a": "b\r\n"}), "a:1: blanks")
        self.one(byte_faults({"a": "b\n\tc\n"}), "a:2: a tab")
        self.one(byte_faults({"a": b"\xff\n".decode(errors="surrogateescape")}), "a:1: not UTF-8")
        for word in ("TO" "DO", "FIX" "ME", "XX" "X"):
            self.one(byte_faults({"a": f"// {word}: b\n"}), "a:1: finish")

    def test_finds_words_under_one_name(self):
        good = {"forms/app/texts.js": "x = {\n  a: {\n    b: 1,\n  },\n",
                "forms/app/b-texts.js": "x = {\n  b: 1,\n"}
        self.assertEqual(twice_named_faults(good), [])
        self.one(twice_named_faults(good | {"forms/app/c-texts.js": "x = {\n  a: {},\n"}),
                 "forms/app/c-texts.js:2: 'a' is named in forms/app/texts.js")

    def test_finds_a_header_without_pragma(self):
        self.assertEqual(header_faults({"src/a.h": "// why\n#pragma once\n"}), [])
        self.one(header_faults({"src/a.h": "// #pragma once\n"}), "src/a.h:1: ")

    def test_finds_strangers_at_the_top(self):
        self.assertEqual(top_level_faults([".git", "src", "README.md", "build", "build-x"]), [])
        self.one(top_level_faults(["src", "scripts"]), "scripts:1: ")

    def test_finds_files_in_the_wrong_place(self):
        self.one(place_faults({"forms/a.cpp": ""}), "forms/a.cpp:1: ")
        self.one(place_faults({"reports/rules/a.h": ""}), "reports/rules/a.h:1: ")
        self.one(place_faults({"src/a/words.toml": "", "src/a/b.cpp": ""}), "src/a/words.toml:1: ")

    def test_finds_claims_in_what_people_read(self):
        self.one(claim_faults({"reports/wording/en.toml": 'a = "b"\nc = "All safe"\n'}),
                 "reports/wording/en.toml:2: ")
        self.one(claim_faults({"forms/app/texts.js": "a = {\n b: 'OK' };"}),
                 "forms/app/texts.js:2: ")
        self.one(claim_faults({"forms/app/src/a.js": "html`${a.ok}\n is compliant`"}),
                 "forms/app/src/a.js:2: ")
        self.one(claim_faults({"src/http/a.cpp": 'f("Compliant");'}), "src/http/a.cpp:1: ")

    def test_leaves_other_words_alone(self):
        texts = {"forms/app/texts.js": "if (response.ok) f('safety data sheet'); // ok",
                 "reports/cautions/a.toml": '# safe\na = "Safety glasses, token, unsafe"\n',
                 NO_CLAIM[0][0]: NO_CLAIM[0][1]}
        self.assertEqual(claim_faults(texts), [])


if __name__ == "__main__":
    unittest.main()
