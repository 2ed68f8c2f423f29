"""What recording costs: the daemon, a plain service and bare SQLite in turns, round by round, each
on a fresh copy of one folder.
"""

import dataclasses
import subprocess

import figures
import load
import served

WARM_S = 1
CONNECTIONS = (1, 16, 64)
BATCHES = (1, 16, 64, 256)


@dataclasses.dataclass(frozen=True)
class Turn:
    """One contestant under one load."""
    name: str
    run: object  # folder, seconds → load.Outcome and faults


def _http_turn(name, contestant, connections):
    def run(folder, seconds):
        with contestant.signed_in(folder) as running:
            url, drains = running.address, served.now_text()
            load.run_wrk(url, running.token, connections, WARM_S, drains, run=1)
            before = served.book_size(folder)
            outcome = load.run_wrk(url, running.token, connections, seconds, drains, run=2)
            grown = served.book_size(folder) - before
        return outcome, load.faults_of(outcome, grown, connections)
    return Turn(f"{name}_c{connections}", run)


def _sqlite_turn(program, batch):
    def run(folder, seconds):
        command = [program, folder / "book.db", str(batch)]
        subprocess.run([*command, str(WARM_S)], check=True, stdout=subprocess.DEVNULL)
        before = served.book_size(folder)
        done = subprocess.run([*command, str(seconds)], check=True, text=True,
                              stdout=subprocess.PIPE)
        outcome = load.outcome_of(done.stdout)
        return outcome, load.faults_of(outcome, served.book_size(folder) - before)
    return Turn(f"sqlite_{batch}", run)


def turns(programs, certificate):
    """All of them, in the order of a round."""
    found = [_sqlite_turn(programs.sqlite_writes, batch) for batch in BATCHES]
    for name, contestant in (
            ("daemon", served.Daemon(programs.daemon)),
            ("daemon_tls", served.Daemon(programs.daemon, certificate)),
            ("node", served.NodeService("single")),
            ("node_tls", served.NodeService("single", certificate)),
            ("node_grouped", served.NodeService("grouped")),
            ("node_grouped_tls", served.NodeService("grouped", certificate))):
        found += [_http_turn(name, contestant, connections) for connections in CONNECTIONS]
    return found


def measure(all_turns, base, work, rounds, seconds, tell):
    """Rates a second by turn for each round, and every fault."""
    results, faults = [], []
    for number in range(1, rounds + 1):
        rates = {}
        for turn in all_turns:
            with served.copy_of(base, work / "turn") as folder:
                outcome, found = turn.run(folder, seconds)
            rates[turn.name] = outcome.per_second
            faults += [f"round {number}, {turn.name}: {fault}" for fault in found]
            tell(f"round {number}: {turn.name:22} {outcome.per_second:10.0f} a second, "
                 f"median {outcome.latency_median_ms:.2f} ms, p99 {outcome.latency_p99_ms:.2f} ms")
        results.append(rates)
    return results, faults


RATIOS = {
    "write_c1_vs_sqlite": ("daemon_c1", "sqlite_1"),
    "write_c1_tls_vs_sqlite": ("daemon_tls_c1", "sqlite_1"),
    "write_c16_vs_sqlite": ("daemon_c16", "sqlite_1"),
    "write_c64_vs_sqlite": ("daemon_c64", "sqlite_1"),
    "write_c64_vs_node": ("daemon_c64", "node_c64"),
    "write_c64_vs_node_grouped": ("daemon_c64", "node_grouped_c64"),
    "write_c64_tls_vs_sqlite": ("daemon_tls_c64", "sqlite_1"),
    "write_c64_tls_vs_node_tls": ("daemon_tls_c64", "node_tls_c64"),
}


def ratios(results):
    """Those of which both sides were measured."""
    return {name: figures.ratio_of(results, *pair) for name, pair in RATIOS.items()
            if set(pair) <= results[0].keys()}
