"""The tables that are printed."""

import figures


def rates(title, rounds):
    """One line for each turn, from the rates of each round."""
    lines = [title, f"  {'':24} {'median':>10} {'low':>10} {'high':>10}"]
    for name in rounds[0]:
        spread = figures.Spread.of([one[name] for one in rounds])
        lines.append(f"  {name:24} {spread.median:10.0f} {spread.low:10.0f} {spread.high:10.0f}")
    return "\n".join(lines) + "\n"


def ratios(spreads):
    lines = ["Ratios", f"  {'':28} {'median':>8} {'low':>8} {'high':>8}"]
    for name, spread in spreads.items():
        lines.append(f"  {name:28} {spread.median:8.2f} {spread.low:8.2f} {spread.high:8.2f}")
    return "\n".join(lines) + "\n"
