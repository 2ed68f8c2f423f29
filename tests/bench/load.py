"""Drives wrk with load.lua, and reads what it says."""

import dataclasses
import json
import os
import pathlib
import subprocess

HERE = pathlib.Path(__file__).resolve().parent


@dataclasses.dataclass(frozen=True)
class Outcome:
    requests: int
    seconds: float
    not_2xx: int = 0
    broken: int = 0
    latency_median_ms: float = 0
    latency_p99_ms: float = 0

    @property
    def per_second(self):
        """Of what was done, not of what was refused."""
        return (self.requests - self.not_2xx) / self.seconds


def outcome_of(text):
    """From the one line of JSON among what a program printed."""
    lines = [line for line in text.splitlines() if line.startswith("{")]
    if len(lines) != 1:
        raise RuntimeError(f"one line of JSON was to be printed, not this: {text}")
    return Outcome(**json.loads(lines[0]))


def faults_of(outcome, grown=None, connections=0):
    """What went wrong in a run, in words; `grown` is by how many entries the book grew.

    What is under way at the end of a run, and of the one before, may be recorded without its answer
    being counted.
    """
    faults = []
    if outcome.not_2xx:
        faults.append(f"{outcome.not_2xx} of {outcome.requests} answers were refusals")
    if outcome.broken:
        faults.append(f"{outcome.broken} connections broke or timed out")
    if outcome.requests == 0:
        faults.append("nothing was answered")
    if grown is not None and not outcome.requests <= grown <= outcome.requests + 2 * connections:
        faults.append(f"{outcome.requests} were answered as recorded, the book grew by {grown}")
    return faults


def run_wrk(url, token, connections, seconds, drains=None, run=0):
    environment = os.environ | {"BENCH_TOKEN": token, "BENCH_RUN": str(run)}
    if drains:
        environment["BENCH_DRAINS"] = drains
    done = subprocess.run(["wrk", "-t1", f"-c{connections}", f"-d{seconds}s", "--timeout", "10s",
                           "-s", HERE / "load.lua", url],
                          env=environment, text=True, check=True, stdout=subprocess.PIPE)
    return outcome_of(done.stdout)
