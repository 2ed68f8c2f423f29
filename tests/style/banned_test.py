"""No banned call in src: banned.py has the list and what to use instead."""

import unittest

import banned
import source
import tree


def banned_faults(texts):
    faults = []
    for path, text in tree.under(texts, "src", suffixes=tree.CPP):
        rows = [row for row in banned.ROWS if row.applies(path.removeprefix("src/"))]
        for number, line in enumerate(source.code(path, text).splitlines(), 1):
            faults += [tree.fault(path, number, f"{row.name}; use instead: {row.instead}")
                       for row in rows if row.find(line)]
    return faults


class TheTree(unittest.TestCase):
    def test_src_uses_nothing_banned(self):
        tree.expect_none(self, banned_faults(tree.load()))

    def test_what_is_excepted_exists(self):
        """A row of exceptions for a file that is gone would let its next namesake through."""
        places = {path.removeprefix("src/") for path, _ in tree.under(tree.load(), "src")}
        for row in banned.ROWS:
            for place in row.only:
                if "/" in place:
                    self.assertIn(place, places, f"banned.py: {row.name}")


class TheCheck(unittest.TestCase):
    def test_each_row_finds_its_bad_lines_and_leaves_its_good_ones(self):
        for row in banned.ROWS:
            self.assertTrue(row.bad and row.good and row.instead, row.name)
            for line in row.bad:
                self.assertTrue(row.find(line), f"{row.name} misses: {line}")
            for line in row.good:
                self.assertFalse(row.find(line), f"{row.name} minds: {line}")

    def test_names_the_line_and_what_to_use(self):
        faults = banned_faults({"src/forms/a.cpp": "int a;\n\nint b = std::atoi(c);\n"})
        self.assertEqual(len(faults), 1)
        self.assertTrue(faults[0].startswith("src/forms/a.cpp:3: C number parsing"), faults)
        self.assertIn("std::from_chars", faults[0])

    def test_comments_and_strings_are_not_calls(self):
        text = '// throw; delete it\n/* std::cout */ f("new std::endl, system(1)");\n'
        self.assertEqual(banned_faults({"src/forms/a.cpp": text}), [])

    def test_places_that_may(self):
        text = "std::cout << a << std::endl;\n"
        self.assertEqual(banned_faults({"src/daemon/a.cpp": text}), [])
        self.assertEqual(len(banned_faults({"src/workshop/a.cpp": text})), 2)
        self.assertEqual(banned_faults({"src/print/a.cpp": "double a;\n"}), [])
        self.assertEqual(len(banned_faults({"src/tallies/a.h": "double a;\n"})), 1)


if __name__ == "__main__":
    unittest.main()
