"""A daemon short of descriptors, threads or memory: it answers or refuses, and comes back.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs.
"""

import http.client
import os
import pathlib
import random
import resource
import shutil
import subprocess
import tempfile
import threading
import unittest

import damaged_files_test
import drain_load
import served_folder

CLIENTS = 60
NOBODY = damaged_files_test.NOBODY


class Limits(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-limits.")
        cls.addClassCleanup(holder.cleanup)
        pathlib.Path(holder.name).chmod(0o755)
        cls.whole = pathlib.Path(holder.name, "whole")
        cls.whole.mkdir(mode=0o700)
        cls.data = pathlib.Path(holder.name, "data")
        cls.technician = served_folder.make_demo(cls.whole)["technician"]

    def serve(self):
        shutil.rmtree(self.data, ignore_errors=True)
        shutil.copytree(self.whole, self.data)
        damaged_files_test.own(self.data)
        daemon = damaged_files_test.Daemon(self.data, "--port", "0")
        self.addCleanup(daemon.close)
        self.token = served_folder.sign_in(daemon, self.technician)
        return daemon

    def crowd(self, daemon):
        """Everybody posts at once over a connection of their own: what each was answered."""
        posts = drain_load.make_posts(random.Random(3), CLIENTS)
        together = threading.Barrier(CLIENTS)

        def post(one):
            client = served_folder.Client(daemon, self.token)
            try:
                together.wait()
                one.sent = True
                one.status, one.answer = client.call("POST", "/entries", one.body)
            except (OSError, http.client.HTTPException, ValueError):
                one.status = 0  # no connection, or none to the end
            finally:
                client.close()

        threads = [threading.Thread(target=post, args=(one,)) for one in posts]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        return posts

    def expect_back(self, daemon, posts, name):
        """It serves again, and each entry that was answered is there; it stops as always."""
        self.assertIsNone(daemon.process.poll(), "it ended")
        client = served_folder.Client(daemon, self.token)
        for post in posts:
            status, answer = client.call("POST", "/entries", post.body)
            self.assertIn(status, (200, 201), answer)
            if post.recorded:
                self.assertEqual((status, answer), (200, post.answer))
        client.close()
        code, said = daemon.stop()
        self.assertEqual(code, 0, said)
        told = sum(post.recorded for post in posts)
        print(f"{name}: {len(posts)} clients at once, {told} answered, {len(posts) - told} refused "
              "or cut off, all recorded afterwards")

    def run_as_the_daemon(self, *words):
        """Whoever is not its user needs a right of their own to change its limits."""
        return subprocess.run(list(map(str, words)), check=True, text=True, stdout=subprocess.PIPE,
                              **damaged_files_test.as_nobody()).stdout

    def squeeze(self, option, soft, name):
        daemon = self.serve()
        pid = daemon.process.pid
        before = self.run_as_the_daemon("prlimit", "--pid", pid, f"--{option}", "--raw",
                                        "--noheadings", "--output", "SOFT").strip()
        self.run_as_the_daemon("prlimit", "--pid", pid, f"--{option}={soft(pid)}:")
        posts = self.crowd(daemon)
        self.run_as_the_daemon("prlimit", "--pid", pid, f"--{option}={before}:")
        self.assertLess(sum(post.recorded for post in posts), CLIENTS, "nothing was short")
        self.expect_back(daemon, posts, name)

    def test_few_descriptors(self):
        self.squeeze("nofile", self.descriptors, "few descriptors")

    def descriptors(self, pid):
        """Enough for a few connections more than there are."""
        return len(self.run_as_the_daemon("ls", f"/proc/{pid}/fd").split()) + 8

    def test_little_memory(self):
        """Of address space no more than it has: no stack of a thread, no large buffer."""
        self.squeeze("as", self.address_space, "little memory")

    @staticmethod
    def address_space(pid):
        pages = int(pathlib.Path(f"/proc/{pid}/statm").read_text().split()[0])
        return pages * resource.getpagesize()

    @unittest.skipUnless(os.geteuid() == 0, "another user is needed, whose threads are counted")
    def test_few_threads(self):
        self.squeeze("nproc", self.threads_of_nobody, "few threads")

    @unittest.skipUnless(os.geteuid() == 0, "another user is needed, whose threads are counted")
    def test_no_thread_for_a_backup_that_is_due(self):
        daemon = self.serve()
        most = self.threads_of_nobody(daemon)
        daemon.stop()
        backups, config = self.whole.parent / "backups", self.whole.parent / "backups.toml"
        backups.mkdir()
        damaged_files_test.own(backups)
        config.write_text(f'backup_folder = "{backups}"\n')
        daemon = damaged_files_test.Daemon(
            self.data, "--port", "0", "--config", config,
            before=lambda: resource.setrlimit(resource.RLIMIT_NPROC, (most, most)))
        self.addCleanup(daemon.close)
        self.token = served_folder.sign_in(daemon, self.technician)
        posts = drain_load.make_posts(random.Random(4), 1)
        code, said = self.post_and_stop(daemon, posts[0])
        self.assertEqual(code, 0, said)
        self.assertIn('"event":"no-backup","detail":"no thread for it: ', said)
        self.assertEqual(list(backups.iterdir()), [])

    def post_and_stop(self, daemon, post):
        client = served_folder.Client(daemon, self.token)
        self.assertEqual(client.call("POST", "/entries", post.body)[0], 201)
        client.close()
        return daemon.stop()

    @staticmethod
    def threads_of_nobody(_):
        count = 0
        for status in pathlib.Path("/proc").glob("[0-9]*/status"):
            try:
                lines = dict(line.split(":\t", 1) for line in status.read_text().splitlines()
                             if ":\t" in line)
            except OSError:
                continue  # it ended meanwhile
            if lines["Uid"].split()[0] == str(NOBODY):
                count += int(lines["Threads"])
        return count

    def test_at_the_start(self):
        for what, bound in ((resource.RLIMIT_NOFILE, 12), (resource.RLIMIT_AS, 60_000_000)):
            shutil.rmtree(self.data, ignore_errors=True)
            shutil.copytree(self.whole, self.data)
            damaged_files_test.own(self.data)
            with self.assertRaises(damaged_files_test.Ended) as ended:
                damaged_files_test.Daemon(
                    self.data, "--port", "0",
                    before=lambda: resource.setrlimit(what, (bound, bound)))
            self.assertNotEqual(ended.exception.said, "")
            self.assertIn(ended.exception.code, damaged_files_test.EXITS)
            print(f"refused to start: {ended.exception.said.strip()[:200]}")


if __name__ == "__main__":
    unittest.main()
