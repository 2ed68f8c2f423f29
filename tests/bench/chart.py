"""The ratios as a chart for paper: SVG, each median as a dot on a line from the lowest to the
highest of its rounds. It needs matplotlib; nothing else of the benchmark does.
"""


def draw(spreads, path):
    import matplotlib  # here: whoever wants no chart needs no library
    matplotlib.use("svg")
    from matplotlib import pyplot
    pyplot.rcParams["svg.hashsalt"] = "benchwarden"  # equal ratios give equal bytes
    names = list(spreads)
    places = range(len(names), 0, -1)
    figure, axes = pyplot.subplots(figsize=(8, 1.2 + 0.28 * len(names)), layout="constrained")
    axes.hlines(places, [spreads[name].low for name in names],
                [spreads[name].high for name in names], color="black", linewidth=1.5)
    axes.plot([spreads[name].median for name in names], places, "o", color="black", markersize=5)
    axes.axvline(1, color="black", linestyle=":", linewidth=1)
    axes.set_xscale("log")
    axes.xaxis.set_major_formatter(matplotlib.ticker.FormatStrFormatter("%g"))
    axes.set_yticks(list(places), names)
    axes.set_xlabel("ratio: median, lowest and highest of the rounds; dotted: as much")
    axes.grid(axis="x", linewidth=0.3)
    figure.savefig(path, metadata={"Date": None})
