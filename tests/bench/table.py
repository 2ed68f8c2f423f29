"""The tables that are printed."""

import figures


def _number(value):
    """Three digits that count, or all before the point."""
    if value >= 100:
        return f"{value:.0f}"
    return f"{value:.3g}"


def spreads(title, by_name):
    """A line for each name: what lies in the middle, and the lowest and the highest."""
    width = max(len(name) for name in by_name)
    lines = [title, f"  {'':{width}} {'median':>9} {'low':>9} {'high':>9}"]
    for name, spread in by_name.items():
        values = "".join(f" {_number(value):>9}"
                         for value in (spread.median, spread.low, spread.high))
        lines.append(f"  {name:{width}}{values}")
    return "\n".join(lines) + "\n"


def rounds(title, results):
    """The same from what each round gave."""
    return spreads(title, {name: figures.Spread.of([one[name] for one in results])
                           for name in results[0]})
