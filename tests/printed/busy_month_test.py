"""A month of 5,000 entries on paper.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import csv
import datetime
import decimal
import io
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest
import uuid
import zoneinfo

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "faults"))
import paper  # noqa: E402
import served_folder  # noqa: E402
import sums  # noqa: E402

ENTRIES = 5000
AT_ONCE = 200
NOW = datetime.datetime.now(zoneinfo.ZoneInfo("Europe/London"))  # where the demo is
BEGUN = NOW.replace(day=1, hour=0, minute=0, second=0, microsecond=0)
MONTH = f"{BEGUN:%Y-%m}"


def drain(number):
    """Small volumes, spread over the month as far as it has gone."""
    occurred_at = BEGUN + (NOW - BEGUN) * number / ENTRIES
    return {"id": str(uuid.UUID(int=number + 1, version=4)), "kind": "oil-drained",
            "occurred_at": occurred_at.isoformat(timespec="milliseconds"),
            "fields": {"container": "w1", "volume_ml": 1 + number % 37}}


class BusyMonth(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-busy.")
        cls.addClassCleanup(holder.cleanup)
        cls.data = pathlib.Path(holder.name)
        persons = served_folder.make_demo(cls.data)
        daemon = served_folder.Daemon(cls.data)
        cls.addClassCleanup(daemon.close)
        client = served_folder.Client(daemon, served_folder.sign_in(daemon,
                                                                    persons["technician"]))
        cls.recorded = {}  # entry number: millilitres
        for first in range(0, ENTRIES, AT_ONCE):
            bodies = [drain(number) for number in range(first, first + AT_ONCE)]
            _, answer = client.call("POST", "/entries", json.dumps(bodies))
            for body, result in zip(bodies, answer["results"]):
                cls.recorded[result["entry"]["seq"]] = body["fields"]["volume_ml"]
        client.close()
        daemon.stop()
        cls.sheet = paper.Paper(cls.report("pdf"))
        cls.pages = cls.sheet.pages()

    @classmethod
    def report(cls, form):
        return subprocess.run([served_folder.program("BENCHWARDEN"), "report", "waste-month",
                               "--data", cls.data, "--month", MONTH, "--format", form],
                              check=True, stdout=subprocess.PIPE).stdout

    def test_the_file_is_whole_and_small(self):
        self.assertEqual(self.sheet.faults(), "")
        self.assertEqual(len(self.recorded), ENTRIES)
        self.assertLess(int(self.sheet.properties()["File size"].split()[0]), 1_000_000)

    def test_every_entry_stands_in_it_with_its_volume(self):
        printed = {}
        for page in self.pages:
            for line in paper.lines(page):
                numbers = [value for _, value in sorted(paper.numbers(line).items())]
                if numbers and numbers[0] in self.recorded:
                    printed.setdefault(int(numbers[0]), []).extend(numbers)
        missing = [seq for seq, millilitres in self.recorded.items()
                   if decimal.Decimal(millilitres) / 1000 not in printed.get(seq, [])]
        self.assertEqual(missing, [])

    def test_printed_rows_add_up_to_printed_totals(self):
        totals, faults = sums.check(self.pages)
        self.assertEqual(faults, [])
        self.assertGreater(totals, 3)

    def test_each_page_of_entries_has_the_heads_of_their_columns(self):
        words = sums.WORDING["column"]
        head = [words[name].split()[0] for name in ("entry", "occurred_at", "kind")]
        looked_at = 0
        for page in self.pages:
            rows = paper.lines(page)
            first = next((i for i, row in enumerate(rows) if row and
                          row[0].text.replace("\u202f", "").isdigit() and
                          int(row[0].text.replace("\u202f", "")) in self.recorded), None)
            if first is None:
                continue
            looked_at += 1
            above = " ".join(paper.text_of(row) for row in rows[:first])
            self.assertTrue(all(word in above for word in head), above)
        self.assertGreater(looked_at, ENTRIES // 100)

    def test_the_table_for_machines_has_the_same_sum(self):
        rows = list(csv.DictReader(io.StringIO(self.report("csv").decode(), newline="")))
        changes = [row for row in rows if row["column"] == "change"
                   and row["row"].split(" ")[0].isdigit()
                   and int(row["row"].split(" ")[0]) in self.recorded]
        self.assertEqual(sum(decimal.Decimal(row["value"]) for row in changes) * 1000,
                         sum(self.recorded.values()))


if __name__ == "__main__":
    unittest.main()
