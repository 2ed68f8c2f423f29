"""The daemon under everything at once, in turns of some seconds; after each turn, at rest, its
descriptors, threads and resident memory are read from /proc. After warming up their lines must be
flat: see BOUNDS. Of the memory the lowest of each half minute counts, since the daemon gives back
what was freed that often; an entry takes some 0.3 KiB for good. In less than four minutes all of it
is still warming up. Called by run.sh with how many minutes it is to take.

The figures of the load are common practice, no source: a workshop has some ten tablets.
"""

import pathlib
import random
import socket
import sys
import tempfile
import threading
import time

TOP = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(TOP / "tests/faults"))

# pylint: disable=wrong-import-position
import drain_load      # noqa: E402
import flat            # noqa: E402
import served_folder   # noqa: E402

TURN_S = 4
REST_S = 0.7          # the daemon drops what a client left half sent, and takes in its end
WARM_UP_SHARE = 0.5   # of all turns: caches and pools fill, and the heaps with their largest answer
POST_EVERY_S = 0.2    # the book grows all the same, and with it what is kept of it in memory
READS = ("/levels", "/entries?limit=50", "/findings", "/due", "/months", "/health",
         "/register/container", "/levels?as_of=2026-01-01T00:00:00Z", "/rules", "/forms")
REPORTS = ("waste-month.pdf", "waste-month.html", "waste-month.csv", "findings-list.pdf")

TURNS_IN_HALF_A_MINUTE = 7
BOUNDS = (flat.Bound("descriptors", 0.5), flat.Bound("threads", 0.5),
          flat.Bound("resident KiB", 300.0, TURNS_IN_HALF_A_MINUTE))


def look_at(pid):
    """Descriptors, threads and resident KiB of the process."""
    proc = pathlib.Path("/proc", str(pid))
    status = dict(line.split(":", 1) for line in (proc / "status").read_text().splitlines())
    return (len(list((proc / "fd").iterdir())), int(status["Threads"]),
            int(status["VmRSS"].split()[0]))


class Turn:
    """A few seconds of everything: each work over and over in a thread of its own."""

    def __init__(self, daemon, persons, tokens, seed):
        self._daemon, self._persons, self._tokens = daemon, persons, tokens
        self._random = random.Random(seed)
        self._end = time.monotonic() + TURN_S
        self._lock = threading.Lock()
        self.requests, self.faults = 0, []

    def run(self):
        works = (self._post, self._read, self._read, self._print, self._sign_in, self._misbehave)
        threads = [threading.Thread(target=self._repeat, args=(work,)) for work in works]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        return self

    def _repeat(self, work):
        client = served_folder.Client(self._daemon, self._tokens["manager"])
        try:
            while time.monotonic() < self._end:
                work(client)
        except Exception as fault:  # no answer, none that can be read, or a wrong one
            self._fault(f"{work.__name__}: {fault!r}")
        finally:
            client.close()

    def _fault(self, text):
        with self._lock:
            self.faults.append(text)

    def _count(self, status, *accepted, what=""):
        with self._lock:
            self.requests += 1
        if status not in accepted:
            self._fault(f"{what}: {status}")

    def _post(self, client):
        post = drain_load.make_posts(self._random, 1)[0]
        self._count(client.call("POST", "/entries", post.body)[0], 201, what=post.body)
        time.sleep(POST_EVERY_S)

    def _read(self, client):
        path = self._random.choice(READS)
        self._count(client.fetch(path)[0], 200, what=path)

    def _print(self, client):
        path = "/reports/" + self._random.choice(REPORTS)
        if "month" in path:
            path += "?month=" + time.strftime("%Y-%m", time.gmtime())
        self._count(client.fetch(path)[0], 200, what=path)

    def _sign_in(self, _):
        token = served_folder.sign_in(self._daemon, self._persons["technician"])
        client = served_folder.Client(self._daemon, token)
        self._count(client.fetch("/session")[0], 200, what="session")
        client.close()

    def _misbehave(self, _):
        with socket.create_connection((self._daemon.host, self._daemon.port),
                                      timeout=served_folder.PATIENCE_S) as connection:
            connection.sendall(self._random.choice((
                b"GET /api/v1/levels HTTP/1.1\r\nHost: elsewhere\r\n\r\n",
                b"POST /api/v1/entries HTTP/1.1\r\nContent-Length: 100\r\n\r\n{",
                b"\x16\x03\x01", b"GET /api/v1/hea")))
        with self._lock:
            self.requests += 1
        time.sleep(0.01)


def soak(minutes):
    """The faults found."""
    with tempfile.TemporaryDirectory(prefix="benchwarden-soak.") as holder:
        folder = pathlib.Path(holder, "data")
        folder.mkdir(mode=0o700)
        persons = served_folder.make_demo(folder)
        daemon = served_folder.Daemon(folder)
        try:
            faults = take_turns(daemon, persons, minutes)
            code, said, _ = daemon.stop()
            # That a request took long says something of the machine, no more.
            said = [line for line in said.splitlines() if '"event":"slow-request"' not in line]
            if code or said:
                faults.append(f"the daemon ended with code {code}: {said}")
        finally:
            daemon.close()
        code, said = served_folder.run_command("verify", folder)
        return faults + ([f"verify: {said}"] if code else [])


def take_turns(daemon, persons, minutes):
    tokens = {"manager": served_folder.sign_in(daemon, persons["manager"])}
    turns = int(minutes * 60 / (TURN_S + REST_S))
    requests, samples = 0, []
    print(f"{'requests':>9} {'descriptors':>12} {'threads':>8} {'resident KiB':>13}", flush=True)
    for number in range(turns):
        turn = Turn(daemon, persons, tokens, number).run()
        if turn.faults:
            return turn.faults[:5]
        requests += turn.requests
        time.sleep(REST_S)
        samples.append((requests, *look_at(daemon.pid)))
        print("{:>9} {:>12} {:>8} {:>13}".format(*samples[-1]), flush=True)
    warm = samples[int(turns * WARM_UP_SHARE):]
    found = [bound.fault([(sample[0], sample[column]) for sample in warm])
             for column, bound in enumerate(BOUNDS, 1)]
    return [fault for fault in found if fault]


if __name__ == "__main__":
    FOUND = soak(int(sys.argv[1]))
    for line in FOUND:
        print(line, file=sys.stderr)
    sys.exit(1 if FOUND else 0)
