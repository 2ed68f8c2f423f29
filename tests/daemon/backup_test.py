"""Backups from the command line, beside a daemon that serves.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import hashlib
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "faults"))

import served_folder

PROGRAM = served_folder.program("BENCHWARDEN")
PATIENCE_S = 120
DONE, FAULTS, USAGE, BAD_DATA, UNAVAILABLE, REFUSED = range(6)


class Backups(unittest.TestCase):
    """Beside the invented workshop."""

    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-backups.")
        cls.addClassCleanup(holder.cleanup)
        cls.made = pathlib.Path(holder.name, "made")
        cls.made.mkdir(mode=0o700)
        served_folder.make_demo(cls.made)

    def setUp(self):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-backups.")
        self.addCleanup(holder.cleanup)
        self.place = pathlib.Path(holder.name)
        self.data = self.place / "data"
        self.stick = self.place / "stick"
        self.stick.mkdir()
        shutil.copytree(self.made, self.data)

    def expect(self, code, *words, says=""):
        done = subprocess.run([PROGRAM, *map(str, words)], text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, timeout=PATIENCE_S, check=False)
        self.assertEqual(done.returncode, code, done.stdout)
        self.assertIn(says, done.stdout)
        return done.stdout

    def serve(self, data):
        """A running daemon's port."""
        daemon = subprocess.Popen([PROGRAM, "serve", "--data", data, "--port", "0"],
                                  stdout=subprocess.PIPE, text=True)
        self.addCleanup(daemon.wait)
        self.addCleanup(daemon.stdout.close)
        self.addCleanup(daemon.terminate)
        return daemon, int(re.fullmatch(r".* on http://127\.0\.0\.1:(\d+)\n",
                                        daemon.stdout.readline())[1])

    def backup(self):
        self.expect(DONE, "backup", "--to", self.stick, "--data", self.data)
        return sorted(self.stick.iterdir())[-1]


class Made(Backups):
    def test_beside_a_daemon_it_verifies_and_names_what_it_holds(self):
        self.serve(self.data)
        said = self.expect(DONE, "backup", "--to", self.stick, "--data", self.data,
                           says="the pepper, keys and certificates are not in it")
        [folder] = self.stick.iterdir()
        self.assertRegex(folder.name, r"^benchwarden-\d{8}T\d{6}Z$")
        self.assertEqual(sorted(path.name for path in folder.iterdir()),
                         ["access.db", "book.db", "head.txt", "manifest.json", "manifest.sha256"])
        self.assertEqual(folder.stat().st_mode & 0o777, 0o700)
        for path in folder.iterdir():
            self.assertEqual(path.stat().st_mode & 0o777, 0o600, path)
        summed = subprocess.run(["sha256sum", "-c", "--quiet", "manifest.sha256"], cwd=folder,
                                check=False)
        self.assertEqual(summed.returncode, 0)
        manifest = json.loads((folder / "manifest.json").read_text())
        for file in manifest["files"]:
            held = (folder / file["name"]).read_bytes()
            self.assertEqual((len(held), hashlib.sha256(held).hexdigest()),
                             (file["bytes"], file["sha256"]), file["name"])
        self.assertIn(f"{manifest['size']} entries, root {manifest['root']}", said)
        self.expect(DONE, "verify", "--data", folder, says=manifest["root"])
        self.expect(DONE, "verify", "--data", folder, says="this is the backup of ")
        pepper = (self.data / "pepper").read_bytes()
        for path in folder.iterdir():
            self.assertNotIn(pepper, path.read_bytes(), path)

    def test_verify_holds_every_file_of_it_to_its_manifest(self):
        folder = self.backup()
        people = folder / "access.db"
        whole = people.read_bytes()
        people.write_bytes(whole[:-1] + bytes([whole[-1] ^ 1]))
        self.expect(FAULTS, "verify", "--data", folder,
                    says="access.db is not what the manifest says")
        people.unlink()
        self.expect(FAULTS, "verify", "--data", folder, says="access.db is missing")
        people.write_bytes(whole)
        self.expect(DONE, "verify", "--data", folder, says="in every file")
        manifest = folder / "manifest.json"
        text = manifest.read_text()
        manifest.write_text(text.replace('"size":', '"size": '))
        self.expect(FAULTS, "verify", "--data", folder, says="manifest.json")

    def test_what_stands_in_the_way_is_said_and_nothing_is_left(self):
        self.expect(UNAVAILABLE, "backup", "--to", self.place / "none", "--data", self.data,
                    says="no backup was made")
        self.expect(UNAVAILABLE, "backup", "--to", self.stick, "--data", self.place / "none",
                    says="does not exist")
        self.expect(USAGE, "backup", "--data", self.data, says="--to")
        inside = self.data / "backups"
        inside.mkdir()
        for to in (inside, f"{inside}/", self.stick / ".." / "data", self.data):
            self.expect(USAGE, "backup", "--to", to, "--data", self.data,
                        says=f"--to {to} lies in the data folder")
        self.expect(USAGE, "export", "--to", inside / "new", "--data", self.data,
                    says="lies in the data folder")
        (self.data / "head.txt").unlink()
        self.expect(FAULTS, "backup", "--to", self.stick, "--data", self.data,
                    says="last-head file is missing")
        self.assertEqual(list(self.stick.iterdir()), [])


if __name__ == "__main__":
    unittest.main()
