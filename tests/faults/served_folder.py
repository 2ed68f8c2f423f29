"""A data folder with the demo workshop, a daemon that serves it, and clients of that daemon.

The programs are named by the environment: BENCHWARDEN and BENCHWARDEN_DEMO_MAKER.
"""

import decimal
import http.client
import json
import os
import pathlib
import re
import signal
import subprocess
import threading
import time
import urllib.parse

TOP = pathlib.Path(__file__).resolve().parents[2]
PATIENCE_S = 30  # for whatever should take well under a second
PAGE = 500
START = re.compile(r"Benchwarden \S+ on http://([\d.]+):(\d+)\n")


def program(variable):
    path = os.environ.get(variable)
    if not path:
        raise RuntimeError(f"the environment variable {variable} must name the program")
    return str(pathlib.Path(path).resolve())


def make_demo(folder):
    """Fills an empty folder with the demo and the tank; the persons with their PINs by role, the
    first of each.
    """
    subprocess.run([program("BENCHWARDEN_DEMO_MAKER"), folder, TOP / "demo/inventory.toml",
                    "http://127.0.0.1:0", folder / "report.pdf"],
                   check=True, stdout=subprocess.DEVNULL)
    persons = {}
    for person in json.loads((folder / "demo.json").read_text("utf-8"))["persons"]:
        persons.setdefault(person["role"], person)
    subprocess.run([program("BENCHWARDEN"), "import", TOP / "tests/tank.toml", "--as",
                    persons["manager"]["id"], "--data", folder],
                   check=True, stdout=subprocess.DEVNULL)
    return persons


def run_command(name, folder):
    """`benchwarden NAME --data FOLDER`: its exit code and what it said."""
    done = subprocess.run([program("BENCHWARDEN"), name, "--data", folder], text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          timeout=2 * PATIENCE_S, check=False)
    return done.returncode, done.stdout


class Daemon:
    """Runs from its making to `stop` or `kill`."""

    def __init__(self, folder, *options):
        self._process = subprocess.Popen(
            [program("BENCHWARDEN"), "serve", "--data", folder, "--port", "0", *options],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        overdue = threading.Timer(PATIENCE_S, self._process.kill)
        overdue.start()
        line = self._process.stdout.readline()
        overdue.cancel()
        said = START.fullmatch(line)
        if not said:
            self._process.kill()
            raise RuntimeError(f"the daemon did not start: {line}{self._process.communicate()[1]}")
        self.host, self.port = said[1], int(said[2])

    @property
    def pid(self):
        return self._process.pid

    def kill(self):
        """SIGKILL, and nothing that could delay it."""
        os.kill(self._process.pid, signal.SIGKILL)

    def terminate(self):
        self._process.send_signal(signal.SIGTERM)

    def ended(self):
        """Waits for the end: exit code (-n for signal n), and what it said as a fault."""
        try:
            faults = self._process.communicate(timeout=PATIENCE_S)[1]
        except subprocess.TimeoutExpired:
            self._process.kill()
            faults = self._process.communicate()[1] + "still running after SIGTERM"
        return self._process.returncode, faults

    def stop(self):
        """SIGTERM: exit code, what it said as a fault, seconds until it had ended."""
        started = time.monotonic()
        self.terminate()
        code, faults = self.ended()
        return code, faults, time.monotonic() - started

    def close(self):
        self._process.kill()  # nothing happens to one that has ended
        if not self._process.stdout.closed:
            self._process.communicate()


class Client:
    """One keep-alive connection, for one thread. Numbers with a point become decimals."""

    def __init__(self, daemon, token=None):
        self._connection = http.client.HTTPConnection(daemon.host, daemon.port,
                                                      timeout=PATIENCE_S)
        self._headers = {"Content-Type": "application/json"}
        if token:
            self._headers["Authorization"] = f"Bearer {token}"

    def call(self, method, path, body=None):
        """Status and JSON of the answer. OSError or HTTPException where none came."""
        self._connection.request(method, "/api/v1" + path, body, self._headers)
        answer = self._connection.getresponse()
        text = answer.read()
        return answer.status, json.loads(text, parse_float=decimal.Decimal)

    def send_file(self, path, media_type, data):
        """As `call`, with bytes that are no JSON."""
        headers = self._headers | {"Content-Type": media_type}
        self._connection.request("POST", "/api/v1" + path, data, headers)
        answer = self._connection.getresponse()
        return answer.status, json.loads(answer.read())

    def fetch(self, path):
        """Status and bytes of a file."""
        self._connection.request("GET", "/api/v1" + path, headers=self._headers)
        answer = self._connection.getresponse()
        return answer.status, answer.read()

    def read(self, path):
        status, answer = self.call("GET", path)
        if status != 200:
            raise AssertionError(f"GET {path}: {status} {answer}")
        return answer

    def all_entries(self):
        """The whole book, page by page."""
        found, cursor = [], None
        while True:
            query = {"limit": PAGE} | ({"cursor": cursor} if cursor else {})
            page = self.read("/entries?" + urllib.parse.urlencode(query))
            found += page["entries"]
            cursor = page["next_cursor"]
            if cursor is None:
                return found

    def volume_ml(self, container):
        levels = self.read("/levels")["levels"]
        return decimal.Decimal(next(level["volume_ml"] for level in levels
                                    if level["container"] == container))

    def close(self):
        self._connection.close()


def sign_in(daemon, person):
    """The token of a new session."""
    client = Client(daemon)
    status, answer = client.call("POST", "/session",
                                 json.dumps({"person": person["id"], "pin": person["pin"]}))
    client.close()
    if status != 201:
        raise AssertionError(f"sign-in: {status} {answer}")
    return answer["token"]
