"""Books and people that earlier formats of the program wrote are opened, held to their root and
gone on with; a book or people of a later format are refused in words.

tests/upgrades has, for each format there was, the first entries of a demo and its people as SQL,
dumped from what the program of the commit named in the first line wrote. A change of schema_steps
or of book_schema adds a pair.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import datetime
import gzip
import hashlib
import json
import pathlib
import re
import sqlite3
import subprocess
import sys
import tempfile
import unittest
import uuid

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "faults"))

import served_folder

WRITTEN = served_folder.TOP / "tests/upgrades"
DONE, FAULTS, USAGE, BAD_DATA, UNAVAILABLE, REFUSED = range(6)
OFFICE = {"id": "p1", "pin": "604172"}
FORMATS = sorted(int(re.search(r"\d+", file.name)[0]) for file in WRITTEN.glob("book-*.sql.gz"))


def script(name):
    return gzip.decompress((WRITTEN / f"{name}.sql.gz").read_bytes()).decode("utf-8")


def said_in(text, word):
    return re.search(rf"^-- {word} ([0-9a-f]+)$", text, re.M)[1]


def head_record(size, root):
    """One half of head.txt, as DEVELOPERS.md tells it."""
    said = f"head {size:020d} {root}"
    return f"{said} {hashlib.sha256(said.encode()).hexdigest()}".ljust(511) + "\n"


def run(*words):
    done = subprocess.run([served_folder.program("BENCHWARDEN"), *map(str, words)], text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=120,
                          check=False)
    return done.returncode, done.stdout


def drain():
    now = datetime.datetime.now(datetime.timezone.utc)
    identity = int(now.timestamp() * 1000) << 80 | 7 << 76 | 2 << 62 | uuid.uuid4().int >> 70
    return json.dumps({"id": str(uuid.UUID(int=identity)), "kind": "oil-drained",
                       "occurred_at": now.isoformat(timespec="milliseconds"),
                       "fields": {"container": "w1", "volume_ml": 1}})


class OldFolder(unittest.TestCase):
    def make(self, number):
        """A data folder as the program of that format left it: size and root of the book."""
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-upgrade.")
        self.addCleanup(holder.cleanup)
        self.data = pathlib.Path(holder.name)
        book, access = script(f"book-{number}"), script(f"access-{number}")
        for name, text in (("book.db", book), ("access.db", access)):
            connection = sqlite3.connect(self.data / name)
            connection.execute("PRAGMA journal_mode = WAL")
            connection.executescript(text)
            connection.close()
            (self.data / name).chmod(0o600)
        (self.data / "pepper").write_bytes(bytes.fromhex(said_in(access, "pepper")))
        (self.data / "pepper").chmod(0o600)
        root = said_in(book, "root")
        size = book.count("INSERT INTO entry VALUES")
        (self.data / "head.txt").write_text(head_record(size, root) * 2, "ascii")
        return size, root

    def versions(self):
        found = []
        for name in ("book.db", "access.db"):
            connection = sqlite3.connect(self.data / name)
            found.append(connection.execute("PRAGMA user_version").fetchone()[0])
            connection.close()
        return found

    def verified(self, size, root):
        code, said = run("verify", "--data", self.data)
        self.assertEqual((code, f"{size} entries, root {root}" in said), (DONE, True), said)

    def serve(self):
        daemon = served_folder.Daemon(self.data)
        self.addCleanup(daemon.close)
        return daemon


class Upgrade(OldFolder):
    def test_each_is_verified_as_it_lies_and_not_changed_by_that(self):
        for number in FORMATS:
            with self.subTest(format=number):
                size, root = self.make(number)
                before = self.versions()
                self.verified(size, root)
                self.assertEqual(self.versions(), before)

    def test_each_opens_goes_on_and_still_begins_with_what_was_there(self):
        for number in FORMATS:
            with self.subTest(format=number):
                size, root = self.make(number)
                before = self.versions()
                daemon = self.serve()
                client = served_folder.Client(daemon, served_folder.sign_in(daemon, OFFICE))
                self.addCleanup(client.close)
                entries = client.all_entries()
                self.assertGreaterEqual(len(entries), size)
                status, answer = client.call("POST", "/entries", drain())
                self.assertEqual(status, 201, answer)
                names = [person["name"] for person in client.read("/people")["people"]]
                self.assertEqual(names[0], "Office")
                client.read("/levels")
                client.read("/findings")
                self.assertEqual(daemon.stop()[:1], (DONE,))
                after = self.versions()
                self.assertTrue(all(new >= old for new, old in zip(after, before)), after)
                code, said = run("verify", "--data", self.data, "--size", size, "--root", root)
                self.assertEqual(code, DONE, said)
                code, said = run("verify", "--data", self.data)
                self.assertEqual(code, DONE, said)

    def test_all_come_to_the_same_format(self):
        reached = set()
        for number in FORMATS:
            self.make(number)
            self.assertEqual(self.serve().stop()[0], DONE)
            reached.add(tuple(self.versions()))
        self.assertEqual(len(reached), 1, reached)
        [(book, access)] = reached
        self.assertEqual(FORMATS[0], 1)
        self.assertGreater(book, 1)
        self.assertGreater(access, len(FORMATS))


class Later(OldFolder):
    def test_is_refused_in_words_and_left_as_it_is(self):
        for name in ("book.db", "access.db"):
            with self.subTest(file=name):
                self.make(FORMATS[-1])
                connection = sqlite3.connect(self.data / name)
                connection.execute("PRAGMA user_version = 99")
                connection.close()
                before = (self.data / name).read_bytes()
                for command in ("serve", "backup") if name == "book.db" else ("serve",):
                    words = (["--to", tempfile.gettempdir()] if command == "backup"
                             else ["--port", "0"])
                    code, said = run(command, "--data", self.data, *words)
                    self.assertIn(code, (REFUSED, UNAVAILABLE, FAULTS), said)
                    self.assertIn(f"{name} was written by a newer version", said)
                self.assertEqual((self.data / name).read_bytes(), before)


if __name__ == "__main__":
    unittest.main()
