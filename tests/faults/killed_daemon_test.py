"""The daemon struck down while 16 clients post: what was answered is in the book, once.

Environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name the programs; BENCHWARDEN_ROUNDS is how
often it is killed (50; take 500 for a long run), BENCHWARDEN_SEED repeats the choices of an earlier
run. SIGKILL ends the process, not the machine, and proves nothing about a power cut: all that was
written stays in the memory of the system. power_cut_test.cpp tries that.
"""

import os
import pathlib
import random
import secrets
import signal
import tempfile
import time
import unittest

import book_checks
import drain_load
import served_folder

ROUNDS = int(os.environ.get("BENCHWARDEN_ROUNDS", "50"))
FULL_CHECK_EVERY = 10
STOP_ROUNDS = 3
STOP_WITHIN_S = 5.0  # far less on an idle machine; other tests may run beside this one
POSTS, LIGHT_POSTS = 600, 120
PAUSE_MAX_S = 0.004  # about as long as one group of entries takes


class StruckDaemon(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-killed.")
        cls.addClassCleanup(holder.cleanup)
        cls.folder = pathlib.Path(holder.name, "data")
        cls.folder.mkdir(mode=0o700)
        cls.technician = served_folder.make_demo(cls.folder)["technician"]
        cls.posts = []  # of all rounds: what was answered once stays

    def setUp(self):
        self.seed = int(os.environ.get("BENCHWARDEN_SEED", secrets.randbits(32)))
        self.random = random.Random(f"{self.id()} {self.seed}")

    def serve(self):
        daemon = served_folder.Daemon(self.folder)
        self.addCleanup(daemon.close)
        return daemon

    def client(self, daemon, token):
        client = served_folder.Client(daemon, token)
        self.addCleanup(client.close)
        return client

    def none(self, faults):
        if faults:
            self.fail("\n".join([f"{len(faults)} fault(s)"] + faults[:5]))

    def load(self, daemon, token, strike, count):
        """So many posts of a new round, struck at a random moment in the middle: the clients always
        have some left, also where the strike comes some groups of entries later than it was meant.
        """
        posts = drain_load.make_posts(self.random, count)
        self.posts.extend(posts)
        after = self.random.randint(count // 20, count // 2)
        pause_s = self.random.uniform(0, PAUSE_MAX_S)
        load = drain_load.Load(daemon, token, posts, after, pause_s, strike).run()
        self.none(load.faults)
        answered = sum(post.recorded for post in posts)
        self.assertGreaterEqual(answered, after)
        self.assertLess(answered, len(posts))
        return posts

    def check_book(self, client, posts, before_ml):
        """All that was ever answered, the numbers, and the level. Returns the book."""
        entries = client.all_entries()
        self.none(book_checks.answered_faults(self.posts, entries))
        self.none(book_checks.sequence_faults(entries))
        self.assertEqual(client.read("/health")["book_size"], len(entries))
        self.assertEqual(client.volume_ml(drain_load.CONTAINER) - before_ml,
                         book_checks.sum_ml(posts, entries))
        return entries

    def check_each(self, client, posts):
        for post in posts:
            if post.recorded:
                self.none(book_checks.entry_faults(post, client.read(f"/entries/{post.id}")))

    def check_lightly(self, client, posts, before):
        """Each post by its id, and that nothing else came in. Returns how many were untold."""
        self.check_each(client, posts)
        untold = 0
        for post in posts:
            if post.sent and not post.recorded:
                status, answer = client.call("GET", f"/entries/{post.id}")
                self.assertIn(status, (200, 404), answer)
                untold += status == 200
        recorded = sum(post.recorded for post in posts)
        self.assertEqual(client.read("/health")["book_size"], before + recorded + untold)
        return untold

    def send_again(self, client, posts, entries):
        """As a tablet does that was told nothing, and now and then one that was."""
        known = {entry["id"]: entry["seq"] for entry in entries}
        told = [post for post in posts if post.recorded]
        for post in posts:
            if post.sent and not post.recorded:
                status, answer = client.call("POST", "/entries", post.body)
                self.assertEqual(status, 200 if post.id in known else 201, answer)
                self.assertEqual(answer["seq"], known.get(post.id, answer["seq"]))
                post.status, post.answer = 201, answer
        for post in self.random.sample(told, 20):
            self.assertEqual(client.call("POST", "/entries", post.body), (200, post.answer))

    def check_after_restart(self, posts, token, before_ml):
        """Returns the posts that were recorded although their clients were told nothing."""
        daemon = self.serve()
        client = self.client(daemon, token)  # a session outlives the daemon
        entries = self.check_book(client, posts, before_ml)
        untold = book_checks.untold(posts, entries)
        self.check_each(client, self.random.sample(posts, 100))
        self.send_again(client, posts, entries)
        size = len(self.check_book(client, posts, before_ml))
        code, faults, seconds = daemon.stop()
        self.assertEqual((code, faults), (0, ""))
        self.assertLess(seconds, STOP_WITHIN_S)
        self.command("verify", size)
        self.command("rebuild", size)
        return untold

    def command(self, name, size):
        """Must find nothing, in as many entries as the clients saw."""
        code, said = served_folder.run_command(name, self.folder)
        self.assertEqual(code, 0, f"{name}: {said}")
        if size is not None:
            self.assertIn(f"\n{size} entries", "\n" + said, name)

    def begin(self):
        daemon = self.serve()
        token = served_folder.sign_in(daemon, self.technician)
        return daemon, token, self.client(daemon, token).volume_ml(drain_load.CONTAINER)

    def rounds(self, count, one_round):
        for number in range(count):
            try:
                one_round(number)
            except Exception as fault:
                fault.add_note(f"in round {number} of {count}, BENCHWARDEN_SEED={self.seed}")
                raise

    def test_killed_at_any_moment_it_keeps_what_it_answered(self):
        self.running = None
        answered, untold = [], []

        def one_round(number):
            kill = self.kill_and_check if self.is_full(number) else self.kill_and_look
            for counts, count in zip((answered, untold), kill()):
                counts.append(count)

        self.rounds(ROUNDS, one_round)
        if self.running:
            self.assertEqual(self.running[0].stop()[:2], (0, ""))
            self.command("verify", None)
        print(f"killed {len(answered)} times: {sum(answered)} answered, all there once; "
              f"{sum(untold)} more recorded, BENCHWARDEN_SEED={self.seed}")
        self.assertEqual(len(answered), ROUNDS)

    @staticmethod
    def is_full(number):
        return number % FULL_CHECK_EVERY == FULL_CHECK_EVERY - 1

    def kill(self, daemon, token, count):
        posts = self.load(daemon, token, daemon.kill, count)
        self.assertEqual(daemon.ended(), (-signal.SIGKILL, ""))
        return posts, sum(post.recorded for post in posts)

    def kill_and_look(self):
        """The daemon that is looked at is the one that is killed next."""
        daemon, token = self.running or self.begin()[:2]
        before = self.client(daemon, token).read("/health")["book_size"]
        posts, answered = self.kill(daemon, token, LIGHT_POSTS)
        self.running = self.serve(), token
        return answered, self.check_lightly(self.client(*self.running), posts, before)

    def kill_and_check(self):
        if self.running:
            self.running[0].kill()
            self.running[0].ended()
            self.running = None
        daemon, token, before_ml = self.begin()
        posts, answered = self.kill(daemon, token, POSTS)
        if self.random.random() < 0.5:  # verify must also read a book that nobody has opened since
            self.command("verify", None)
        return answered, len(self.check_after_restart(posts, token, before_ml))

    def test_killed_right_after_the_answer_it_keeps_the_file_with_the_entry(self):
        self.rounds(3, self.kill_after_file)

    def kill_after_file(self, _):
        daemon, token, _ = self.begin()
        client = self.client(daemon, token)
        data = (b"%PDF-1.7\n" + self.random.randbytes(self.random.randint(1, 3_000_000))
                + b"\nstartxref\n9\n%%EOF\n")
        status, sent = client.send_file("/attachments", "application/pdf", data)
        self.assertEqual(status, 201, sent)
        status, answer = client.call("POST", "/entries",
                                     drain_load.check_with(self.random, sent["digest"]))
        daemon.kill()
        self.assertEqual(status, 201, answer)
        self.assertEqual(daemon.ended(), (-signal.SIGKILL, ""))
        self.command("verify", None)
        daemon = self.serve()
        fetched = self.client(daemon, token).fetch(f"/attachments/{sent['digest']}")
        self.assertEqual(fetched, (200, data))
        self.assertEqual(daemon.stop()[:2], (0, ""))

    def test_stopped_under_load_it_answers_or_refuses_each_request(self):
        self.rounds(STOP_ROUNDS, self.stop_once)

    def stop_once(self, _):
        daemon, token, before_ml = self.begin()
        started = []

        def strike():
            started.append(time.monotonic())
            daemon.terminate()

        posts = self.load(daemon, token, strike, POSTS)
        self.assertEqual(daemon.ended(), (0, ""))
        seconds = time.monotonic() - started[0]
        self.assertLess(seconds, STOP_WITHIN_S)
        answered = sum(post.recorded for post in posts)
        untold = self.check_after_restart(posts, token, before_ml)
        self.none([f"{post.id} was recorded, its client was told nothing" for post in untold])
        print(f"stopped: {answered} answered, gone after {seconds * 1000:.0f} ms")


if __name__ == "__main__":
    unittest.main()
