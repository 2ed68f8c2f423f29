"""The month reports that the daemon writes into a folder by itself.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import os
import pathlib
import subprocess
import tempfile
import time
import unittest

TOP = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = str(pathlib.Path(os.environ["BENCHWARDEN"]).resolve())
DEMO_MAKER = str(pathlib.Path(os.environ["BENCHWARDEN_DEMO_MAKER"]).resolve())
PATIENCE_S = 30


class MonthFiles(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.holder = tempfile.TemporaryDirectory(prefix="benchwarden-months.")
        cls.addClassCleanup(cls.holder.cleanup)
        cls.data = pathlib.Path(cls.holder.name) / "data"
        cls.data.mkdir()
        subprocess.run([DEMO_MAKER, cls.data, TOP / "demo/inventory.toml", "http://127.0.0.1:0",
                        cls.data / "report.pdf"], check=True, stdout=subprocess.DEVNULL)

    def setUp(self):
        place = tempfile.TemporaryDirectory(prefix="benchwarden-months.")
        self.addCleanup(place.cleanup)
        self.folder = pathlib.Path(place.name) / "reports"
        self.config = pathlib.Path(place.name) / "config.toml"
        self.config.write_text(f'port = 0\nreport_folder = "{self.folder}"\n')

    def serve_until(self, done):
        """Serves until `done` of the folder holds; what the daemon said, on either stream."""
        log = self.config.with_suffix(".log")
        with open(log, "w", encoding="utf-8") as written:
            daemon = subprocess.Popen(
                [PROGRAM, "serve", "--data", self.data, "--config", self.config],
                stdout=written, stderr=subprocess.STDOUT)
        deadline = time.monotonic() + PATIENCE_S
        while not done(log.read_text()) and time.monotonic() < deadline:
            time.sleep(0.05)
        daemon.terminate()
        daemon.wait(PATIENCE_S)
        self.assertTrue(done(log.read_text()), log.read_text())
        return log.read_text()

    def files(self):
        return sorted(file.name for file in self.folder.iterdir())

    def report(self, month, *options):
        return subprocess.run([PROGRAM, "report", "waste-month", "--data", self.data, "--month",
                               month, *options], check=True, stdout=subprocess.PIPE).stdout

    def test_the_newest_month_comes_first_and_each_is_written_once(self):
        self.folder.mkdir()
        self.serve_until(lambda said: "wrote " in said and len(self.files()) == 1)
        newest = self.folder / self.files()[0]
        month = newest.stem.removeprefix("waste-month-")
        self.assertEqual(newest.read_bytes(), self.report(month))
        self.assertEqual(newest.stat().st_mode & 0o777, 0o600)
        newest.write_text("kept as it is")
        self.serve_until(lambda said: "wrote " in said and len(self.files()) == 2)
        self.assertEqual(newest.read_text(), "kept as it is")
        before = (self.folder / self.files()[0])
        self.assertLess(before.name, newest.name)
        self.assertEqual(before.read_bytes(),
                         self.report(before.stem.removeprefix("waste-month-")))

    def test_the_paper_is_as_it_is_set(self):
        self.folder.mkdir()
        self.config.write_text(self.config.read_text() + 'report_paper = "letter"\n')
        self.serve_until(lambda said: "wrote " in said and len(self.files()) == 1)
        newest = self.folder / self.files()[0]
        month = newest.stem.removeprefix("waste-month-")
        self.assertEqual(newest.read_bytes(), self.report(month, "--paper", "letter"))

    def test_a_folder_that_is_not_there_is_said_and_the_daemon_serves(self):
        said = self.serve_until(lambda said: "no-month-report" in said and " on http://" in said)
        self.assertIn(str(self.folder), said)
        self.assertFalse(self.folder.exists())

    def test_other_papers_are_refused(self):
        self.config.write_text('report_paper = "a5"\n')
        done = subprocess.run([PROGRAM, "serve", "--data", self.data, "--config", self.config],
                              text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                              timeout=PATIENCE_S, check=False)
        self.assertEqual((done.returncode, "accepted: a4, letter" in done.stdout), (3, True),
                         done.stdout)


if __name__ == "__main__":
    unittest.main()
