"""What the benchmark calculates and reads, on values small enough to check by hand."""

import json
import unittest

import figures
import load
import reads
import table
import writes


class OfSpreads(unittest.TestCase):
    def test_the_median_is_the_middle_or_between_the_two_in_the_middle(self):
        self.assertEqual(figures.Spread(1, 3, 9, 3), figures.Spread.of([9, 1, 3]))
        self.assertEqual(figures.Spread(1, 2.5, 9, 4), figures.Spread.of([9, 1, 3, 2]))

    def test_no_values_have_no_median(self):
        with self.assertRaisesRegex(ValueError, "no values"):
            figures.Spread.of([])

    def test_a_ratio_is_taken_within_each_round(self):
        """Of the medians it would be 4 / 2."""
        rounds = [{"a": 1, "b": 1}, {"a": 8, "b": 2}, {"a": 4, "b": 8}]
        self.assertEqual(figures.Spread(0.5, 1, 4, 3), figures.ratio_of(rounds, "a", "b"))

    def test_as_json(self):
        self.assertEqual({"low": 1, "median": 2, "high": 3, "rounds": 3},
                         figures.Spread.of([1, 2, 3]).as_json())


class OfRatios(unittest.TestCase):
    def test_recording_has_those_of_which_both_sides_were_measured(self):
        rounds = [{"daemon_c1": 3, "sqlite_1": 4, "node_c64": 5}]
        self.assertEqual(["write_c1_vs_sqlite"], list(writes.ratios(rounds)))
        self.assertEqual(0.75, writes.ratios(rounds)["write_c1_vs_sqlite"].median)

    def test_every_ratio_of_recording_names_turns_that_there_are(self):
        names = {turn.name for turn in writes.turns(_AnyProgram(), ("key", "certificate"))}
        for name, pair in writes.RATIOS.items():
            self.assertLessEqual(set(pair), names, name)

    def test_reading_is_compared_with_the_same_load_of_the_bare_server(self):
        keys = [f"{name}{kind}{bare}_c{connections}" for name in ("levels", "month")
                for kind in ("", "_tls") for bare in ("", "_bare") for connections in (1, 16)]
        found = reads.bare_ratios([{key: 1 if "bare" in key else 0.5 for key in keys}])
        self.assertEqual(8, len(found))
        self.assertEqual({0.5}, {spread.median for spread in found.values()})
        self.assertIn("read_levels_c1_vs_bare", found)

    def test_a_size_ratio_is_above_one_where_the_larger_book_is_slower(self):
        rounds = [{f"{name}_{size}": rate for name in ("levels", "month", "history")
                   for size, rate in ((10_000, 300), (1_000_000, 100))}]
        found = reads.size_ratios(rounds, 10_000, 1_000_000)
        self.assertEqual(["levels_1m_vs_10k", "month_1m_vs_10k", "history_1m_vs_10k"], list(found))
        self.assertEqual(3, found["levels_1m_vs_10k"].median)


class _AnyProgram:
    def __getattr__(self, name):
        return name


class OfTheLoad(unittest.TestCase):
    LINE = {"requests": 600, "seconds": 2, "not_2xx": 0, "broken": 0, "latency_median_ms": 1.5,
            "latency_p99_ms": 9}

    def outcome(self, **changed):
        told = "Running 2s test @ http://127.0.0.1:1\n" + json.dumps(self.LINE | changed) + "\n"
        return load.outcome_of(told)

    def test_the_line_of_json_is_found(self):
        self.assertEqual(300, self.outcome().per_second)
        self.assertEqual(9, self.outcome().latency_p99_ms)

    def test_a_program_that_said_something_else_is_quoted(self):
        for text in ("unable to connect", "{}\n{}"):
            with self.assertRaisesRegex(RuntimeError, "one line of JSON"):
                load.outcome_of(text)

    def test_refusals_broken_connections_and_silence_are_faults(self):
        self.assertEqual([], load.faults_of(self.outcome()))
        for changed, said in (({"not_2xx": 3}, "3 of 600 answers were refusals"),
                              ({"broken": 2}, "2 connections broke"),
                              ({"requests": 0}, "nothing was answered")):
            faults = load.faults_of(self.outcome(**changed))
            self.assertEqual(1, len(faults), faults)
            self.assertIn(said, faults[0])

    def test_the_book_grows_by_what_was_answered_and_what_was_under_way(self):
        for grown in (600, 632):
            self.assertEqual([], load.faults_of(self.outcome(), grown, 16))
        for grown in (599, 633):
            faults = load.faults_of(self.outcome(), grown, 16)
            self.assertEqual(["600 were answered as recorded, the book grew by "
                              f"{grown}"], faults)


class OfTheTable(unittest.TestCase):
    def test_a_line_for_each_name(self):
        text = table.rounds("Rates", [{"a": 1234.5, "bcd": 0.12345}, {"a": 1000, "bcd": 2}])
        self.assertEqual("Rates\n"
                         "         median       low      high\n"
                         "  a        1117      1000      1234\n"
                         "  bcd      1.06     0.123         2\n", text)


if __name__ == "__main__":
    unittest.main()
