"""Tells code, comments and strings of C++ and JavaScript apart, without moving a character.

All functions answer a text of the same length and lines; what is left out becomes blanks.
"""

import re

_CPP_TOKEN = re.compile(
    r"//(?:\\\n|[^\n])*"                       # comment to the end of the line
    r"|/\*.*?(?:\*/|\Z)"                       # comment in between
    r'|(?:u8|u|U|L)?R"([^\s()\\]{0,16})\(.*?(?:\)\1"|\Z)'  # raw string
    r'|"(?:\\.|[^"\\\n])*"?'
    r"|(?<![0-9a-zA-Z_])[0-9][0-9a-zA-Z_.]*(?:'[0-9a-zA-Z_.]+)+"  # 1'000'000 is code
    r"|'(?:\\.|[^'\\\n])*'?", re.DOTALL)


def _segments_cpp(text):
    """(kind, start, end) of what is not plain code; kind is "comment" or "string"."""
    for match in _CPP_TOKEN.finditer(text):
        if match.group()[0] == "/":
            yield "comment", match.start(), match.end()
        elif not match.group()[0].isdigit():
            yield "string", match.start(), match.end()


_JS_COMMENT = re.compile(r"//[^\n]*|/\*.*?(?:\*/|\Z)", re.DOTALL)
_JS_STRING = re.compile(r"'(?:\\.|[^'\\\n])*'?" r'|"(?:\\.|[^"\\\n])*"?', re.DOTALL)
_JS_REGEX = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\n\[])+/[a-z]*")
_JS_TEMPLATE = re.compile(r"(?:\\.|\$(?!\{)|[^`\\$])*(`|\$\{|\Z)", re.DOTALL)
_BEFORE_REGEX = re.compile(
    r"(?:\A|[(,=:\[!&|?{};+\-*%<>^~]|\b(?:return|typeof|case|in|of|void|delete))\s*\Z")


def _segments_js(text):
    position = 0
    code = ""         # the code so far, to know whether a / divides
    depths = []       # of braces inside each open ${ of a template
    while position < len(text):
        char = text[position]
        kind, match = None, None
        if text.startswith(("//", "/*"), position):
            kind, match = "comment", _JS_COMMENT.match(text, position)
        elif char in "'\"":
            kind, match = "string", _JS_STRING.match(text, position)
        elif char == "/" and _BEFORE_REGEX.search(code[-40:]):
            kind, match = "string", _JS_REGEX.match(text, position)
        elif char == "`" or (char == "}" and depths and depths[-1] == 0):
            if char == "}":
                depths.pop()
            kind, match = "string", _JS_TEMPLATE.match(text, position + 1)
            if match.group(1) == "${":
                depths.append(0)
        if match:
            yield kind, position, match.end()
            code = (code if kind == "comment" else code + "0")[-40:]
            if kind == "string" and match.group().endswith("${"):
                code = "("
            position = match.end()
            continue
        if depths and char in "{}":
            depths[-1] += 1 if char == "{" else -1
        code = (code + char)[-40:]
        position += 1


def _blank(text):
    return re.sub(r"[^\n]", " ", text)


def _segments(path, text):
    return _segments_js(text) if path.endswith((".js", ".mjs")) else _segments_cpp(text)


def _keep(path, text, kinds):
    pieces, end = [], 0
    for kind, start, stop in _segments(path, text):
        plain = text[end:start]
        pieces.append(plain if "code" in kinds else _blank(plain))
        pieces.append(text[start:stop] if kind in kinds else _blank(text[start:stop]))
        end = stop
    rest = text[end:]
    pieces.append(rest if "code" in kinds else _blank(rest))
    return "".join(pieces)


def code(path, text):
    """Without comments and without strings. The path's ending says which language it is."""
    return _keep(path, text, {"code"})


def without_comments(path, text):
    return _keep(path, text, {"code", "string"})


def strings(path, text):
    """Nothing but the string literals and the fixed parts of templates."""
    return _keep(path, text, {"string"})
