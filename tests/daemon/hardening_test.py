"""What takes from an attacker who is inside: how the program is built, and what the service may do.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import json
import os
import pathlib
import platform
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "faults"))
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))

import drain_load
import seccomp
import served_folder

PROGRAM = pathlib.Path(served_folder.program("BENCHWARDEN"))
UNIT = served_folder.TOP / ".package/benchwarden.service"
PATIENCE_S = 60
NOBODY = 65533  # not the user whose threads the tests of limits count
EXPOSURE_MAX = 15  # of 100, as systemd-analyze counts


def readelf(*options):
    return subprocess.run(["readelf", "--wide", *options, PROGRAM], check=True, text=True,
                          stdout=subprocess.PIPE, env={**os.environ, "LC_ALL": "C"}).stdout


class TheProgram(unittest.TestCase):
    def test_it_may_lie_anywhere(self):
        self.assertRegex(readelf("--file-header"), r"Type: +DYN ")
        self.assertRegex(readelf("--dynamic"), r"\(FLAGS_1\).*\bPIE\b")

    def test_its_tables_are_bound_at_start_and_then_read_only(self):
        self.assertIn("GNU_RELRO", readelf("--program-headers"))
        self.assertRegex(readelf("--dynamic"), r"\(FLAGS_1\).*\bNOW\b")

    def test_no_stack_is_run_and_no_part_is_written_and_run(self):
        segments = readelf("--program-headers")
        self.assertRegex(segments, r"GNU_STACK .* RW +0x")
        for flags in re.findall(r"^  LOAD .* ([R ][W ][E ]) +0x", segments, re.MULTILINE):
            self.assertNotIn("WE", flags)
        self.assertNotIn("TEXTREL", readelf("--dynamic"))

    def test_its_stack_is_guarded(self):
        self.assertIn("__stack_chk_fail", readelf("--dyn-syms"))

    def test_lengths_are_checked_where_it_is_optimised(self):
        cache = PROGRAM.parent / "CMakeCache.txt"
        if not cache.exists() or "CMAKE_BUILD_TYPE:STRING=Release" not in cache.read_text():
            self.skipTest("no Release build: only what is optimised has _FORTIFY_SOURCE")
        self.assertRegex(readelf("--dyn-syms"), r"__(?:mem\w+|str\w+|read\w*|poll)_chk")


class TheUnit(unittest.TestCase):
    def setUp(self):
        if not shutil.which("systemd-analyze"):
            self.skipTest("there is no systemd-analyze")
        self.text = UNIT.read_text("utf-8")

    def test_it_is_one(self):
        with tempfile.TemporaryDirectory() as place:
            unit = pathlib.Path(place) / UNIT.name
            unit.write_text(self.text.replace("/usr/local/bin/benchwarden", str(PROGRAM)))
            done = subprocess.run(["systemd-analyze", "verify", unit], check=False, text=True,
                                  stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        self.assertEqual((done.returncode, done.stdout), (0, ""))

    def test_it_takes_away_what_is_not_needed(self):
        done = subprocess.run(["systemd-analyze", "security", "--offline=true",
                               f"--threshold={EXPOSURE_MAX}", UNIT], check=False, text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        self.assertEqual(done.returncode, 0, done.stdout)

    def test_it_runs_as_no_root_and_keeps_its_files_to_itself(self):
        for name, value in (("User", "benchwarden"), ("NoNewPrivileges", "yes"),
                            ("ProtectSystem", "strict"), ("UMask", "0077"),
                            ("CapabilityBoundingSet", "")):
            self.assertIn(value.split(), seccomp.values(self.text, name), name)


class UnderTheUnit(unittest.TestCase):
    """The daemon as nobody, with the system calls and address families of the unit alone."""

    def setUp(self):
        if not shutil.which("systemd-analyze") or not pathlib.Path(seccomp.HEADER).exists():
            self.skipTest("there is no systemd-analyze, or no list of system calls")
        if platform.machine() != "x86_64" or os.geteuid() != 0:
            self.skipTest("a filter is made for x86-64, and only root can become another user")
        self.filter = seccomp.program(UNIT.read_text("utf-8"))
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-unit.")
        self.addCleanup(holder.cleanup)
        self.place = pathlib.Path(holder.name)
        self.place.chmod(0o755)
        self.data, self.backups = self.place / "data", self.place / "backups"
        self.data.mkdir(mode=0o700)
        self.backups.mkdir()
        self.persons = served_folder.make_demo(self.data)
        for folder in (self.data, self.backups):
            for path in (folder, *folder.rglob("*")):
                os.chown(path, NOBODY, NOBODY)
        self.program = self.place / "benchwarden"
        shutil.copy(PROGRAM, self.program)

    def confined(self):
        os.setgroups([])
        os.setgid(NOBODY)
        os.setuid(NOBODY)
        seccomp.put_on(self.filter)

    def start(self, config):
        file = self.place / "config.toml"
        file.write_text(config)
        daemon = subprocess.Popen(
            [self.program, "serve", "--data", self.data, "--config", file, "--port", "0"],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, preexec_fn=self.confined)
        self.addCleanup(daemon.communicate)
        self.addCleanup(daemon.kill)
        return daemon, daemon.stdout.readline()

    def end(self, daemon):
        daemon.terminate()
        said, faults = daemon.communicate(timeout=PATIENCE_S)
        self.assertEqual((daemon.returncode, faults), (0, ""))
        return said

    def test_the_filter_holds(self):
        script = ("import os, socket, ctypes\n"
                  "for act in (lambda: os.chroot('/'), lambda: os.nice(-1),\n"
                  "            lambda: socket.socket(socket.AF_PACKET, socket.SOCK_RAW)):\n"
                  "    try:\n        act()\n    except OSError as error:\n"
                  "        print(error.errno)\n")
        done = subprocess.run(["/usr/bin/python3", "-c", script], check=True, text=True,
                              stdout=subprocess.PIPE, preexec_fn=self.confined)
        self.assertEqual(done.stdout.split(), ["1", "1", "97"])

    def test_it_records_reports_and_backs_up(self):
        daemon, line = self.start(f'backup_folder = "{self.backups}"\n')
        said = served_folder.START.fullmatch(line)
        self.assertTrue(said, line)
        daemon.host, daemon.port = said[1], int(said[2])
        technician = served_folder.sign_in(daemon, self.persons["technician"])
        client = served_folder.Client(daemon, technician)
        self.addCleanup(client.close)
        [post] = drain_load.make_posts(random.Random(1), 1)
        self.assertEqual(client.call("POST", "/entries", post.body)[0], 201)
        manager = served_folder.Client(
            daemon, served_folder.sign_in(daemon, self.persons["manager"]))
        self.addCleanup(manager.close)
        status, pdf = manager.fetch("/reports/waste-month.pdf?month=2026-01")
        self.assertEqual((status, pdf[:5]), (200, b"%PDF-"))
        deadline = time.monotonic() + PATIENCE_S
        while not list(self.backups.glob("*Z")) and time.monotonic() < deadline:
            time.sleep(0.2)
        self.assertIn("backup ", self.end(daemon))
        [made] = self.backups.glob("*Z")
        manifest = json.loads((made / "manifest.json").read_text())
        self.assertGreater(manifest["size"], 0)
        for path in (*made.iterdir(), made):
            self.assertEqual(path.stat().st_mode & 0o077, 0, path)

    def test_it_makes_its_certificates_and_serves_by_https(self):
        daemon, line = self.start('https = true\nset_up_port = 0\n')
        self.assertRegex(line, r" on https://")
        self.end(daemon)
        self.assertEqual((self.data / "tls/authority.pem").stat().st_uid, NOBODY)


class AsRoot(unittest.TestCase):
    def test_a_daemon_of_root_says_so(self):
        if os.geteuid() != 0:
            self.skipTest("this is not root")
        with tempfile.TemporaryDirectory() as place:
            daemon = subprocess.Popen(
                [PROGRAM, "serve", "--data", pathlib.Path(place) / "data", "--port", "0"],
                stdout=subprocess.PIPE, text=True)
            daemon.stdout.readline()
            daemon.terminate()
            self.assertIn("runs as root", daemon.communicate(timeout=PATIENCE_S)[0])


if __name__ == "__main__":
    unittest.main()
