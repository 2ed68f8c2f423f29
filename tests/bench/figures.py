"""What is calculated from what was measured. Pure."""

import dataclasses
import statistics


@dataclasses.dataclass(frozen=True)
class Spread:
    """The middle of some values, and how far they lie apart."""
    low: float
    median: float
    high: float
    count: int

    @classmethod
    def of(cls, values):
        if not values:
            raise ValueError("no values to take a median of")
        return cls(min(values), statistics.median(values), max(values), len(values))

    def as_json(self):
        return {"low": self.low, "median": self.median, "high": self.high, "rounds": self.count}


def ratio_of(rounds, above, below):
    """The spread of above/below, taken round by round: what disturbs a round disturbs both."""
    return Spread.of([one[above] / one[below] for one in rounds])
