"""What is not counted by the second: start-up, memory, checking a whole book, a report."""

import concurrent.futures
import dataclasses
import json
import os
import signal
import subprocess
import threading
import time

import load
import served

LOAD_S = 3


def _health_answers(address):
    try:
        return served.Served(None, None, address, "").call("GET", "/api/v1/health")[0] == 200
    except OSError:
        return False


class Starter:
    """Starts the daemon on one folder, on a port known before, and times its first answer."""

    def __init__(self, program, folder):
        self._program, self._folder = program, folder

    def start(self):
        """The process, its address, and the seconds from its start to the first answer."""
        begun = time.monotonic()
        process = subprocess.Popen([self._program, "serve", "--data", self._folder, "--port", "0"],
                                   stdout=subprocess.PIPE, text=True)
        address = process.stdout.readline().split(" on ")[1].strip()
        while not _health_answers(address):
            if time.monotonic() - begun > served.PATIENCE_S:
                raise RuntimeError("the daemon did not answer in time")
        return process, address, time.monotonic() - begun

    def end(self, process, how):
        process.send_signal(how)
        process.communicate(timeout=served.PATIENCE_S)


def start_up(program, folder, rounds, tell):
    """Seconds to the first answer after a clean stop, and after SIGKILL under a load of drains. And
    every fault: what the kill left unanswered is none.
    """
    starter, clean_s, killed_s, faults = Starter(program, folder), [], [], []
    process, _, _ = starter.start()
    starter.end(process, signal.SIGTERM)
    for number in range(1, rounds + 1):
        process, address, took_s = starter.start()
        clean_s.append(took_s)
        running = served.Served(folder, process, address, "")
        running.token = served.sign_in(running)
        with concurrent.futures.ThreadPoolExecutor() as beside:
            loading = beside.submit(load.run_wrk, address, running.token, 8, LOAD_S,
                                    served.now_text(), number)
            time.sleep(LOAD_S - 1)
            starter.end(process, signal.SIGKILL)
            outcome = dataclasses.replace(loading.result(), broken=0)
        faults += [f"start: {fault}" for fault in load.faults_of(outcome)]
        process, _, took_s = starter.start()
        killed_s.append(took_s)
        starter.end(process, signal.SIGTERM)
        tell(f"round {number}: start {clean_s[-1]:.3f} s, after SIGKILL {killed_s[-1]:.3f} s")
    return clean_s, killed_s, faults


def memory(program, folder, tell):
    """Resident megabytes: after the start, after a load of reads and drains, and at most while
    somebody signs in, above what it was before. And every fault.
    """
    with served.Daemon(program).serve(folder) as running:
        started = running.memory_mb()
        running.token = served.sign_in(running)
        done = [load.run_wrk(running.address + "/api/v1/levels", running.token, 16, LOAD_S),
                load.run_wrk(running.address, running.token, 16, LOAD_S, served.now_text(), run=1)]
        faults = [f"memory: {fault}" for outcome in done for fault in load.faults_of(outcome)]
        time.sleep(1)
        idle = running.memory_mb()
        highest, signed_in = idle, threading.Event()
        signing_in = threading.Thread(target=lambda: (served.sign_in(running),
                                                      signed_in.set()))
        signing_in.start()
        while not signed_in.wait(0.001):
            highest = max(highest, running.memory_mb())
        signing_in.join()
    told = {"started_mb": started, "idle_mb": idle, "signin_mb": highest - idle}
    tell(", ".join(f"{name} {value:.1f}" for name, value in told.items()))
    return told, faults


def verify(programs, folder, rounds, tell):
    """Seconds of `verify`, and of reading and hashing the same leaves, round by round."""
    results = []
    for number in range(1, rounds + 1):
        bare = subprocess.run([programs.read_and_hash, folder / "book.db"], check=True, text=True,
                              stdout=subprocess.PIPE).stdout
        begun = time.monotonic()
        subprocess.run([programs.daemon, "verify", "--data", folder], check=True,
                       stdout=subprocess.DEVNULL)
        results.append({"verify": time.monotonic() - begun,
                        "read_and_hash": json.loads(bare)["seconds"]})
        tell(f"round {number}: verify {results[-1]['verify']:.2f} s, "
             f"read and hash {results[-1]['read_and_hash']:.2f} s")
    return results


def report(program, folder, month, rounds, tell):
    """Milliseconds of the waste report of a month as PDF: through the API, and by the command."""
    path = f"/api/v1/reports/waste-month.pdf?month={month}"
    api_ms, command_ms = [], []
    with served.Daemon(program).signed_in(folder) as running:
        running.read(path)  # the first finds nothing in any cache
        for _ in range(rounds):
            begun = time.monotonic()
            pdf = running.read(path)
            api_ms.append((time.monotonic() - begun) * 1000)
            if not pdf.startswith(b"%PDF"):
                raise RuntimeError(f"no PDF came: {pdf[:100]}")
    for _ in range(rounds):
        begun = time.monotonic()
        subprocess.run([program, "report", "waste-month", "--month", month, "--format", "pdf",
                        "--data", folder, "--output", os.devnull], check=True)
        command_ms.append((time.monotonic() - begun) * 1000)
    tell(f"waste-month PDF: {min(api_ms):.0f} to {max(api_ms):.0f} ms, "
         f"by the command {min(command_ms):.0f} to {max(command_ms):.0f} ms")
    return api_ms, command_ms
