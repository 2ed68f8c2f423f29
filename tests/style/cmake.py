"""Reads what the style tests need to know from CMakeLists.txt."""

import dataclasses
import posixpath
import re

_TOKEN = re.compile(r'#[^\n]*|"(?:\\.|[^"\\])*"|[()]|[^\s()"#]+', re.DOTALL)
_KEYWORD = re.compile(r"[A-Z][A-Z_]+")


@dataclasses.dataclass
class Word:
    text: str
    line: int


@dataclasses.dataclass
class Command:
    name: str
    words: list
    line: int

    def groups(self):
        """The words after each KEYWORD; those before the first one under the empty name."""
        groups = {"": []}
        keyword = ""
        for word in self.words:
            if _KEYWORD.fullmatch(word.text):
                keyword = word.text
                groups.setdefault(keyword, [])
            else:
                groups[keyword].append(word)
        return groups


def commands(text):
    """Every command with its words; nested parentheses are kept as words."""
    found, depth, previous = [], 0, None
    for match in _TOKEN.finditer(text):
        token = match.group()
        if token.startswith("#"):
            continue
        line = text.count("\n", 0, match.start()) + 1
        if token == "(":
            depth += 1
            if depth == 1:
                found.append(Command(previous.text if previous else "", [], line))
                continue
        elif token == ")":
            depth -= 1
            if depth == 0:
                continue
        word = Word(token.strip('"'), line)
        if depth > 0:
            found[-1].words.append(word)
        else:
            previous = word
    return found


def libraries(text):
    """The bw_library blocks in order."""
    return [command for command in commands(text) if command.name == "bw_library"]


def sources(text):
    """(path, line) of every .cpp named: bw_library and bw_test prepend their folder."""
    found = []
    for command in commands(text):
        prefix = ""
        if command.name in ("bw_library", "bw_test"):
            prefix = ("src/" if command.name == "bw_library" else "tests/") + command.words[0].text
        for word in command.words:
            if word.text.endswith(".cpp") and "$" not in word.text:
                found.append((posixpath.normpath(posixpath.join(prefix, word.text)), word.line))
    return found


def listed(text, variable):
    """(value, line) of each word of `set(variable …)`."""
    for command in commands(text):
        if command.name == "set" and command.words and command.words[0].text == variable:
            return [(word.text, word.line) for word in command.words[1:]]
    return []
