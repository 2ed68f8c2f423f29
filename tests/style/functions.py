"""Finds the functions of C++ and JavaScript by their braces.

Each { is told apart by the text in front of it, back to where its statement starts: a scope
(class, namespace), a plain block (if, for, else), an expression (initialiser, object literal) or
a function, which includes methods, lambdas, arrow functions with braces and test bodies. A
function runs from the line its head starts on to the line of its closing brace.
"""

import dataclasses
import re

import source

_LABEL = re.compile(r"^\s*(?:public|private|protected|default|case\b[^:]*)\s*:(?!:)")
_TEMPLATE = re.compile(r"^\s*template\s*<[^{}]*?>\s*(?=[a-z])")
_SCOPE = re.compile(r"^\s*(?:export\s+(?:default\s+)?)?(?:(?:typedef|inline|static|constexpr)\s+)*"
                    r"(?:namespace|class|struct|union|enum|extern\s*$)\b")
_CONTROL = re.compile(r"^\s*(?:else\s+)?(?:if|for|while|switch|catch|with)\b.*\)\s*$", re.DOTALL)
_WORD_BLOCK = re.compile(r"(?:^|\s)(?:else|do|try|finally|catch)\s*$")
_TAIL = re.compile(r"(?:\)|\])\s*(?:(?:const|noexcept|override|final|mutable|&&?)\s*)*$")
_ARROW = re.compile(r"=>\s*$")
_RETURNS = re.compile(r"(?:\)|\])\s*(?:(?:const|noexcept|mutable)\s*)*->[^;(]*$")
_INITIALISERS = re.compile(r"\)\s*(?:noexcept\s*)?:(?!:)[^;?]*$", re.DOTALL)
_GROUP = re.compile(r"^\s*describe\s*\(")  # a list of tests; each of them is a function
_STATIC_BLOCK = re.compile(r"^\s*static\s*$")


@dataclasses.dataclass
class Braces:
    """A pair of braces with its head; kind is one of those above."""
    kind: str
    name: str
    first: int
    last: int

    @property
    def lines(self):
        return self.last - self.first + 1


def _kind(head, in_brackets):
    """What the { after `head` opens: scope, block, expression or function."""
    if _GROUP.search(head):
        return "scope"
    if in_brackets:
        is_function = any(rule.search(head) for rule in (_TAIL, _ARROW, _RETURNS))
        return "function" if is_function else "expression"
    if _SCOPE.search(head):
        return "scope"
    if not head.strip() or _CONTROL.search(head) or _WORD_BLOCK.search(head):
        return "block"
    if any(rule.search(head) for rule in (_TAIL, _ARROW, _RETURNS, _STATIC_BLOCK)):
        return "function"
    if _INITIALISERS.search(head):
        return "function" if head.rstrip().endswith("}") else "expression"
    return "expression"


def _trimmed(head):
    """The head without labels and template lists, and how much was cut off in front."""
    cut = 0
    for rule in (_LABEL, _TEMPLATE):
        match = rule.search(head)
        while match:
            cut += match.end()
            head = head[match.end():]
            match = rule.search(head)
    return head, cut


def _name(head):
    words = re.findall(r"[\w:~]+(?=\s*\()", head)
    return words[0] if words else "(unnamed)"


def _without_directives(text):
    return re.sub(r"^[ \t]*#(?:\\\n|[^\n])*", lambda match: re.sub(r"[^\n]", " ", match.group()),
                  text, flags=re.MULTILINE)


def braces(path, text):
    """All pairs of braces of a file with what they hold, in the order they end."""
    code = source.code(path, text)
    if not path.endswith((".js", ".mjs")):
        code = _without_directives(code)
    found, open_braces = [], []  # (kind, name, first line, start outside, brackets outside)
    start, brackets = 0, 0
    line = 1
    for position, char in enumerate(code):
        if char == "\n":
            line += 1
        elif char in "([":
            brackets += 1
        elif char in ")]":
            brackets -= 1
        elif char == "{":
            head, cut = _trimmed(code[start:position])
            inside = bool(open_braces) and open_braces[-1][0] == "expression"
            kind = _kind(head, brackets > 0)
            if kind == "block" and inside:
                kind = "expression"
            blanks = len(head) - len(head.lstrip())
            first = code.count("\n", 0, start + cut + blanks) + 1
            if brackets > 0:
                first = line  # a lambda among arguments starts on its own line
            open_braces.append((kind, _name(head), first, start, brackets))
            start, brackets = position + 1, 0
        elif char == "}" and open_braces:
            kind, name, first, outer_start, brackets = open_braces.pop()
            start = outer_start if kind == "expression" or brackets > 0 else position + 1
            found.append(Braces(kind, name, first, line))
        elif char == ";" and brackets == 0:
            start = position + 1
        elif char == "," and brackets == 0 and open_braces and open_braces[-1][0] == "expression":
            start = position + 1
    return found


def find(path, text):
    """All functions of a file, in the order they end."""
    return [pair for pair in braces(path, text) if pair.kind == "function"]
