"""The key the daemon signs with, and what README.md tells an inspector to do without this program.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import base64
import pathlib
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "faults"))

import served_folder

PROGRAM = served_folder.program("BENCHWARDEN")
PATIENCE_S = 60


class Seal(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-seal.")
        cls.addClassCleanup(holder.cleanup)
        cls.made = pathlib.Path(holder.name, "made")
        cls.made.mkdir(mode=0o700)
        served_folder.make_demo(cls.made)
        cls.sign(cls.made)

    def setUp(self):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-seal.")
        self.addCleanup(holder.cleanup)
        self.place = pathlib.Path(holder.name)
        self.data = self.place / "data"
        shutil.copytree(self.made, self.data)
        self.key = self.data / "signing.key"

    @staticmethod
    def sign(data, *words):
        """Serves until it is up, which signs what is to be signed; what was said."""
        log = data / "serve.log"
        with open(log, "w", encoding="utf-8") as written:
            daemon = subprocess.Popen([PROGRAM, "serve", "--data", data, "--port", "0", *words],
                                      stdout=written, stderr=subprocess.STDOUT)
        deadline = time.monotonic() + PATIENCE_S
        while " on http" not in log.read_text() and daemon.poll() is None:
            if time.monotonic() > deadline:
                break
            time.sleep(0.05)
        daemon.terminate()
        return daemon.wait(PATIENCE_S), log.read_text()

    def run_program(self, *words):
        done = subprocess.run([PROGRAM, *map(str, words)], text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, timeout=PATIENCE_S, check=False)
        return done.returncode, done.stdout

    def refused(self, why, *words):
        code, said = self.sign(self.data, *words)
        self.assertIn(why, said)
        self.assertNotEqual(code, 0)
        return said

    def export(self, name):
        to = self.place / name
        self.assertEqual(self.run_program("export", "--data", self.data, "--to", to)[0], 0)
        return to

    def test_the_key_is_its_owners_alone_and_leaves_with_no_export(self):
        self.assertEqual(self.key.stat().st_mode & 0o777, 0o600)
        self.assertEqual(self.key.stat().st_size, 32)
        secret = self.key.read_bytes()
        out = self.export("out")
        for file in filter(pathlib.Path.is_file, out.rglob("*")):
            self.assertNotEqual(file.name, "signing.key")
            self.assertNotIn(secret, file.read_bytes())

    def test_a_lost_key_is_told_with_what_to_do_and_another_shows(self):
        self.key.unlink()
        self.assertIn("start once with --new-key", self.refused("signing.key is missing"))
        self.assertFalse(self.key.exists())
        self.assertEqual(self.sign(self.data, "--new-key")[0], 0)
        code, said = self.run_program("verify", "--data", self.data)
        self.assertEqual(code, 0, said)
        self.assertRegex(said, r"note: from checkpoint 2 of \S+ on another key signs: ")
        self.refused("is the key of the last checkpoint, and stays", "--new-key")
        self.assertEqual(self.sign(self.data)[0], 0)

    def test_another_key_or_half_a_key_is_refused(self):
        self.key.write_bytes(b"x" * 32)
        self.refused("is not the key of the last checkpoint")
        self.key.write_bytes(b"x" * 31)
        self.refused("not 32 bytes long")
        code, said = self.sign(self.data, "--new-key")
        self.assertEqual(code, 0, said)
        self.assertEqual((self.data / "signing.key.unreadable").read_bytes(), b"x" * 31)
        self.assertEqual(self.key.stat().st_size, 32)
        self.key.write_bytes(b"y" * 31)
        self.refused("signing.key.unreadable is there; take it away first", "--new-key")

    def test_a_key_that_others_could_read_is_said_and_made_its_owners(self):
        told = "could be read or written by others than its owner"
        self.assertNotIn(told, self.sign(self.data)[1])
        for mode in (0o640, 0o602):
            self.key.chmod(mode)
            code, said = self.sign(self.data)
            self.assertEqual(code, 0, said)
            self.assertIn(told, said)
            self.assertEqual(self.key.stat().st_mode & 0o777, 0o600)

    def test_an_export_is_held_to_the_key_that_is_given(self):
        out = self.export("out")
        key = (out / "verifier-key.txt").read_text().strip()
        code, said = self.run_program("verify", "--export", out, "--key", key)
        self.assertEqual(code, 0, said)
        self.assertIn("the key you gave signed the first ", said)
        self.key.unlink()
        self.assertEqual(self.sign(self.data, "--new-key")[0], 0)
        other = (self.export("after") / "verifier-key.txt").read_text().strip()
        code, said = self.run_program("verify", "--export", out, "--key", other)
        self.assertEqual(code, 1, said)
        self.assertIn("no checkpoint in it is signed by the key you gave", said)
        (out / "entries.jsonl").write_bytes(b"")
        code, said = self.run_program("verify", "--export", out)
        self.assertEqual(code, 1, said)
        self.assertIn("the export does NOT hold what was recorded", said)
        self.assertNotIn(" entries, root ", said)

    def test_a_book_cut_short_or_emptied_is_said_not_to_hold(self):
        book = self.data / "book.db"
        with sqlite3.connect(book) as database:
            database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        whole = book.read_bytes()
        for left in (0, 50, 5000, len(whole) // 2, len(whole) - 4096):
            book.write_bytes(whole[:left])
            code, said = self.run_program("verify", "--data", self.data)
            self.assertEqual(code, 1, (left, said))
            self.assertIn("the data folder does NOT hold what was recorded", said)

    def test_an_import_wants_the_key_too(self):
        out, anew = self.export("out"), self.place / "anew"
        self.assertEqual(self.run_program("import", "--book", out, "--data", anew)[0], 0)
        code, said = self.sign(anew)
        self.assertIn("signing.key is missing", said)
        self.assertNotEqual(code, 0)
        shutil.copy(self.key, anew)
        self.assertEqual(self.sign(anew)[0], 0)

    def expect_usage(self, why, *words):
        code, said = self.run_program("verify", "--data", self.data, *words)
        self.assertEqual(code, 2, (words, said))
        self.assertIn(why, said)

    def test_words_of_verify_exclude_each_other(self):
        for words in (("--size", "3"), ("--root", "00"), ("--proof", "x", "--report", "y"),
                      ("--key", "x", "--size", "1", "--root", "00"), ("--key", "x", "--accept-end"),
                      ("--checkpoint", "x", "--export", "y")):
            self.expect_usage("--", *words)

    def test_a_key_alone_or_one_that_is_none_and_empty_words_are_refused(self):
        out = self.export("out")
        key = (out / "verifier-key.txt").read_text().strip()
        self.expect_usage("accepted: --checkpoint, --proof, --report or --export", "--key", key)
        for words in ((), ("--export", out), ("--report", out / "README.txt")):
            self.expect_usage("--key: no verifier key: ", "--key", key[:-4], *words)
        for word in ("--checkpoint", "--proof", "--report", "--export", "--key"):
            self.expect_usage(f"{word}: is empty", word, "")

    def test_a_size_or_root_that_is_none_says_what_is_accepted(self):
        for size in ("0", "0x10", "18446744073709551616", "-1", "1.5", "three"):
            self.expect_usage(f"--size '{size}' is no number of entries; accepted: 1 or more",
                              f"--size={size}", "--root", "00" * 32)
        for root in ("00", "g" * 64, "A" * 44):
            self.expect_usage(f"--root '{root}' is no root of a tree; accepted: 64 hexadecimal",
                              "--size", "1", "--root", root)

    def test_no_sign_that_is_not_seen_comes_out_of_a_file(self):
        note = (self.export("out") / "checkpoint.note").read_text()
        copy = self.place / "note"
        copy.write_text(note.replace("benchwarden", "a\u202e\u0085\x7f", 1))
        code, said = self.run_program("verify", "--data", self.data, "--checkpoint", copy)
        self.assertEqual(code, 1, said)
        self.assertIn("one of another book: of a<U+202E><U+0085><U+007F>/book/", said)

    def test_a_note_is_taken_with_the_line_ends_of_readers_and_editors(self):
        out = self.export("out")
        note = (out / "checkpoint.note").read_bytes()
        copy = self.place / "note"
        for changed in (note, note + b"\n", note[:-1], note.replace(b"\n", b"\r\n"),
                        note.replace(b"\n", b"\r\n") + b"\r\n"):
            copy.write_bytes(changed)
            code, said = self.run_program("verify", "--data", self.data, "--checkpoint", copy)
            self.assertEqual(code, 0, said)
            self.assertIn("signed by a key this book names", said)
        for changed in (note.replace(b"\n\n", b"\n", 1), b" " + note, b""):
            copy.write_bytes(changed)
            code, said = self.run_program("verify", "--data", self.data, "--checkpoint", copy)
            self.assertNotEqual(code, 0, said)

    def test_a_head_typed_off_a_page_is_taken_in_hex_and_base64(self):
        text = (self.export("out") / "checkpoint.note").read_text().split("\n")
        code, said = self.run_program("verify", "--data", self.data, "--size", text[1],
                                      "--root", text[2])
        self.assertEqual(code, 0, said)
        self.assertIn("are, unchanged and in their order, those of the root given", said)
        hexadecimal = base64.b64decode(text[2]).hex().upper()
        self.assertGreater(len(text[1]), 2)
        for space in (" ", "\u00a0", "\u202f"):
            grouped = text[1][:-2] + space + text[1][-2:]
            code, said = self.run_program("verify", "--data", self.data, "--size", grouped,
                                          "--root", hexadecimal)
            self.assertEqual(code, 0, said)
        code, said = self.run_program("verify", "--data", self.data, "--size", text[1],
                                      "--root", "ab" * 32)
        self.assertEqual(code, 1, said)
        self.assertIn("it does NOT hold", said)

    def test_the_steps_of_the_readme_work_with_open_tools(self):
        readme = (served_folder.TOP / "README.md").read_text(encoding="utf-8")
        part = readme[readme.index("\n## Prove it\n"):readme.index("\n## Back up\n")]
        shell = re.search(r"```sh\n(.*?)```", part, re.S)[1]
        python = re.search(r"```python\n(.*?)```", part, re.S)[1]
        out = self.export("out")
        shutil.copy(out / "checkpoint.note", out / "note")
        key = (out / "verifier-key.txt").read_text().strip()
        for text, verdict in ((None, True), ("changed", False)):
            if text:
                note = (out / "note").read_text()
                (out / "note").write_text(note.replace("benchwarden", text, 1))
            done = subprocess.run([shutil.which("dash") or "sh", "-c", f"KEY='{key}'\n{shell}"],
                                  cwd=out, text=True,
                                  stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
            self.assertEqual("Signature Verified Successfully" in done.stdout, verdict, done.stdout)
        _, size, root = (out / "checkpoint.note").read_text().split("\n")[:3]
        done = subprocess.run([sys.executable, "-c", python, size], cwd=out, text=True,
                              stdout=subprocess.PIPE, check=True)
        self.assertEqual(done.stdout.strip(), root)
        entries = (out / "entries.jsonl").read_bytes().count(b"\n")
        for none in (0, entries + 1):
            done = subprocess.run([sys.executable, "-c", python, str(none)], cwd=out, text=True,
                                  stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
            self.assertEqual((done.stdout, bool(done.returncode)), ("", True))


if __name__ == "__main__":
    unittest.main()
