"""The measure that the soak holds the daemon to."""

import unittest

import flat


class Flat(unittest.TestCase):
    def test_the_slope_is_that_of_the_line(self):
        self.assertAlmostEqual(flat.slope([(0, 5), (10, 25), (20, 45)]), 2)
        self.assertAlmostEqual(flat.slope([(0, 1), (1, 0), (2, 1)]), 0)

    def test_what_wavers_is_flat_and_what_leaks_is_not(self):
        bound = flat.Bound("descriptors", 1.0)
        self.assertIsNone(bound.fault([(1000 * i, 40 + i % 2) for i in range(20)]))
        leaking = [(1000 * i, 40 + 2 * i + i % 2) for i in range(20)]
        self.assertRegex(bound.fault(leaking), "^descriptors: grows by 2.0")

    def test_what_is_taken_and_given_back_is_flat(self):
        saw = [(1000 * i, 40 + 10 * (i % 4)) for i in range(18)]
        self.assertEqual(flat.lowest(saw, 4), [(4000 * i, 40) for i in range(4)])
        self.assertIsNone(flat.Bound("resident KiB", 1.0, among=4).fault(saw))
        leaking = [(x, y + x / 100) for x, y in saw]
        self.assertRegex(flat.Bound("resident KiB", 1.0, among=4).fault(leaking), "grows by 10.0")


if __name__ == "__main__":
    unittest.main()
