"""The command line from outside: what it makes, what it refuses, and the exit code of each.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import contextlib
import csv
import http.client
import json
import os
import pathlib
import re
import shutil
import sqlite3
import subprocess
import tempfile
import unittest

TOP = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = str(pathlib.Path(os.environ["BENCHWARDEN"]).resolve())
DEMO_MAKER = str(pathlib.Path(os.environ["BENCHWARDEN_DEMO_MAKER"]).resolve())
PATIENCE_S = 60
DONE, FAULTS, USAGE, BAD_DATA, UNAVAILABLE, REFUSED = range(6)
PIN = "274913"


class CommandLine(unittest.TestCase):
    def setUp(self):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-commands.")
        self.addCleanup(holder.cleanup)
        self.place = pathlib.Path(holder.name)
        self.data = self.place / "data"

    def expect(self, code, *words, says="", typed=""):
        """Runs the program; what it said, on either stream."""
        done = subprocess.run([PROGRAM, *map(str, words)], text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, input=typed,
                              timeout=PATIENCE_S, check=False)
        self.assertEqual(done.returncode, code, done.stdout)
        self.assertIn(says, done.stdout)
        return done.stdout

    def person(self, code, *words, says="", typed=""):
        return self.expect(code, "person", *words, "--data", self.data, says=says, typed=typed)

    def add(self, name, role):
        said = self.person(DONE, "add", "--name", name, "--role", role, "--pin", PIN)
        return re.search(r"entered (p\d+) ", said)[1]

    def serve(self):
        """A running daemon's port, and what it said before."""
        daemon = subprocess.Popen([PROGRAM, "serve", "--data", self.data, "--port", "0"],
                                  stdout=subprocess.PIPE, text=True)
        self.addCleanup(daemon.wait)
        self.addCleanup(daemon.stdout.close)
        self.addCleanup(daemon.terminate)
        return daemon, int(re.fullmatch(r".* on http://127\.0\.0\.1:(\d+)\n",
                                        daemon.stdout.readline())[1])


class Folders(CommandLine):
    LOOKING = (("verify",), ("rebuild",), ("report", "waste-month", "--month", "2026-10"),
               ("person", "list"), ("person", "deactivate", "p1"))

    def test_a_mistyped_folder_is_named_and_not_made(self):
        for words in self.LOOKING:
            self.expect(UNAVAILABLE, *words, "--data", self.data,
                        says=f"{self.data} does not exist")
        self.assertEqual(list(self.place.iterdir()), [])

    def test_a_folder_without_a_book_stays_as_it_is(self):
        self.data.mkdir()
        for words in self.LOOKING:
            self.expect(UNAVAILABLE, *words, "--data", self.data, says="holds no ")
        self.assertEqual(list(self.data.iterdir()), [])

    def test_a_file_is_no_folder(self):
        self.data.write_text("")
        for words in self.LOOKING:
            self.expect(UNAVAILABLE, *words, "--data", self.data, says="is no folder")

    def test_the_first_person_may_come_before_the_daemon(self):
        self.assertEqual(self.add("Office", "manager"), "p1")
        self.person(DONE, "list", says="p1  Office  manager")


class Files(CommandLine):
    def serve_with(self, code, *words, says):
        self.expect(code, "serve", "--data", self.data, "--port", "0", *words, says=says)
        self.assertFalse(self.data.exists())

    def test_a_configuration_must_be_a_short_regular_file(self):
        long = self.place / "long.toml"
        long.write_text("# " + "x" * 1_048_576)
        pipe = self.place / "pipe"
        os.mkfifo(pipe)
        for file, why in ((self.place, "is a folder"), (self.place / "none", "no such file"),
                          ("/dev/zero", "no regular file"), (pipe, "no regular file"),
                          (long, "longer than 1 MiB")):
            self.serve_with(BAD_DATA, "--config", file, says=f"{file}: ")
            self.serve_with(BAD_DATA, "--config", file, says=why)

    def test_values_of_a_configuration_are_judged_with_what_is_accepted(self):
        config = self.place / "config.toml"
        for line, said in (('address = "localhost"', "such as 127.0.0.1 or ::1"),
                           ('address = "[::1]"', "without brackets"),
                           ("port = 65536", "0 to 65535"), ('data_folder = ""', "a path")):
            config.write_text(line)
            self.serve_with(BAD_DATA, "--config", config, says=said)
            self.serve_with(BAD_DATA, "--config", config, says=f"{config}:1: ")
        config.write_text('https = "yes"')
        said = self.expect(BAD_DATA, "serve", "--config", config)
        self.assertEqual(said, f"{config}:1: 'https' must be true or false\n")

    def test_a_data_file_must_be_a_regular_file(self):
        for folder in ("forms", "reports"):
            shutil.copytree(TOP / folder, self.place / folder)
        form = self.place / "forms/definitions/oil-drained.toml"
        form.unlink()
        self.serve_with(BAD_DATA, "--data-files", self.place, says=f"{form}: there is no such file")
        form.symlink_to("/dev/zero")
        self.serve_with(BAD_DATA, "--data-files", self.place, says=f"{form}: is no regular file")

    def test_ports_and_addresses_of_the_command_line(self):
        for port in ("65536", "-1", "eight"):
            self.expect(USAGE, "serve", "--port", port, says="65535")
        for port in ("0", "65536", "99999999999999999999", "eight"):
            done = subprocess.run([TOP / "demo/run.sh", "--port", port], text=True, check=False,
                                  stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                                  timeout=PATIENCE_S)
            self.assertEqual((done.returncode, "1 to 65535" in done.stderr), (USAGE, True), port)
        self.expect(USAGE, "serve", "--address", "localhost", says="127.0.0.1 or ::1")


class Words(CommandLine):
    COMMANDS = ("serve, report, calculate, verify, rebuild, export, import, backup, "
                "restore, rules, person")

    def test_a_word_that_is_no_command_is_named(self):
        self.expect(USAGE, "bogus", says=f"'bogus' is not known here; accepted: {self.COMMANDS}")
        self.expect(USAGE, "--bogus", says="'--bogus' is not known here")
        self.expect(USAGE, says=f"a command is needed; accepted: {self.COMMANDS}")
        self.expect(USAGE, "person", "bogus", says="'bogus' is not known here; accepted: list, add")
        self.expect(USAGE, "person", says="a command is needed; accepted: list, add")
        for words in (("verify", "bogus"), ("person", "list", "bogus")):
            self.expect(USAGE, *words, "--data", self.data, says="bogus")

    def test_words_of_a_report_are_judged_before_the_folder(self):
        for words, said in ((("zz",), "there are audit-pack, briefing-sheet, "),
                            (("waste-month",), "month=YYYY-MM"),
                            (("waste-month", "--month", "2026-13"), "2026-13")):
            self.expect(USAGE, "report", *words, "--data", self.data, says=said)


class Persons(CommandLine):
    def test_a_passphrase_is_made_and_printed(self):
        self.person(DONE, "add", "--name", "Office", "--role", "manager", "--pin", PIN)
        made = r"^p1 has the new passphrase [2-9A-Z]{8}-[2-9A-Z]{8}\n$"
        first = self.person(DONE, "reset-passphrase", "p1")
        self.assertRegex(first, made)
        self.assertNotEqual(self.person(DONE, "reset-passphrase", "p1"), first)
        self.person(REFUSED, "reset-passphrase", "p9", says="nobody has that id")

    def test_a_pin_is_made_and_printed_or_read_from_standard_input(self):
        made = self.person(DONE, "add", "--name", "Office", "--role", "manager")
        self.assertRegex(made, r"^entered p1 Office, PIN \d{6}\n$")
        self.assertRegex(self.person(DONE, "reset-pin", "p1"), r"^p1 has the new PIN \d{6}\n$")
        typed = PIN + "\n"
        bench = ("add", "--name", "Bench A", "--role", "technician", "--pin", "-")
        self.assertNotIn(PIN, self.person(DONE, *bench, typed=typed, says="entered p2 Bench A"))
        self.assertNotIn(PIN, self.person(DONE, "reset-pin", "p2", "--pin", "-", typed=typed))
        self.person(USAGE, "reset-pin", "p2", "--pin", "-", says="a PIN")
        with sqlite3.connect(self.data / "access.db") as access:
            resets = access.execute("SELECT count(*) FROM change WHERE what = 'pin-reset'")
            self.assertEqual(resets.fetchone(), (2,))

    def test_the_last_active_manager_stays_and_others_come_back(self):
        first = self.add("Office", "manager")
        bench = self.add("Bench A", "technician")
        self.person(REFUSED, "deactivate", first, says="last active manager")
        self.person(DONE, "deactivate", bench)
        self.person(DONE, "list", says="technician  inactive")
        self.person(DONE, "activate", bench)
        self.assertNotIn("inactive", self.person(DONE, "list"))
        self.person(REFUSED, "activate", "p9", says="nobody has that id")


class Rules(CommandLine):
    """A rule pack of the workshop's own, before it is put in force."""
    PACK = """pack = "{name}"
title = "Our rules"
edition = "2026-11-01"
remarks = "Stricter than the law."
[[rules]]
id = "ours.clock"
kind = "storage-clock"
citation = "our permit"
edition = "2026"
confidence = "text-seen"
sentence = "So many days."
figures = {{ limit = {{ value = "{days}", unit = "d" }} }}
"""

    def check(self, code, name, days, says=""):
        file = self.place / "ours.toml"
        file.write_text(self.PACK.format(name=name, days=days))
        return self.expect(code, "rules", file, says=says)

    def test_faults_are_named_by_line(self):
        self.check(DONE, "ours", 30, says="ours, edition 2026-11-01: 1 rules, no fault found")
        self.check(FAULTS, "ours", "many", says="ours.toml:12: figure 'limit': 'many' is no")
        self.check(FAULTS, "england", 30, says="built in; accepted: another name")
        self.expect(USAGE, "rules", self.place / "none.toml", says="none.toml")


class Things(CommandLine):
    """Things under care from a file."""
    ROOM = '[[thing]]\nclass = "room"\nid = "hall"\nname = "Hall"\nvolume_m3 = "{}"\n'

    def file(self, text):
        path = self.place / "things.toml"
        path.write_text(text)
        return path

    def bring(self, code, *words, says=""):
        return self.expect(code, "import", *words, "--data", self.data, says=says)

    def test_a_dry_run_then_all_then_nothing_new(self):
        manager = self.add("Office", "manager")
        file = self.file(self.ROOM.format(60))
        said = self.bring(DONE, file, "--as", manager, "--dry-run", says="dry run: nothing was")
        self.assertIn("added room/hall name volume_m3", said)
        self.bring(DONE, file, "--as", manager, says="added room/hall name volume_m3")
        self.bring(DONE, file, "--as", manager, says="unchanged room/hall")
        self.file(self.ROOM.format(62))
        self.bring(DONE, file, "--as", manager, says="changed room/hall volume_m3")
        with sqlite3.connect(self.data / "book.db") as book:
            signed = book.execute("SELECT json_extract(CAST(leaf AS TEXT), '$.person_verified') "
                                  "FROM entry").fetchall()
        self.assertEqual(signed, [(0,), (0,)])
        self.expect(DONE, "verify", "--data", self.data, says="2 entries")

    def test_faults_are_named_by_line_and_nothing_is_entered(self):
        manager = self.add("Office", "manager")
        file = self.file(self.ROOM.format(0) + self.ROOM.format(50).replace("hall", "Big Hall"))
        said = self.bring(FAULTS, file, "--as", manager, says=f"{file}:5: room/hall: ")
        self.assertIn(f"{file}:8: room/Big Hall: ", said)
        self.assertIn("nothing was imported", said)
        self.expect(DONE, "verify", "--data", self.data, says="0 entries")

    def test_only_a_manager_who_is_active_may(self):
        self.add("Office", "manager")
        other = self.add("Other", "manager")
        bench = self.add("Bench A", "technician")
        self.person(DONE, "deactivate", other)
        file = self.file(self.ROOM.format(60))
        for who, why in ((bench, "managers only"), (other, "not active"),
                         ("p9", "nobody has that id")):
            self.bring(REFUSED, file, "--as", who, says=why)
        self.bring(USAGE, file, says="--as is missing")
        self.bring(USAGE, says="--book")
        self.bring(USAGE, file, "--book", self.place, says="excludes")
        self.bring(USAGE, self.place / "none", "--as", "p1", says="there is no such file")


class Demo(CommandLine):
    """Beside the invented workshop, whose book many persons have signed."""

    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-commands.")
        cls.addClassCleanup(holder.cleanup)
        cls.made = pathlib.Path(holder.name, "made")
        cls.made.mkdir(mode=0o700)
        subprocess.run([DEMO_MAKER, cls.made, TOP / "demo/inventory.toml", "http://127.0.0.1:0",
                        cls.made / "report.pdf"], check=True, stdout=subprocess.DEVNULL)
        with contextlib.closing(sqlite3.connect(cls.made / "book.db")) as book:
            signed = book.execute("SELECT DISTINCT json_extract(CAST(leaf AS TEXT), '$.person') "
                                  "FROM entry").fetchall()
        cls.largest = max(int(person[1:]) for (person,) in signed if person[1:].isdigit())

    def setUp(self):
        super().setUp()
        shutil.copytree(self.made, self.data)

    def forget_people(self):
        for file in self.data.glob("access.db*"):
            file.unlink()

    def next_id(self):
        return f"p{self.largest + 1}"

    def test_what_answers_beside_a_running_daemon(self):
        self.serve()
        file = self.place / "things.toml"
        file.write_text("")
        for words in (("rebuild",), ("report", "waste-month", "--month", "2026-10"),
                      ("import", file, "--as", "p1")):
            self.expect(UNAVAILABLE, *words, "--data", self.data, says="in use by another process")
        self.expect(DONE, "verify", "--data", self.data)
        self.person(DONE, "list", says="p1  ")

    def test_an_export_can_be_read_and_gives_the_same_book(self):
        self.serve()  # an export is made beside it
        out, anew = self.place / "out", self.place / "anew"
        said = self.expect(DONE, "export", "--to", out, "--data", self.data)
        root = re.search(r"root ([0-9a-f]{64})", said)[1]
        self.expect(REFUSED, "export", "--to", out, "--data", self.data, says="is there already")
        leaves = [json.loads(line) for line in (out / "entries.jsonl").read_text().splitlines()]
        rows = {}
        for table in (out / "tables").iterdir():
            with table.open(encoding="utf-8", newline="") as text:
                for row in csv.DictReader(text, strict=True):
                    self.assertNotIn(None, row.values())
                    rows[int(row["seq"])] = (table.stem, row)
        self.assertEqual(sorted(rows), list(range(1, len(leaves) + 1)))
        for leaf in leaves:
            kind, row = rows[leaf["seq"]]
            self.assertEqual((kind, row["id"]), (leaf["kind"], leaf["id"]))
            if kind == "correction":
                continue
            for name, value in leaf["fields"].items():
                if isinstance(value, list):
                    self.assertEqual(json.loads(row[name]), value)
                elif isinstance(value, (int, float)):
                    self.assertEqual(float(row[name]), value)
                else:
                    self.assertEqual(row[name].removeprefix("'"), value.removeprefix("'"))
        digests = subprocess.run(["sha256sum", "-c", "--quiet", "digests.txt"], cwd=out,
                                 check=False)
        self.assertEqual(digests.returncode, 0)
        self.expect(DONE, "import", "--book", out, "--data", anew, says=root)
        self.expect(DONE, "verify", "--data", anew, says=root)
        self.expect(DONE, "rebuild", "--data", anew, says="were the same")
        self.expect(REFUSED, "import", "--book", out, "--data", anew, says="no empty folder")

    def test_a_damaged_export_leaves_nothing(self):
        out, anew = self.place / "out", self.place / "anew"
        self.expect(DONE, "export", "--to", out, "--data", self.data)
        entries = out / "entries.jsonl"
        lines = entries.read_bytes().split(b"\n")
        lines[6] = lines[6].replace(b'"seq":7', b'"seq":8')
        entries.write_bytes(b"\n".join(lines))
        self.expect(FAULTS, "import", "--book", out, "--data", anew,
                    says="entries.jsonl:7: is entry 8; entry 7 belongs here")
        self.assertEqual([path.name for path in self.place.glob("anew*")], [])

    def test_a_port_that_is_taken_is_named(self):
        _, port = self.serve()
        self.expect(UNAVAILABLE, "serve", "--data", self.place / "other", "--port", port,
                    says=f"127.0.0.1:{port}")

    def test_an_end_is_accepted_once_and_told_of_for_ever(self):
        self.expect(REFUSED, "verify", "--accept-end", "--data", self.data,
                    says="nothing to accept")
        (self.data / "head.txt").unlink()
        self.expect(FAULTS, "verify", "--data", self.data, says="last-head file is missing")
        for words in (("--accept-end",), ()):
            self.expect(DONE, "verify", *words, "--data", self.data, says="head.txt was missing")

    def test_persons_of_the_book_keep_their_ids_when_access_db_is_made_anew(self):
        self.assertGreater(self.largest, 1)
        self.forget_people()
        self.assertEqual(self.add("Bench Z", "technician"), self.next_id())

    def test_a_name_goes_for_good_once_nothing_keeps_it(self):
        name = "Quentin Marsh-Ferrers"
        one = self.add(name, "technician")
        self.person(REFUSED, "erase", one, says="is active")
        self.person(REFUSED, "erase", "p1", says="which is to be kept ")
        self.person(DONE, "deactivate", one)
        daemon, _ = self.serve()
        self.person(UNAVAILABLE, "erase", one, says="in use by another process")
        daemon.terminate()
        daemon.wait()
        aside = self.data / "replaced-20261101T120000Z/access.db"
        aside.mkdir(parents=True)
        self.person(DONE, "erase", one, says=f"{aside} holds the name until")
        self.person(DONE, "list", says=f"{one}  (erased)  technician  inactive")
        self.person(REFUSED, "activate", one, says="has been erased")
        self.person(REFUSED, "erase", "p999", says="nobody has that id")
        for path in filter(pathlib.Path.is_file, self.data.iterdir()):
            self.assertNotIn(name.encode(), path.read_bytes(), path)

    def test_so_they_do_at_set_up(self):
        self.forget_people()
        daemon, port = self.serve()
        code = daemon.stdout.readline().split(": ")[1].strip()
        client = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
        client.request("POST", "/api/v1/setup", headers={"Content-Type": "application/json"},
                       body=json.dumps({"code": code, "name": "Office", "pin": PIN}))
        answer = client.getresponse()
        said = answer.read().decode()
        client.close()
        self.assertIn(answer.status, (200, 201), said)
        self.person(DONE, "list", says=f"{self.next_id()}  Office")


if __name__ == "__main__":
    unittest.main()
