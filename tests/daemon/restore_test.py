"""Restoring a backup: on another computer, over what is there, and when a bit of it has turned.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import os
import pathlib
import random
import re
import resource
import secrets
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "faults"))

import drain_load
import served_folder

PROGRAM = served_folder.program("BENCHWARDEN")
PATIENCE_S = 120
DONE, FAULTS, USAGE, BAD_DATA, UNAVAILABLE, REFUSED = range(6)


class Restored(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-restored.")
        cls.addClassCleanup(holder.cleanup)
        cls.made = pathlib.Path(holder.name, "made")
        cls.made.mkdir(mode=0o700)
        cls.technician = served_folder.make_demo(cls.made)["technician"]

    def setUp(self):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-restored.")
        self.addCleanup(holder.cleanup)
        self.place = pathlib.Path(holder.name)
        self.data, self.stick, self.other = (self.place / name
                                             for name in ("data", "stick", "other"))
        self.stick.mkdir()
        shutil.copytree(self.made, self.data)
        self.seed = int(os.environ.get("BENCHWARDEN_SEED", secrets.randbits(32)))
        self.random = random.Random(self.seed)

    def expect(self, code, *words, says=""):
        done = subprocess.run([PROGRAM, *map(str, words)], text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, timeout=PATIENCE_S, check=False)
        self.assertEqual(done.returncode, code, f"BENCHWARDEN_SEED={self.seed}: {done.stdout}")
        self.assertIn(says, done.stdout)
        return done.stdout

    def backup(self):
        self.expect(DONE, "backup", "--to", self.stick, "--data", self.data)
        [folder] = self.stick.iterdir()
        return folder

    def restore(self, code, folder, *words, says=""):
        return self.expect(code, "restore", "--from", folder, "--data", self.other, *words,
                           says=says)

    def serve(self, data):
        daemon = served_folder.Daemon(data)
        self.addCleanup(daemon.close)
        return daemon

    def put_keys_back(self):
        """What is kept apart from backups, and copied by hand."""
        for name in ("pepper", "signing.key"):
            shutil.copy(self.data / name, self.other / name)

    def entries(self, daemon):
        client = served_folder.Client(daemon, served_folder.sign_in(daemon, self.technician))
        self.addCleanup(client.close)
        return {entry["id"]: entry for entry in client.all_entries()}

    def test_a_backup_under_load_holds_every_entry_answered_before_it_began(self):
        daemon = self.serve(self.data)
        token = served_folder.sign_in(daemon, self.technician)
        posts = drain_load.make_posts(self.random)
        before, answered_after = [], []

        def strike():
            before.extend(post for post in posts if post.recorded)
            self.backup()
            answered_after.append(sum(post.recorded for post in posts))

        load = drain_load.Load(daemon, token, posts, self.random.randint(50, 200), 0, strike).run()
        self.assertEqual(load.faults, [])
        self.assertGreaterEqual(len(before), 50)
        self.assertGreater(answered_after[0], len(before), "nothing was recorded meanwhile")
        daemon.close()

        [folder] = self.stick.iterdir()
        self.restore(DONE, folder, says="still to be put in place: " + str(self.other / "pepper"))
        self.expect(DONE, "verify", "--data", self.other)
        self.put_keys_back()
        entries = self.entries(self.serve(self.other))
        for post in before:
            self.assertEqual(entries[post.id]["leaf_hash"], post.answer["leaf_hash"])

    def test_it_says_what_is_missing_and_ends_every_session(self):
        daemon = self.serve(self.data)
        token = served_folder.sign_in(daemon, self.technician)
        folder = self.backup()
        self.other.mkdir()
        shutil.copy(self.data / "pepper", self.other / "pepper")
        said = self.restore(DONE, folder, says="every session is ended")
        shutil.copy(self.data / "signing.key", self.other / "signing.key")
        self.assertNotIn(str(self.other / "pepper"), said)
        self.assertIn(str(self.other / "tls/authority.pem"), said)
        self.assertIn("configuration file", said)
        client = served_folder.Client(self.serve(self.other), token)
        self.addCleanup(client.close)
        self.assertEqual(client.call("GET", "/entries")[0], 401)

    def test_what_is_there_is_refused_or_moved_aside(self):
        folder = self.backup()
        shutil.copytree(self.made, self.other)
        self.restore(REFUSED, folder, says="--replace moves them aside")
        daemon = self.serve(self.other)
        self.restore(UNAVAILABLE, folder, "--replace", says="in use by another process")
        daemon.stop()
        with sqlite3.connect(self.other / "book.db") as book:
            book.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        old = (self.other / "book.db").read_bytes()
        self.restore(DONE, folder, "--replace", says="what was there before lies in ")
        [aside] = self.other.glob("replaced-*")
        self.assertEqual((aside / "book.db").read_bytes()[100:], old[100:])
        self.expect(DONE, "verify", "--data", aside)
        self.expect(DONE, "verify", "--data", self.other)

    def test_a_head_kept_elsewhere_is_proven(self):
        said = self.expect(DONE, "verify", "--data", self.data)
        size, root = re.search(r"^(\d+) entries, root (\w{64})$", said, re.M).groups()
        folder = self.backup()
        self.restore(FAULTS, folder, "--size", size, "--root", "0" * 64, says="not those that")
        self.restore(USAGE, folder, "--size", size, says="--root")
        self.restore(USAGE, folder, "--size", size, "--root", "abc",
                     says="accepted: 64 hexadecimal digits")
        self.assertFalse(self.other.exists())
        self.restore(DONE, folder, "--size", f" {size}", "--root", root.upper(),
                     says=f"root {root}")

    def test_one_bit_turned_anywhere_is_found_and_nothing_is_left(self):
        folder = self.backup()
        files = sorted(folder.iterdir())
        for turn in range(60):  # hundreds more in tests/workshop
            file = files[turn % len(files)]
            at, bit = self.random.randrange(file.stat().st_size), 1 << self.random.randrange(8)
            with open(file, "r+b") as open_file:
                self.turn(open_file, at, bit)
                self.restore(FAULTS, folder, says="nothing was restored")
                self.assertFalse(self.other.exists())
                self.turn(open_file, at, bit)
        self.restore(DONE, folder)

    @staticmethod
    def turn(open_file, at, bit):
        open_file.seek(at)
        byte = open_file.read(1)[0]
        open_file.seek(at)
        open_file.write(bytes([byte ^ bit]))
        open_file.flush()

    def test_a_full_disk_is_not_blamed_on_the_backup(self):
        folder = self.backup()

        def may_write_little():
            resource.setrlimit(resource.RLIMIT_FSIZE, (100_000, 100_000))
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)

        done = subprocess.run([PROGRAM, "restore", "--from", folder, "--data", self.other],
                              preexec_fn=may_write_little, text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, timeout=PATIENCE_S, check=False)
        self.assertEqual(done.returncode, UNAVAILABLE, done.stdout)
        self.assertRegex(done.stdout, rf"{self.other}/restored\S*/\w+\.db cannot be written: ")
        self.assertNotIn(str(folder), done.stdout)
        self.assertFalse(self.other.exists())

    def test_what_it_says_of_a_missing_signing_key_is_what_serve_does(self):
        self.assertNotIn("signing.key", self.restore(DONE, self.backup()))
        daemon = self.serve(self.data)  # signs
        daemon.stop()
        shutil.rmtree(self.other)
        shutil.rmtree(self.stick)
        self.stick.mkdir()
        self.restore(DONE, self.backup(), says="without it the daemon starts only with --new-key")
        shutil.copy(self.data / "pepper", self.other / "pepper")
        done = subprocess.run([PROGRAM, "serve", "--data", self.other, "--port", "0"], text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                              timeout=PATIENCE_S, check=False)
        self.assertNotEqual(done.returncode, DONE)
        self.assertIn("signing.key is missing", done.stdout)

    def test_no_backup_is_told(self):
        self.restore(REFUSED, self.place, says="manifest.json")
        self.assertFalse(self.other.exists())


if __name__ == "__main__":
    unittest.main()
