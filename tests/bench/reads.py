"""What reading costs: beside a bare server that sends the same bytes, and in books of several
sizes, in turns and round by round.
"""

import contextlib
import subprocess
import time

import figures
import load
import served

CONNECTIONS = (1, 16)
THREADS = served.CONNECTIONS_MAX
SHORT_CYLINDER, LONG_CYLINDER = "n3", "n1"  # of the last month, and of all the time


def paths(month):
    return {"levels": "/api/v1/levels", "month": f"/api/v1/months/{month}",
            "history": f"/api/v1/history/cylinder/{SHORT_CYLINDER}"}


@contextlib.contextmanager
def _bare(program, answer, pem=None):
    """The bare server that sends `answer`; its address."""
    command = [program, answer, str(THREADS), *([pem] if pem else [])]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                          text=True) as process:
        port = process.stdout.readline().strip()
        try:
            yield f"{'https' if pem else 'http'}://127.0.0.1:{port}"
        finally:
            process.stdin.close()


def _rate(url, token, connections, seconds, faults, name):
    outcome = load.run_wrk(url, token, connections, seconds)
    faults += [f"{name}: {fault}" for fault in load.faults_of(outcome)]
    return outcome.per_second


def beside_bare(programs, certificate, base, work, month, rounds, seconds, tell):
    """Rates of the daemon and of the bare server for the same answers, plain and by TLS."""
    results, faults = [{} for _ in range(rounds)], []
    pem = work / "both.pem"
    pem.write_bytes(b"".join(part.read_bytes() for part in certificate))
    for kind, given in (("", None), ("_tls", certificate)):
        with contextlib.ExitStack() as running:
            folder = running.enter_context(served.copy_of(base, work / "reads"))
            daemon = running.enter_context(served.Daemon(programs.daemon, given).signed_in(folder))
            servers = []
            for name in ("levels", "month"):
                path = paths(month)[name]
                answer = work / f"{name}.json"
                answer.write_bytes(daemon.read(path))
                bare = running.enter_context(_bare(programs.fixed_bytes, answer, given and pem))
                servers += [(f"{name}{kind}", daemon.address + path),
                            (f"{name}{kind}_bare", bare + "/")]
            for number, rates in enumerate(results, 1):
                for connections in CONNECTIONS:
                    for name, url in servers:
                        key = f"{name}_c{connections}"
                        rates[key] = _rate(url, daemon.token, connections, seconds, faults, key)
                        tell(f"round {number}: {key:24} {rates[key]:10.0f} a second")
    return results, faults


def by_size(programs, shelf, sizes, work, rounds, seconds, tell):
    """Rates of each path in books of each size, all of them served at once. Levels and a month are
    kept as answers while the book stays as it is; so by size also the milliseconds of the first
    answer after an entry, and the seconds of one history that is as long as the book.
    """
    results, faults, whole_history_s, first_ms = [], [], {}, {}
    with contextlib.ExitStack() as running:
        daemons = {}
        for size in sizes:
            folder = running.enter_context(served.copy_of(shelf.book(size), work / f"size-{size}"))
            served.add_tank(programs.daemon, folder)
            daemons[size] = running.enter_context(served.Daemon(programs.daemon).signed_in(folder))
        for number in range(1, rounds + 1):
            rates = {}
            for name, path in paths(shelf.month).items():
                for size, daemon in daemons.items():
                    key = f"{name}_{size}"
                    rates[key] = _rate(daemon.address + path, daemon.token, 1, seconds, faults, key)
                    tell(f"round {number}: {key:24} {rates[key]:10.0f} a second")
            results.append(rates)
        for size, daemon in daemons.items():
            begun = time.monotonic()
            daemon.read(f"/api/v1/history/cylinder/{LONG_CYLINDER}")
            whole_history_s[size] = time.monotonic() - begun
            tell(f"the whole history of a cylinder, {short(size)}: {whole_history_s[size]:.2f} s")
            for name in ("levels", "month"):
                first_ms[f"{name}_first_{short(size)}_ms"] = _first_answers_ms(
                    daemon, paths(shelf.month)[name])
    return results, faults, whole_history_s, first_ms


def _first_answers_ms(daemon, path, count=30):
    """Of answers that each come first after an entry."""
    taken = []
    for _ in range(count):
        served.add_drain(daemon)
        begun = time.monotonic()
        daemon.read(path)
        taken.append((time.monotonic() - begun) * 1000)
    return taken


def bare_ratios(results):
    found = {}
    for name in ("levels", "month"):
        for kind in ("", "_tls"):
            for connections in CONNECTIONS:
                load_name = f"c{connections}"
                found[f"read_{name}{kind}_{load_name}_vs_bare"] = figures.ratio_of(
                    results, f"{name}{kind}_{load_name}", f"{name}{kind}_bare_{load_name}")
    return found


def size_ratios(results, smallest, largest):
    """How much longer an answer takes in the largest book than in the smallest."""
    return {f"{name}_{short(largest)}_vs_{short(smallest)}":
            figures.ratio_of(results, f"{name}_{smallest}", f"{name}_{largest}")
            for name in ("levels", "month", "history")}


def short(size):
    """1000000 as 1m, 10000 as 10k."""
    if size % 1_000_000 == 0:
        return f"{size // 1_000_000}m"
    return f"{size // 1000}k"
