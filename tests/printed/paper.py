"""What programs that are not ours read in a PDF: qpdf and the poppler tools."""

import collections
import decimal
import html
import re
import subprocess
import tempfile

Word = collections.namedtuple("Word", "text left right top bottom")

# In points: 20 mm at the left; 15 mm at the right of A4, at the top, at the bottom of Letter. The
# box of a letter is a little taller than its ink.
LEFT, RIGHT, TOP, BOTTOM = 56.6, 595.28 - 42.5, 42.5 - 3, 792 - 42.5

_WORD = re.compile(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">'
                   r"(.*?)</word>")
_NUMBER = re.compile(r"^\u2212?\d{1,3}(?:\u202f\d{3})*(?:\.\d+)?$")


def run(*words):
    done = subprocess.run(words, text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          timeout=120, check=False)
    return done.returncode, done.stdout, done.stderr


class Paper:
    """A PDF in a file of its own, which goes when the object goes."""

    def __init__(self, pdf):
        self._file = tempfile.NamedTemporaryFile(suffix=".pdf")
        self._file.write(pdf)
        self._file.flush()
        self.path = self._file.name

    def faults(self):
        """What qpdf finds wrong; "" for nothing."""
        code, said, complained = run("qpdf", "--check", self.path)
        return "" if code == 0 else said + complained

    def fonts(self):
        """[(embedded, subset, has a map to Unicode)] as pdffonts says, each "yes" or "no"."""
        _, said, _ = run("pdffonts", self.path)
        found = [re.search(r" (yes|no) +(yes|no) +(yes|no) +\d+ +\d+$", line)
                 for line in said.strip().split("\n")[2:]]
        return [one.groups() for one in found]

    def properties(self):
        _, said, _ = run("pdfinfo", self.path)
        return dict(re.split(r":\s+", line, maxsplit=1) for line in said.strip().split("\n")
                    if re.search(r":\s", line))

    def pages(self):
        """The words of each page in the order of the file."""
        _, said, _ = run("pdftotext", "-bbox", self.path, "-")
        found = []
        for page in said.split("<page ")[1:]:
            found.append([Word(html.unescape(text), *map(float, (x0, x1, y0, y1)))
                          for x0, y0, x1, y1, text in _WORD.findall(page)])
        return found

    def text(self):
        _, said, _ = run("pdftotext", "-layout", self.path, "-")
        return said


def outside_margins(words):
    return [word for word in words
            if word.left < LEFT or word.right > RIGHT or word.top < TOP or word.bottom > BOTTOM]


def _joined(words):
    """Words of one line, the groups of thousands of a number joined again."""
    found = []
    for word in sorted(words, key=lambda one: one.left):
        last = found[-1] if found else None
        if (last and word.left - last.right < 2.4 and re.search(r"\d$", last.text)
                and re.match(r"\d{3}(\D|$)", word.text) and re.match(r"^\u2212?\d", last.text)):
            found[-1] = Word(f"{last.text}\u202f{word.text}", last.left, word.right,
                             last.top, last.bottom)
        else:
            found.append(word)
    return found


def lines(words):
    """The words of a page line by line, from top to bottom."""
    by_bottom = collections.defaultdict(list)
    for word in words:
        by_bottom[round(word.bottom)].append(word)
    rows = []
    for bottom in sorted(by_bottom):
        if rows and bottom - rows[-1][0] <= 1:
            rows[-1][1].extend(by_bottom[bottom])
        else:
            rows.append((bottom, list(by_bottom[bottom])))
    return [_joined(row) for _, row in rows]


def numbers(line):
    """{right edge in whole points: value} of what stands as a number in a line."""
    return {round(word.right): decimal.Decimal(
                word.text.replace("\u202f", "").replace("\u2212", "-"))
            for word in line if _NUMBER.match(word.text)}


def text_of(line):
    return " ".join(word.text for word in line)
