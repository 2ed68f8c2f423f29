"""Folders to measure on, and the programs that serve them: the daemon and the plain service beside
it. Each runs from `with` to its end and is ready to be asked within it.
"""

import contextlib
import datetime
import http.client
import json
import pathlib
import shutil
import signal
import sqlite3
import ssl
import subprocess
import time

HERE = pathlib.Path(__file__).resolve().parent
TOP = HERE.parents[1]
PATIENCE_S = 120
CONNECTIONS_MAX = 128  # more than any load opens, so that no limit is what is measured


def make_certificate(folder):
    """Key and certificate of 127.0.0.1, of the kind the daemon makes: ECDSA P-256."""
    key, certificate = folder / "key.pem", folder / "certificate.pem"
    subprocess.run(["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt",
                    "ec_paramgen_curve:P-256", "-nodes", "-days", "30", "-subj", "/CN=bench.local",
                    "-addext", "subjectAltName=DNS:bench.local,IP:127.0.0.1",
                    "-keyout", key, "-out", certificate],
                   check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return key, certificate


def book_size(folder):
    with contextlib.closing(sqlite3.connect(folder / "book.db")) as book:
        return book.execute("SELECT max(seq) FROM entry").fetchone()[0]


def now_text():
    return datetime.datetime.now(datetime.timezone.utc).isoformat(timespec="milliseconds")


class Served:
    """A process that serves one folder at `address`; `token` is that of a session."""

    def __init__(self, folder, process, address, token):
        self.folder, self.process, self.address, self.token = folder, process, address, token

    def call(self, method, path, body=None):
        """Status and bytes of the answer."""
        connection = _connect(self.address)
        headers = {"Content-Type": "application/json", "Authorization": f"Bearer {self.token}"}
        connection.request(method, path, body, headers)
        answer = connection.getresponse()
        with contextlib.closing(connection):
            return answer.status, answer.read()

    def read(self, path):
        status, body = self.call("GET", path)
        if status != 200:
            raise RuntimeError(f"GET {path}: {status} {body[:300]}")
        return body

    def memory_mb(self, field="VmRSS"):
        for line in pathlib.Path(f"/proc/{self.process.pid}/status").read_text("ascii").split("\n"):
            if line.startswith(field + ":"):
                return int(line.split()[1]) / 1024
        raise RuntimeError(f"/proc has no {field} of {self.process.args[0]}")


def _connect(address):
    scheme, _, place = address.partition("://")
    if scheme == "http":
        return http.client.HTTPConnection(place, timeout=PATIENCE_S)
    trusting = ssl.create_default_context()
    trusting.check_hostname, trusting.verify_mode = False, ssl.CERT_NONE
    return http.client.HTTPSConnection(place, timeout=PATIENCE_S, context=trusting)


@contextlib.contextmanager
def _running(command):
    """The process, killed at the end if it has not ended."""
    with subprocess.Popen([str(word) for word in command], stdout=subprocess.PIPE,
                          text=True) as process:
        try:
            yield process
        finally:
            process.send_signal(signal.SIGTERM)
            try:
                process.wait(PATIENCE_S)
            except subprocess.TimeoutExpired:
                process.kill()


class Daemon:
    """The daemon in its Release build."""

    def __init__(self, program, certificate=None):
        self._program, self._certificate = program, certificate

    def _configuration(self, folder):
        lines = ["port = 0", f"connections_max = {CONNECTIONS_MAX}",
                 f"connections_per_peer_max = {CONNECTIONS_MAX}"]
        if self._certificate:
            key, certificate = self._certificate
            lines += ["https = true", 'name = "bench.local"', "set_up_port = 0",
                      f'certificate = "{certificate}"', f'certificate_key = "{key}"']
        path = folder / "bench.toml"
        path.write_text("\n".join(lines) + "\n", "utf-8")
        return path

    @contextlib.contextmanager
    def serve(self, folder):
        """Without a session: see `signed_in`."""
        command = [self._program, "serve", "--data", folder, "--config",
                   self._configuration(folder)]
        with _running(command) as process:
            line = process.stdout.readline()
            if " on http" not in line:
                raise RuntimeError(f"the daemon did not start: {line}")
            scheme, _, place = line.split(" on ")[1].strip().partition("://")
            yield Served(folder, process, f"{scheme}://127.0.0.1:{place.rpartition(':')[2]}", "")

    @contextlib.contextmanager
    def signed_in(self, folder):
        with self.serve(folder) as served:
            served.token = sign_in(served)
            yield served


def _manager(folder):
    persons = json.loads((folder / "demo.json").read_text("utf-8"))["persons"]
    return next(person for person in persons if person["role"] == "manager")


def add_tank(program, folder):
    """The container that the loads pour into: one of the demo would ask back when it is full."""
    subprocess.run([program, "import", TOP / "tests/tank.toml", "--as", _manager(folder)["id"],
                    "--data", folder], check=True, stdout=subprocess.DEVNULL)


def sign_in(served):
    """The token of a new session of the manager."""
    manager = _manager(served.folder)
    body = json.dumps({"person": manager["id"], "pin": manager["pin"]})
    status, answer = served.call("POST", "/api/v1/session", body)
    if status != 201:
        raise RuntimeError(f"sign-in: {status} {answer}")
    return json.loads(answer)["token"]


class NodeService:
    """peer/server.mjs; `commits` is "single" or "grouped"."""

    TOKEN = "MDEyMzQ1Njc4OWFiY2RlZjAxMjM0NTY3ODlhYmNkZWY"

    def __init__(self, commits, certificate=None):
        self._commits, self._certificate = commits, certificate

    @contextlib.contextmanager
    def signed_in(self, folder):
        command = ["node", HERE / "peer/server.mjs", folder / "book.db", self.TOKEN, self._commits,
                   *(self._certificate or ())]
        with _running(command) as process:
            port = json.loads(process.stdout.readline())["port"]
            scheme = "https" if self._certificate else "http"
            yield Served(folder, process, f"{scheme}://127.0.0.1:{port}", self.TOKEN)


def make_base(folder, programs):
    """A folder with the demo's book, of which the newest entry is a drain as the load posts it."""
    folder.mkdir(parents=True)
    subprocess.run([programs.demo_maker, folder, TOP / "demo/inventory.toml", "http://127.0.0.1:0",
                    folder / "report.pdf"], check=True, stdout=subprocess.DEVNULL)
    add_tank(programs.daemon, folder)
    with Daemon(programs.daemon).signed_in(folder) as served:
        add_drain(served)


def add_drain(served):
    stamp = f"{int(time.time() * 1000):012x}"
    drain = {"id": f"{stamp[:8]}-{stamp[8:]}-7000-8000-000000000000", "kind": "oil-drained",
             "occurred_at": now_text(), "fields": {"container": "tank", "volume_ml": 62.5}}
    status, answer = served.call("POST", "/api/v1/entries", json.dumps(drain))
    if status != 201:
        raise RuntimeError(f"a drain: {status} {answer}")


@contextlib.contextmanager
def copy_of(base, folder):
    """A copy on the disk that is measured; gone afterwards."""
    shutil.copytree(base, folder)
    try:
        yield folder
    finally:
        shutil.rmtree(folder)
