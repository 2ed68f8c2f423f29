"""Measures how quick the program is beside what else could do its work: ratios within one run, on
the same disk and the same cores, in turns. It judges nothing but failed requests: machines differ.
"""

import argparse
import dataclasses
import json
import pathlib
import shutil
import sys

import served
import table
import writes


@dataclasses.dataclass(frozen=True)
class Programs:
    daemon: pathlib.Path
    demo_maker: pathlib.Path
    sqlite_writes: pathlib.Path

    @classmethod
    def in_folder(cls, folder):
        return cls(folder / "benchwarden", folder / "benchwarden-demo",
                   folder / "bench_sqlite_writes")


@dataclasses.dataclass(frozen=True)
class Effort:
    rounds: int
    seconds: int  # of one turn


WHOLE, QUICK = Effort(5, 5), Effort(3, 2)


def _arguments():
    parser = argparse.ArgumentParser(prog="tests/bench/run.sh", description=__doc__)
    parser.add_argument("--quick", action="store_true", help="fewer and shorter rounds")
    parser.add_argument("--json", type=pathlib.Path, metavar="FILE",
                        help="the results for programs")
    parser.add_argument("--only", metavar="TEXT", help="turns whose name contains it")
    parser.add_argument("--build", type=pathlib.Path, required=True, metavar="FOLDER",
                        help="of the Release programs")
    parser.add_argument("--work", type=pathlib.Path, required=True, metavar="FOLDER",
                        help="on the disk to measure; what it held is lost")
    return parser.parse_args()


def _tell(line):
    print(line, file=sys.stderr, flush=True)


def main():
    arguments = _arguments()
    programs = Programs.in_folder(arguments.build)
    effort = QUICK if arguments.quick else WHOLE
    shutil.rmtree(arguments.work, ignore_errors=True)
    arguments.work.mkdir(parents=True)
    certificate = served.make_certificate(arguments.work)
    base = arguments.work / "base"
    served.make_base(base, programs)
    turns = [turn for turn in writes.turns(programs, certificate)
             if arguments.only is None or arguments.only in turn.name]
    results, faults = writes.measure(turns, base, arguments.work, effort.rounds, effort.seconds,
                                     _tell)
    ratios = writes.ratios(results)
    print(table.rates("Recording, entries a second", results))
    print(table.ratios(ratios))
    for fault in faults:
        print("FAULT", fault)
    if arguments.json:
        told = {"ratios": {name: spread.as_json() for name, spread in ratios.items()},
                "writes": results, "faults": faults}
        arguments.json.write_text(json.dumps(told, indent=1) + "\n", "utf-8")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
