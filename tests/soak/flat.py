"""Whether a series of figures stays what it was."""

import dataclasses


def slope(points):
    """Of the straight line nearest to (x, y) points, by least squares."""
    count = len(points)
    mean_x = sum(x for x, _ in points) / count
    mean_y = sum(y for _, y in points) / count
    spread = sum((x - mean_x) ** 2 for x, _ in points)
    return sum((x - mean_x) * (y - mean_y) for x, y in points) / spread


def lowest(samples, among):
    """Of each so many (x, y) samples in a row the one with the lowest y; what is left over counts
    for nothing.
    """
    starts = range(0, len(samples) - among + 1, among)
    return [min(samples[start:start + among], key=lambda sample: sample[1]) for start in starts]


@dataclasses.dataclass
class Bound:
    """How much a figure may grow: for each thousand requests, on the line through the lowest of
    each `among` samples.
    """
    name: str
    growth_max: float
    among: int = 1

    def fault(self, samples):
        """`samples` is of (requests so far, figure); None where it is flat enough."""
        growth = slope(lowest(samples, self.among)) * 1000
        if growth <= self.growth_max:
            return None
        return (f"{self.name}: grows by {growth:.2f} for each thousand requests; "
                f"at most {self.growth_max} is taken")
