"""The backups that the daemon makes by itself: when, what it records, what it takes away.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import datetime
import hashlib
import json
import pathlib
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "faults"))

import served_folder

PROGRAM = served_folder.program("BENCHWARDEN")
PATIENCE_S = 60


def name_of(days_ago):
    then = datetime.datetime.now(datetime.timezone.utc) - datetime.timedelta(days=days_ago)
    return then.strftime("benchwarden-%Y%m%dT%H%M%SZ")


class Keeper(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-keeper.")
        cls.addClassCleanup(holder.cleanup)
        cls.data = pathlib.Path(holder.name) / "data"
        cls.data.mkdir(mode=0o700)
        cls.manager = served_folder.make_demo(cls.data)["manager"]

    def setUp(self):
        place = tempfile.TemporaryDirectory(prefix="benchwarden-keeper.")
        self.addCleanup(place.cleanup)
        self.folder = pathlib.Path(place.name) / "backups"
        self.config = pathlib.Path(place.name) / "config.toml"
        self.config.write_text(f'backup_folder = "{self.folder}"\n'
                               "backups_daily = 2\nbackups_weekly = 0\nbackups_monthly = 0\n")

    def backups(self):
        return sorted(path for path in self.folder.glob("benchwarden-*")
                      if (path / "manifest.json").exists())

    def put_backup(self, name, called=None, size=None, keep=True):
        """As if made then. With a `size` of another book; with another time when `called` so; not
        `keep`: its manifest was lost."""
        made = self.config.parent / "made"
        made.mkdir()
        subprocess.run([PROGRAM, "backup", "--to", made, "--data", self.data], check=True,
                       stdout=subprocess.DEVNULL)
        [folder] = made.iterdir()
        manifest = json.loads((folder / "manifest.json").read_text())
        time_of = datetime.datetime.strptime(name, "benchwarden-%Y%m%dT%H%M%SZ")
        manifest["made_at"] = time_of.strftime("%Y-%m-%dT%H:%M:%SZ")
        manifest["size"] = size or manifest["size"]
        text = json.dumps(manifest, sort_keys=True, separators=(",", ":")) + "\n"
        (folder / "manifest.json").write_text(text)
        digest = hashlib.sha256(text.encode()).hexdigest()
        (folder / "manifest.sha256").write_text(f"{digest}  manifest.json\n")
        if not keep:
            (folder / "manifest.json").unlink()
        folder.rename(self.folder / (called or name))
        made.rmdir()
        return called or name

    def serve(self):
        daemon = served_folder.Daemon(self.data, "--config", self.config)
        self.addCleanup(daemon.close)
        return daemon

    def client(self, daemon):
        client = served_folder.Client(daemon, served_folder.sign_in(daemon, self.manager))
        self.addCleanup(client.close)
        return client

    def wait_for(self, holds, daemon):
        deadline = time.monotonic() + PATIENCE_S
        while not holds() and time.monotonic() < deadline:
            time.sleep(0.5)
        if not holds():
            self.fail(f"{[path.name for path in self.folder.iterdir()]} {daemon.stop()}")

    def test_one_is_made_recorded_and_not_made_again_the_same_day(self):
        self.folder.mkdir()
        daemon = self.serve()
        client = self.client(daemon)
        before = client.read("/backups")
        self.assertEqual((before["scheduled"], before["failure"]), (True, None))
        self.wait_for(self.backups, daemon)
        self.assertEqual(daemon.stop()[:2], (0, ""))
        [made] = self.backups()
        client = self.client(self.serve())
        entry = [one for one in client.all_entries() if one["kind"] == "backup-made"][-1]
        manifest = (made / "manifest.json").read_bytes()
        said = json.loads(manifest)
        self.assertEqual(entry["fields"], {
            "book_size": said["size"], "book_root": said["root"],
            "manifest_digest": hashlib.sha256(manifest).hexdigest()})
        self.assertNotIn(str(self.folder), json.dumps(entry, default=str))
        newest = client.read("/backups")["newest"]
        self.assertEqual((newest["entry"], newest["days_ago"]), (entry["seq"], 0))
        rules = [one["rule"] for one in client.read("/findings")["findings"]]
        self.assertNotIn("own.backup-age", rules)
        self.assertEqual(self.backups(), [made])

    def test_nothing_but_its_own_folders_is_taken_away(self):
        self.folder.mkdir()
        mine = [name_of(days) for days in (3, 4, 5)]
        for name in mine:
            self.put_backup(name)
        partial = self.folder / (name_of(6) + ".partial-abcdef")
        partial.mkdir()
        (partial / "manifest.json").write_text("{}")
        others = [self.put_backup(name_of(20), size=1), self.put_backup(name_of(21), keep=False),
                  self.put_backup(name_of(22), called=name_of(23))]
        (self.folder / mine[2] / "a note of mine").write_text("stays")
        (self.folder / "photos").mkdir()
        (self.folder / "photos" / "book.db").write_text("stays")
        elsewhere = self.config.parent / "elsewhere"
        elsewhere.mkdir()
        (elsewhere / "book.db").write_text("stays")
        link = self.folder / name_of(7)
        link.symlink_to(elsewhere)
        daemon = self.serve()
        self.wait_for(lambda: not partial.exists(), daemon)
        daemon.stop()
        names = {path.name for path in self.folder.iterdir()}
        self.assertEqual(names - {mine[0], mine[2], "photos", link.name, *others},
                         {self.backups()[-1].name})
        self.assertEqual((self.folder / mine[2] / "a note of mine").read_text(), "stays")
        self.assertEqual((self.folder / "photos" / "book.db").read_text(), "stays")
        self.assertEqual((elsewhere / "book.db").read_text(), "stays")

    def test_one_of_a_time_to_come_or_of_another_book_does_not_count_as_made(self):
        self.folder.mkdir()
        ahead = self.put_backup(name_of(-30))
        # Some seconds ago: the one to be made is not to meet its name.
        other = self.put_backup(name_of(10 / 86400), size=1)
        daemon = self.serve()
        self.wait_for(lambda: len(self.backups()) == 3, daemon)
        names = {path.name for path in self.folder.iterdir()}
        self.assertTrue({ahead, other} < names)

    def test_a_folder_in_the_data_folder_is_refused(self):
        self.config.write_text(f'backup_folder = "{self.data}/backups"\n')
        done = subprocess.run([PROGRAM, "serve", "--data", self.data, "--config", self.config],
                              text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                              timeout=PATIENCE_S, check=False)
        self.assertEqual(done.returncode, 3, done.stdout)
        self.assertIn("backup_folder", done.stdout)
        self.assertIn("lies in the data folder", done.stdout)

    def test_a_failure_is_said_in_the_log_and_to_the_office_and_the_daemon_serves(self):
        daemon = self.serve()
        client = self.client(daemon)
        self.wait_for(lambda: client.read("/backups")["failure"] is not None,
                      daemon)
        failure = client.read("/backups")["failure"]
        self.assertIn(str(self.folder), failure["detail"])
        code, said, _ = daemon.stop()
        self.assertEqual(code, 0)
        line, *others = [json.loads(line) for line in said.splitlines()]
        self.assertEqual(others, [], "said once, however often it is tried")
        self.assertEqual((line["severity"], line["event"]), ("error", "no-backup"))
        self.assertEqual(line["detail"], failure["detail"])
        self.assertRegex(line["time"], r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$")
        self.assertFalse(self.folder.exists())

    def test_values_that_are_none_are_refused(self):
        for line, accepted in (("backup_at = 24", "0 to 23"), ("backups_daily = 0", "1 to 366"),
                               ("backups_weekly = -1", "0 to 520"),
                               ("backups_monthly = 1201", "0 to 1200")):
            self.config.write_text(line + "\n")
            done = subprocess.run([PROGRAM, "serve", "--data", self.data, "--config", self.config],
                                  text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                                  timeout=PATIENCE_S, check=False)
            self.assertEqual((done.returncode, accepted in done.stdout), (3, True), done.stdout)


if __name__ == "__main__":
    unittest.main()
