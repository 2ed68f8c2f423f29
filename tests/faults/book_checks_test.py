"""The checks themselves, on small books that are right and wrong."""

import decimal
import unittest

import book_checks
import drain_load


def entry(seq, identity, volume="1.5"):
    return {"id": identity, "seq": seq, "recorded_at": f"t{seq}", "leaf_hash": f"h{seq}",
            "fields": {"volume_ml": decimal.Decimal(volume)}}


def post(identity, seq=None, sent=True):
    made = drain_load.Post(identity, decimal.Decimal("1.5"), "", sent)
    if seq is not None:
        made.status = 201
        made.answer = {"id": identity, "seq": seq, "recorded_at": f"t{seq}",
                       "leaf_hash": f"h{seq}"}
    return made


class BookChecks(unittest.TestCase):
    def one(self, faults, start):
        self.assertEqual(len(faults), 1, faults)
        self.assertTrue(faults[0].startswith(start), faults)

    def test_a_right_book_has_no_faults(self):
        posts = [post("a", 1), post("b"), post("c"), post("d", sent=False)]
        book = [entry(0, "x"), entry(1, "a"), entry(2, "b")]
        self.assertEqual(book_checks.answered_faults(posts, book), [])
        self.assertEqual(book_checks.sequence_faults(book), [])

    def test_finds_an_answered_entry_that_is_lost(self):
        self.one(book_checks.answered_faults([post("a", 1)], [entry(0, "x")]),
                 "a was answered as no. 1 and is lost")

    def test_finds_an_entry_that_is_there_twice(self):
        self.one(book_checks.answered_faults([post("a", 1)], [entry(1, "a"), entry(2, "a")]),
                 "a is in the book 2 times")

    def test_finds_an_entry_that_nobody_sent(self):
        self.one(book_checks.answered_faults([post("a", sent=False)], [entry(1, "a")]),
                 "a is in the book and was never sent")

    def test_finds_an_entry_that_differs_from_its_answer(self):
        for name, value in (("seq", 2), ("recorded_at", "t2"), ("leaf_hash", "h2")):
            self.one(book_checks.answered_faults([post("a", 1)], [entry(1, "a") | {name: value}]),
                     f"a: {name} is {value}, answered ")

    def test_finds_a_volume_that_was_not_sent(self):
        self.one(book_checks.answered_faults([post("a", 1)], [entry(1, "a", "1.6")]),
                 "a: 1.6 mL, sent 1.5 mL")

    def test_finds_a_gap_a_repetition_and_a_step_back(self):
        for second in (0, 1, 3):
            self.one(book_checks.sequence_faults([entry(1, "a"), entry(second, "b")]),
                     f"no. {second} follows no. 1")

    def test_finds_what_was_recorded_and_not_told(self):
        posts = [post("a", 1), post("b"), post("c"), post("d", sent=False)]
        found = book_checks.untold(posts, [entry(1, "a"), entry(2, "b")])
        self.assertEqual([one.id for one in found], ["b"])

    def test_adds_up_what_is_in_the_book(self):
        book = [entry(0, "x"), entry(1, "a", "0.1"), entry(2, "b", "0.2")]
        self.assertEqual(book_checks.sum_ml([post("a"), post("b"), post("c")], book),
                         decimal.Decimal("0.3"))


if __name__ == "__main__":
    unittest.main()
