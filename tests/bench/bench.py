"""Measures how quick the program is beside what else could do its work: ratios within one run, on
the same disk and the same cores, in turns. It judges nothing but failed requests: machines differ.
"""

import argparse
import dataclasses
import datetime
import json
import pathlib
import re
import shutil
import sys

import books
import chart
import figures
import reads
import served
import table
import wholes
import writes


@dataclasses.dataclass(frozen=True)
class Programs:
    """Where the Release build has what is run."""
    folder: pathlib.Path
    daemon = property(lambda self: self.folder / "benchwarden")
    demo_maker = property(lambda self: self.folder / "benchwarden-demo")
    sqlite_writes = property(lambda self: self.folder / "bench_sqlite_writes")
    fixed_bytes = property(lambda self: self.folder / "bench_fixed_bytes")
    book_maker = property(lambda self: self.folder / "bench_book")
    read_and_hash = property(lambda self: self.folder / "bench_read_and_hash")


@dataclasses.dataclass(frozen=True)
class Effort:
    rounds: int
    seconds: int  # of one turn
    sizes: tuple  # of books, in entries


WHOLE = Effort(5, 5, (10_000, 100_000, 1_000_000))
QUICK = Effort(3, 2, (10_000, 100_000))


class Run:
    """One run: each part adds its ratios, figures, rounds and faults."""

    def __init__(self, programs, effort, work, shelf, turns):
        self.programs, self.effort, self.work, self.shelf = programs, effort, work, shelf
        self._turns = turns
        self.ratios, self.figures, self.rounds, self.faults = {}, {}, {}, []
        self._certificate = served.make_certificate(work)
        self._base = work / "base"
        served.make_base(self._base, programs)

    def _keep(self, title, results, faults):
        self.rounds[title] = results
        self.faults += faults

    def writes(self):
        turns = [turn for turn in writes.turns(self.programs, self._certificate)
                 if re.search(self._turns, turn.name)]
        results, faults = writes.measure(turns, self._base, self.work, self.effort.rounds,
                                         self.effort.seconds, tell)
        self._keep("Recording, entries a second", results, faults)
        self.ratios |= writes.ratios(results)

    def reads(self):
        results, faults = reads.beside_bare(self.programs, self._certificate, self._base, self.work,
                                            self.shelf.month, self.effort.rounds,
                                            self.effort.seconds, tell)
        self._keep("Reading, answers a second", results, faults)
        self.ratios |= reads.bare_ratios(results)

    def sizes(self):
        results, faults, whole_history_s, first_ms = reads.by_size(
            self.programs, self.shelf, self.effort.sizes, self.work, self.effort.rounds,
            self.effort.seconds, tell)
        self._keep("Reading by size of the book, answers a second", results, faults)
        self.ratios |= reads.size_ratios(results, self.effort.sizes[0], self.effort.sizes[-1])
        for size, took_s in whole_history_s.items():
            self.figures[f"whole_history_{reads.short(size)}_s"] = figures.Spread.of([took_s])
        self.figures |= {name: figures.Spread.of(taken) for name, taken in first_ms.items()}

    def starts(self):
        with served.copy_of(self.shelf.book(self.effort.sizes[-1]), self.work / "turn") as folder:
            served.add_tank(self.programs.daemon, folder)
            clean_s, killed_s, faults = wholes.start_up(self.programs.daemon, folder,
                                                        self.effort.rounds, tell)
        self.faults += faults
        self.figures["start_clean_s"] = figures.Spread.of(clean_s)
        self.figures["start_killed_s"] = figures.Spread.of(killed_s)

    def memory(self):
        largest = self.effort.sizes[-1]
        for ending, folder in (("", self._base),
                               (f"_{reads.short(largest)}", self.shelf.book(largest))):
            with served.copy_of(folder, self.work / "turn") as copy:
                if folder != self._base:
                    served.add_tank(self.programs.daemon, copy)
                told, faults = wholes.memory(self.programs.daemon, copy, tell)
            self.faults += faults
            for name, value in told.items():
                self.figures[f"rss_{name}{ending}"] = figures.Spread.of([value])

    def verify(self):
        results = wholes.verify(self.programs, self.shelf.book(self.effort.sizes[-1]),
                                self.effort.rounds, tell)
        self.rounds["Checking the book, seconds"] = results
        self.ratios["verify_vs_read_and_hash"] = figures.ratio_of(results, "read_and_hash",
                                                                  "verify")

    def report(self):
        with served.copy_of(self._base, self.work / "turn") as folder:
            api_ms, command_ms = wholes.report(self.programs.daemon, folder, self.shelf.month,
                                               self.effort.rounds, tell)
        self.figures["waste_month_pdf_ms"] = figures.Spread.of(api_ms)
        self.figures["waste_month_command_ms"] = figures.Spread.of(command_ms)


PARTS = ("writes", "reads", "sizes", "starts", "memory", "verify", "report")


def tell(line):
    print(line, file=sys.stderr, flush=True)


def _arguments():
    parser = argparse.ArgumentParser(prog="tests/bench/run.sh", description=__doc__)
    parser.add_argument("--quick", action="store_true",
                        help="fewer and shorter rounds, no book of a million entries")
    parser.add_argument("--json", type=pathlib.Path, metavar="FILE",
                        help="the results for programs")
    parser.add_argument("--svg", type=pathlib.Path, metavar="FILE",
                        help="the ratios as a chart; none where there were faults")
    parser.add_argument("--only", nargs="+", choices=PARTS, default=PARTS, metavar="PART",
                        help="of " + ", ".join(PARTS))
    parser.add_argument("--turns", default="", metavar="PATTERN",
                        help="regular expression: of the turns of writes, those whose name fits")
    parser.add_argument("--build", type=pathlib.Path, required=True, metavar="FOLDER",
                        help="of the Release programs")
    parser.add_argument("--work", type=pathlib.Path, required=True, metavar="FOLDER",
                        help="on the disk to measure; what it held is lost")
    parser.add_argument("--books", type=pathlib.Path, required=True, metavar="FOLDER",
                        help="keeps the large books")
    return parser.parse_args()


def _print(run):
    for title, results in run.rounds.items():
        print(table.rounds(title, results))
    if run.figures:
        print(table.spreads("Figures", run.figures))
    if run.ratios:
        print(table.spreads("Ratios", run.ratios))
    for fault in run.faults:
        print("FAULT", fault)


def _as_json(run):
    def told(spreads):
        return {name: spread.as_json() for name, spread in spreads.items()}
    return {"ratios": told(run.ratios), "figures": told(run.figures), "rounds": run.rounds,
            "faults": run.faults}


def main():
    arguments = _arguments()
    shutil.rmtree(arguments.work, ignore_errors=True)
    arguments.work.mkdir(parents=True)
    programs = Programs(arguments.build)
    shelf = books.Shelf(arguments.books, programs.book_maker,
                        books.last_day_before(datetime.date.today()), tell)
    run = Run(programs, QUICK if arguments.quick else WHOLE, arguments.work, shelf, arguments.turns)
    for part in PARTS:
        if part in arguments.only:
            getattr(run, part)()
    shutil.rmtree(arguments.work)
    _print(run)
    if arguments.json:
        arguments.json.write_text(json.dumps(_as_json(run), indent=1) + "\n", "utf-8")
    if arguments.svg and not run.faults:
        chart.draw(run.ratios, arguments.svg)
    return 1 if run.faults else 0


if __name__ == "__main__":
    sys.exit(main())
