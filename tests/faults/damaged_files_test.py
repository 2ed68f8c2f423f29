"""Files of a data folder missing, cut, changed or out of reach, and what the daemon does then.

It starts and serves what was recorded, or it refuses and names the file; it never dies of a signal,
and never serves other entries than were recorded. What of book.db was changed `verify` finds.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs; BENCHWARDEN_DAMAGES is how
many places are cut or changed in each file (1), BENCHWARDEN_TELL=1 prints what the daemon said,
BENCHWARDEN_SEED repeats the choices of an earlier run.
"""

import collections
import os
import pathlib
import random
import secrets
import shutil
import signal
import subprocess
import tempfile
import threading
import unittest

import drain_load
import served_folder

DAMAGES = int(os.environ.get("BENCHWARDEN_DAMAGES", "1"))
NOBODY = 65534
PATIENCE_S = 60
EXITS = {1, 2, 3, 4, 5}  # of the README; 0 is none of them
SECURE = "https = true\nport = 0\nset_up_port = 0\n"

# A file, and whether the daemon must start without help whatever is the matter with its bytes.
FILES = (
    ("book.db", False), ("book.db-wal", False), ("head.txt", False), ("access.db", False),
    ("access.db-wal", False), ("pepper", False), ("signing.key", False), ("derived.db", True),
    ("staged.db", True), ("book.db-shm", True),
)
SECURE_FILES = (("tls/authority.pem", False), ("tls/server.pem", False))
# What a message calls the file, where it is not its own name.
CALLED = {"book.db-wal": ("book.db", "the book in "),
          "head.txt": ("head.txt",),
          "access.db-wal": ("access.db",), "book.db-shm": ("book.db",),
          "book.db": ("book.db", "the book in "),
          "tls/authority.pem": ("authority.pem",)}


def missing(path, _):
    path.unlink()


def empty(path, _):
    path.write_bytes(b"")


def cut(path, choices):
    os.truncate(path, choices.randrange(path.stat().st_size))


def flipped(path, choices):
    data = bytearray(path.read_bytes())
    data[choices.randrange(len(data))] ^= 1 << choices.randrange(8)
    path.write_bytes(data)


def folder(path, _):
    path.unlink()
    path.mkdir()


def unreadable(path, _):
    path.chmod(0)


class Ended(Exception):
    """The daemon ended instead of starting."""

    def __init__(self, code, said):
        super().__init__(said)
        self.code, self.said = code, said


def as_nobody():
    """Root reads whatever it likes, so the programs run as somebody else."""
    return {"user": NOBODY, "group": NOBODY, "extra_groups": []} if os.geteuid() == 0 else {}


def own(folder_):
    """Gives all of it to whoever the programs run as."""
    if os.geteuid() == 0:
        for path in (folder_, *folder_.rglob("*")):
            os.chown(path, NOBODY, NOBODY)


class Daemon:
    def __init__(self, data, *options, before=None):
        self.process = subprocess.Popen(
            [served_folder.program("BENCHWARDEN"), "serve", "--data", data, *options], text=True,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, preexec_fn=before, **as_nobody())
        overdue = threading.Timer(PATIENCE_S, self.process.kill)
        overdue.start()
        line = self.process.stdout.readline()
        overdue.cancel()
        if " on http" not in line:
            rest, faults = self.process.communicate(timeout=PATIENCE_S)
            raise Ended(self.process.returncode, line + rest + faults)
        said = served_folder.START.fullmatch(line)
        self.host, self.port = (said[1], int(said[2])) if said else (None, None)

    def close(self):
        self.process.kill()
        if not self.process.stdout.closed:
            self.process.communicate()

    def stop(self):
        self.process.send_signal(signal.SIGTERM)
        said, faults = self.process.communicate(timeout=PATIENCE_S)
        return self.process.returncode, said + faults


class DamagedFiles(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-damaged.")
        cls.addClassCleanup(holder.cleanup)
        cls.place = pathlib.Path(holder.name)
        cls.place.chmod(0o755)
        cls.whole, cls.data = cls.place / "whole", cls.place / "data"
        cls.whole.mkdir(mode=0o700)
        person = served_folder.make_demo(cls.whole)["technician"]
        own(cls.whole)
        (cls.place / "secure.toml").write_text(SECURE)
        Daemon(cls.whole, "--config", cls.place / "secure.toml").stop()
        cls.leave_logs(person)
        cls.seed = int(os.environ.get("BENCHWARDEN_SEED", secrets.randbits(32)))
        cls.outcomes = collections.Counter()

    @classmethod
    def tearDownClass(cls):
        print(f"damaged files, BENCHWARDEN_SEED={cls.seed}: " + ", ".join(
            f"{count} {name}" for name, count in sorted(cls.outcomes.items())))

    @classmethod
    def leave_logs(cls, person):
        """A daemon that dies with entries in its log alone; what it had recorded by then."""
        daemon = Daemon(cls.whole, "--port", "0")
        cls.token = served_folder.sign_in(daemon, person)
        client = served_folder.Client(daemon, cls.token)
        for post in drain_load.make_posts(random.Random(5), 5):
            assert client.call("POST", "/entries", post.body)[0] == 201
        cls.entries = {entry["id"]: entry for entry in client.all_entries()}
        client.close()
        daemon.process.kill()
        daemon.process.communicate()

    def choices(self, *words):
        return random.Random(f"{words} {self.seed}")

    def fresh(self):
        shutil.rmtree(self.data, ignore_errors=True)
        shutil.copytree(self.whole, self.data)
        own(self.data)

    def verify(self):
        done = subprocess.run([served_folder.program("BENCHWARDEN"), "verify", "--data", self.data],
                              text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                              timeout=PATIENCE_S, check=False, **as_nobody())
        self.assertIn(done.returncode, {0} | EXITS, done.stdout)
        return done.returncode, done.stdout

    def expect_no_other_entry(self, daemon, name, is_found):
        """Each entry as it was recorded; one that is not served must be found by verify."""
        client = served_folder.Client(daemon, self.token)
        try:
            status, page = client.call("GET", "/entries?limit=1")
            if status in (401, 403) and name.startswith("access.db"):
                return  # nobody is signed in any more
            self.assertTrue(is_found or status == 200, page)
            if not is_found:
                served = {entry["id"]: entry for entry in client.all_entries()}
                self.assertEqual(served, self.entries)
                return
            for identity in random.Random(self.seed).sample(sorted(self.entries), 300):
                status, entry = client.call("GET", f"/entries/{identity}")
                self.assertIn(status, (200, 404, 503), entry)
                if status == 200:
                    self.assertEqual(entry, self.entries[identity])
        finally:
            client.close()

    def look(self, name, must_start, options):
        """Starts it on what was damaged. Returns what came of it."""
        code, found = (0, "") if must_start or "tls" in name else self.verify()
        try:
            daemon = Daemon(self.data, *options)
        except Ended as ended:
            self.assertIn(ended.code, EXITS, f"ended by {ended.code}: {ended.said}")
            self.assertFalse(must_start, ended.said)
            called = CALLED.get(name, (name,))
            self.assertTrue(any(word in ended.said for word in called), ended.said)
            return "refused", ended.said
        self.addCleanup(daemon.close)
        if daemon.port:
            self.expect_no_other_entry(daemon, name, code != 0)
        ended, said = daemon.stop()
        self.assertEqual(ended, 0, said)
        return "started" if code == 0 else "started, found by verify", found.splitlines()[:1]

    def damage(self, name, fault, number, must_start, options=("--port", "0")):
        with self.subTest(file=name, fault=fault.__name__, number=number, seed=self.seed):
            self.fresh()
            path = self.data / name
            before = path.read_bytes()
            if fault in (cut, flipped) and not before:
                return
            fault(path, self.choices(name, fault.__name__, number))
            own(self.data)
            self.assertTrue(path.is_dir() or not path.exists() or fault is unreadable
                            or path.read_bytes() != before, "nothing was damaged")
            outcome, said = self.look(name, must_start, options)
            type(self).outcomes[outcome] += 1
            if os.environ.get("BENCHWARDEN_TELL"):
                print(f"{name} {fault.__name__} {number}: {outcome}: {said}")

    def damage_all(self, files, options=("--port", "0")):
        for name, throwaway in files:
            for fault in (missing, empty, folder, unreadable):
                self.damage(name, fault, 0, throwaway and fault in (missing, empty), options)
            for fault in (cut, flipped):
                for number in range(DAMAGES):
                    self.damage(name, fault, number, throwaway, options)

    def test_files_of_the_data_folder(self):
        self.damage_all(FILES)
        self.assertGreater(self.outcomes["refused"], len(FILES))
        self.assertGreater(self.outcomes["started"], len(FILES))

    def test_files_of_the_certificates(self):
        self.damage_all(SECURE_FILES, ("--config", self.place / "secure.toml"))


if __name__ == "__main__":
    unittest.main()
