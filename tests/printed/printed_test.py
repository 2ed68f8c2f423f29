"""Every report of the demo workshop on paper, read back by programs that are not ours.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import os
import pathlib
import subprocess
import tempfile
import tomllib
import unittest

import paper
import sums

TOP = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = str(pathlib.Path(os.environ["BENCHWARDEN"]).resolve())
DEMO_MAKER = str(pathlib.Path(os.environ["BENCHWARDEN_DEMO_MAKER"]).resolve())
TODAY = "2026-11-25"
MONTHS = [f"2025-{month:02}" for month in range(9, 13)] + [f"2026-{month:02}"
                                                           for month in range(1, 13)]


def make_demo(folder):
    subprocess.run([DEMO_MAKER, folder, TOP / "demo/inventory.toml", "http://127.0.0.1:0",
                    folder / "report.pdf", TODAY], check=True, stdout=subprocess.DEVNULL)


def report(data, name, *words):
    done = subprocess.run([PROGRAM, "report", name, "--data", data, *words], timeout=60,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    if done.returncode != 0:
        raise AssertionError(f"{name} {words}: {done.stderr.decode()}")
    return done.stdout


def things(thing_class):
    inventory = tomllib.loads((TOP / "demo/inventory.toml").read_text("utf-8"))
    return [one["id"] for one in inventory["thing"] if one["class"] == thing_class]


def every_report():
    """(name, words) of each report of the demo that is laid out on whole sheets."""
    yield from (("waste-month", ("--month", month)) for month in MONTHS)
    yield from (("waste-year", ("--year", year)) for year in ("2025", "2026"))
    yield from (("collection-sheet", ("--subject", f"c{number}")) for number in range(1, 7))
    yield from (("cylinder-history", ("--subject", one)) for one in things("cylinder"))
    for thing_class in ("tool", "gauge"):
        for one in things(thing_class):
            yield "tool-history", ("--subject", f"{thing_class}/{one}")
            yield "inspection-sheet", ("--subject", f"{thing_class}/{one}")
    yield from ((name, ()) for name in ("findings-list", "walk-round-sheet"))
    for caution in sorted((TOP / "reports/cautions").glob("*.toml")):
        if caution.stem != "emergency":
            yield "briefing-sheet", ("--subject", caution.stem)
    yield "audit-pack", ("--from", "2026-08-01", "--to", "2026-10-31")


class Printed(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-printed.")
        cls.addClassCleanup(holder.cleanup)
        cls.data = pathlib.Path(holder.name)
        cls.made = {}
        make_demo(cls.data)

    def printed(self, name, words, size="a4"):
        """Made once, however often it is looked at."""
        wanted = (name, words, size)
        if wanted not in self.made:
            self.made[wanted] = paper.Paper(report(self.data, name, *words, "--paper", size))
        return self.made[wanted]

    def test_every_report_is_whole_with_its_font_inside_and_its_title(self):
        for name, words in every_report():
            with self.subTest(name=name, words=words):
                sheet = self.printed(name, words)
                self.assertEqual(sheet.faults(), "")
                self.assertEqual(sheet.fonts(), [("yes", "yes", "yes")])
                properties = sheet.properties()
                title = properties["Title"]
                self.assertTrue(sheet.text().startswith(title), title)
                self.assertEqual(properties["Encrypted"], "no")

    def test_both_papers_break_alike_within_the_margins_of_both(self):
        for name, words in every_report():
            with self.subTest(name=name, words=words):
                a4 = self.printed(name, words)
                letter = self.printed(name, words, "letter")
                self.assertIn("(A4)", a4.properties()["Page size"])
                self.assertIn("(letter)", letter.properties()["Page size"])
                pages = a4.pages()
                self.assertEqual([[word.text for word in page] for page in pages],
                                 [[word.text for word in page] for page in letter.pages()])
                for page in pages:
                    self.assertEqual(paper.outside_margins(page), [])

    def test_printed_rows_add_up_to_printed_totals(self):
        found = 0
        for name, words in every_report():
            with self.subTest(name=name, words=words):
                totals, faults = sums.check(self.printed(name, words).pages())
                self.assertEqual(faults, [])
                found += totals
        self.assertGreater(found, 8 * len(MONTHS))


if __name__ == "__main__":
    unittest.main()
