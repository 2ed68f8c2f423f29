"""Files of at most 400 lines, functions of at most 60, lines of at most 100 columns."""

import ast
import unittest

import functions
import source
import tree

FILE_LINES = 400
FUNCTION_LINES = 60
COLUMNS = 100
CODE = tree.CPP + tree.JS + (".css", ".py", ".sh")


def file_faults(texts):
    return [tree.fault(path, FILE_LINES + 1, f"{len(text.splitlines())} lines; a file has at most "
                       f"{FILE_LINES}: split it by subject")
            for path, text in tree.under(texts, "src", "tests", "demo", "forms/app", suffixes=CODE)
            if len(text.splitlines()) > FILE_LINES]


def _python_functions(text):
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            yield functions.Braces("function", node.name, node.lineno, node.end_lineno)


def all_functions(texts):
    """(path, function) of C++, JavaScript and Python."""
    for path, text in tree.under(texts, "src", "tests", "demo", "forms",
                                 suffixes=tree.CPP + tree.JS + (".py",)):
        python = path.endswith(".py")
        for function in _python_functions(text) if python else functions.find(path, text):
            yield path, function


def function_faults(texts):
    return [tree.fault(path, function.first, f"{function.name} has {function.lines} lines; "
                       f"a function has at most {FUNCTION_LINES}")
            for path, function in all_functions(texts) if function.lines > FUNCTION_LINES]


def column_faults(texts):
    suffixes = tree.CPP + (".py", ".sh", "CMakeLists.txt", ".ci/run")
    return [tree.fault(path, number, f"{len(line)} columns; a line has at most {COLUMNS}")
            for path, text in texts.items() if path.endswith(suffixes)
            for number, line in enumerate(text.splitlines(), 1) if len(line) > COLUMNS]


class TheTree(unittest.TestCase):
    def test_files_are_short(self):
        tree.expect_none(self, file_faults(tree.load()))

    def test_functions_are_short(self):
        tree.expect_none(self, function_faults(tree.load()))

    def test_lines_are_short(self):
        tree.expect_none(self, column_faults(tree.load()))

    def test_the_finder_agrees_with_the_indentation(self):
        """In formatted C++ a } alone in the first column ends a function or a short namespace."""
        missed, sources = [], tree.under(tree.load(), "src", "tests", "demo", suffixes=tree.CPP)
        for path, text in sources:
            ends = {pair.last for pair in functions.braces(path, text)
                    if pair.kind in ("function", "scope")}
            lines = source.code(path, text).splitlines()
            missed += [tree.fault(path, number, "the finder missed the function ending here")
                       for number, line in enumerate(lines, 1)
                       if line == "}" and number not in ends]
        self.assertGreater(len(sources), 200)
        tree.expect_none(self, missed)


class TheCheck(unittest.TestCase):
    def spans(self, path, text):
        return [(found.name, found.first, found.last) for found in functions.find(path, text)]

    def test_finds_a_long_file(self):
        self.assertEqual(file_faults({"src/a.cpp": "\n" * 400}), [])
        self.assertTrue(file_faults({"src/a.cpp": "\n" * 401})[0].startswith("src/a.cpp:401: "))

    def test_finds_a_long_line_counted_in_characters(self):
        self.assertEqual(column_faults({"a.sh": "é" * 100 + "\n"}), [])
        self.assertTrue(column_faults({"a.sh": "\n" + "é" * 101})[0].startswith("a.sh:2: "))

    def test_finds_a_long_function_in_each_language(self):
        for path, head, end in (("src/a.cpp", "int f() {", "}"), ("src/a.js", "x = () => {", "};"),
                                ("tests/a.py", "def f():", "    return 1")):
            text = "\n" + head + "\n" * 59 + end + "\n"
            self.assertEqual(function_faults({path: text}), [])
            text = "\n" + head + "\n" * 60 + end + "\n"
            self.assertEqual(len(function_faults({path: text})), 1, path)
            self.assertTrue(function_faults({path: text})[0].startswith(f"{path}:2: "))

    def test_functions_classes_and_blocks(self):
        text = """#define X(a) { a
namespace n {
class A : public B {
 public:
  A(int x)
      : x_{x}, y_(x) {
    if (x > 0) {
      for (int i = 0; i < 2; ++i) { go(i); }
    } else {
      do { go(1); } while (false);
    }
  }
  int get() const noexcept { return x_; }
  template <class T>
  auto as() -> T {
    return T{x_, {1, 2}};
  }
  enum class Kind : char { kOne };
  int x_ = 1;
};
}
"""
        self.assertEqual(self.spans("a.h", text), [("A", 5, 12), ("get", 13, 13), ("as", 15, 17)])

    def test_lambdas_tables_and_switches(self):
        text = """const std::array<Row, 2> kRows{{
    {1, [](int a) {
       return a;
     }},
    {2, nullptr},
}};
void run(int big) {
  static const auto all = [] {
    return 1'000'000;
  }();
  if (std::any_of(all, [&](int a) {
        return a == '{' || text == "}}}";  // }
      })) {
    return;
  }
  switch (big) {
    case 1: {
      break;
    }
  }
}
TEST(Run, GoesOn) {
  run(1);
}
"""
        self.assertEqual([(first, last) for _, first, last in self.spans("a.cpp", text)],
                         [(2, 4), (8, 10), (11, 13), (7, 21), (22, 24)])

    def test_a_group_of_tests_is_no_function(self):
        text = "describe('a', () => {\n  it('b', () => {\n  });\n});\n"
        self.assertEqual([(first, last) for _, first, last in self.spans("a.mjs", text)], [(2, 3)])

    def test_raw_strings_hide_their_braces(self):
        text = 'void f() {\n  g(R"x({"a": "}")x");\n}\nvoid h() {\n}\n'
        self.assertEqual(self.spans("a.cpp", text), [("f", 1, 3), ("h", 4, 5)])

    def test_javascript(self):
        text = """import { a } from './a.js';
export class Pad extends Base {
  static { setUp(); }
  render() {
    const re = /[}/]{2}"/g;
    return html`<b ${this.x ? html`{${f({ a: 1 })}` : ''}>}</b>`;
  }
  key = (event) => {
    if (a / b > 1) { go('}'); }
  };
}
export const table = {
  one: 1,
  two(x) {
    return { x };
  },
  three: async () => {
    return 3;
  },
};
test('it goes', async () => {
  for (const x of [1]) {
    go(x);
  }
});
"""
        self.assertEqual([(first, last) for _, first, last in self.spans("a.js", text)],
                         [(3, 3), (4, 7), (8, 10), (14, 16), (17, 19), (21, 25)])

    def test_the_lexer_keeps_every_character_in_its_place(self):
        text = 'a("b" /* c\n */, \'d\'); // e\nx = R"(\n)";\n'
        for keep in (source.code, source.strings, source.without_comments):
            kept = keep("a.cpp", text)
            self.assertEqual(len(kept), len(text))
            self.assertEqual(kept.count("\n"), text.count("\n"))
        self.assertEqual(source.strings("a.cpp", text).split(), ['"b"', "'d'", 'R"(', ')"'])
        self.assertEqual(source.strings("a.js", "x(`s${y}t`, 'u') // v").split(),
                         ["`s${", "}t`", "'u'"])


if __name__ == "__main__":
    unittest.main()
