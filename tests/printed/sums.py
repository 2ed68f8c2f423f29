"""Adds up what stands printed above each printed total, column by column."""

import collections
import pathlib
import re
import tomllib

import paper

WORDING = tomllib.loads((pathlib.Path(__file__).resolve().parents[2] /
                         "reports/wording/en.toml").read_text("utf-8"))


def _pattern(sentence):
    """A sentence of the wording as a regular expression for the beginning of a line."""
    return re.sub(r"\\\{\w+\\\}", ".+", re.escape(sentence))


# Totals, and which of the rows above count: those that hold the word, or all.
TOTALS = [(re.compile(_pattern(WORDING["streams"]["hazardous_total"]) + r"\b"), "yes"),
          (re.compile(_pattern(WORDING["streams"]["other_total"]) + r"\b"), "no"),
          (re.compile(_pattern(WORDING["balance"]["total"]) + r"\b"), None),
          (re.compile(_pattern(WORDING["entries"]["total"]) + r"\b"), None),
          (re.compile(_pattern(WORDING["year"]["months_total"]) + r"\b"), None),
          (re.compile(_pattern(WORDING["year"]["consignments_total"]) + r"\b"), None),
          (re.compile(_pattern(WORDING["handover"]["total"]) + r"\b"), None)]
STREAM = re.compile(r".+ \(\d\d \d\d \d\d\*?\)$")  # heads the rows of one stream
CAPTIONS = {sentence for table in WORDING.values() if isinstance(table, dict)
            for name, sentence in table.items()
            if isinstance(sentence, str) and name.startswith("caption")}
HEADINGS = {heading for report in WORDING["section"].values() for heading in report.values()}


def _body(pages, site):
    """The lines of all pages, one after the other, without what stands under each."""
    for page in pages:
        for line in paper.lines(page):
            if paper.text_of(line).startswith(f"{site} \u00b7 "):
                break
            yield line


def _label(line, following):
    """The words of a row, which may go on in the line below."""
    values = paper.numbers(line)
    words = [word.text for word in line if round(word.right) not in values]
    if following and values and not paper.numbers(following):
        words.extend(word.text for word in following)
    return " ".join(words)


def _total(line, following):
    if not paper.numbers(line):
        return None
    label = _label(line, following)
    return next((one for one in TOTALS if one[0].match(label)), None)


def check(pages):
    """How many totals there are, and the faults found."""
    body = list(_body(pages, paper.text_of(paper.lines(pages[0])[1]).split(",")[0]))
    rows = []  # (words, {edge: value}) since the table or the last total of its kind began
    found, faults = 0, []
    for line, following in zip(body, body[1:] + [None]):
        text = paper.text_of(line)
        total = _total(line, following)
        if total is None:
            if text in HEADINGS or text in CAPTIONS or STREAM.match(text):
                rows = []
            rows.append(({word.text for word in line}, paper.numbers(line)))
            continue
        found += 1
        sums = collections.Counter()
        for words, values in rows:
            if total[1] is None or total[1] in words:
                sums.update(values)
        for edge, value in paper.numbers(line).items():
            near = [amount for at, amount in sums.items() if abs(at - edge) <= 1]
            if sum(near) != value:
                faults.append(f"{text}: {sum(near)} stands above {value}")
        if total[1] is None:
            rows = []
    return found, faults
