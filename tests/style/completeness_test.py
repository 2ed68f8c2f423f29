"""Every kind, calculation, refusal, caution and report has a test and a line in the documentation;
so has every command and option of the command line. Every kind, every refusal and every rule of a
pack stands in a case file, every kind of rule in the documentation."""

import re
import tomllib
import unittest

import tree

DOCUMENTS = ("README.md", "DEVELOPERS.md")
REFUSALS = "src/entries/refusal.cpp"
EXAMPLES = [*range(1, 6), *range(7, 17)]  # of the reference, which has no 6
CALCULATION_REFUSALS = "forms/wording/calculations.toml"


def _stems(texts, folder):
    return {path.removesuffix(".toml").split("/")[-1]: path
            for path, _ in tree.under(texts, folder, suffixes=(".toml",))}


def refusal_keys(texts):
    """key → (line, name of the constant)."""
    text = texts.get(REFUSALS, "")
    return {match.group(2): (tree.line_of(text, match.start()), match.group(1))
            for match in re.finditer(r'\{Code::(k\w+),\s*"([a-z_]+)"\}', text)}


def command_words(texts):
    """(word, path, line): commands, options and positional words, from the calls that add them."""
    found = []
    for path, text in tree.under(texts, "src/daemon", suffixes=(".cpp",)):
        for match in re.finditer(r'\b(?:add|set_version)_\w+\([^";{]*"([^"]+)"', text):
            line = tree.line_of(text, match.start())
            found += [(word, path, line) for word in match.group(1).split(",")]
    return found


def _has(text, word):
    return re.search(rf"(?<![\w-])(?:{re.escape(word)})(?![\w-])", text) is not None


def _refusal_named(text, word, constant):
    """As the constant, or as the last word of a string: "bad_id", "/fields/container bad_id"."""
    return re.search(rf"""["' ]{word}["']|\bCode::{constant}\b|\bRefusalCode::{constant}\b""",
                     text) is not None


def _tests(texts):
    return "\n".join(text for path, text in tree.under(texts, "tests")
                     if not path.startswith("tests/style/")
                     and not path.endswith("package-lock.json"))


def _documented_code(texts):
    """What the documentation writes as code: between backticks and in fenced blocks."""
    text = "\n".join(texts.get(path, "") for path in DOCUMENTS)
    fenced = re.findall(r"^```.*?^```", text, re.MULTILINE | re.DOTALL)
    rest = re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)
    return "\n".join(fenced + re.findall(r"`[^`\n]+`", rest))


def _subjects(texts):
    """(what, word, path, line, name of its constant or nothing)."""
    for what, folder in (("kind", "forms/definitions"), ("calculation", "forms/calculations"),
                         ("caution", "reports/cautions"), ("report", "reports/definitions")):
        for word, path in _stems(texts, folder).items():
            yield what, word, path, 1, None
    for word, (line, constant) in refusal_keys(texts).items():
        yield "refusal", word, REFUSALS, line, constant
    sentences = tomllib.loads(texts.get(CALCULATION_REFUSALS, ""))
    for word, sentence in sentences.items():
        if isinstance(sentence, str):  # the tables beside them hold labels
            yield "refusal of calculations", word, CALCULATION_REFUSALS, 1, None


def test_faults(texts):
    tests = _tests(texts)
    return [tree.fault(path, line, f"the {what} {word} is named in no test")
            for what, word, path, line, constant in _subjects(texts)
            if not (_refusal_named(tests, word, constant) if constant else _has(tests, word))]


def documentation_faults(texts):
    written = _documented_code(texts)
    where = " or ".join(DOCUMENTS)
    return [tree.fault(path, line, f"the {what} {word} stands (as code) in no {where}")
            for what, word, path, line, _ in _subjects(texts) if not _has(written, word)]


def command_line_faults(texts):
    written = _documented_code(texts)
    where = " or ".join(DOCUMENTS)
    return [tree.fault(path, line, f"{word} of the command line stands (as code) in no {where}")
            for word, path, line in command_words(texts) if not _has(written, word)]


def rules(texts):
    """(id, kind, path, line) of every rule that judges."""
    for path, text in tree.under(texts, "reports/rules/packs", suffixes=(".toml",)):
        for rule in tomllib.loads(text).get("rules", []):
            place = text.find(f'id = "{rule["id"]}"')
            yield rule["id"], rule.get("kind"), path, tree.line_of(text, place)


def rule_faults(texts):
    cases = "\n".join(text for _, text in tree.under(texts, "tests/cases", suffixes=(".toml",)))
    written = _documented_code(texts)
    faults = []
    for word, kind, path, line in rules(texts):
        if re.search(rf"(?<![\w.-]){re.escape(word)}(?![\w-])(?!\.\w)", cases) is None:
            faults.append(tree.fault(path, line, f"the rule {word} stands in no case"))
        if kind is not None and not _has(written, kind):
            faults.append(tree.fault(path, line, f"the kind of rule {kind} is not documented"))
    return faults


def told_in_cases(texts):
    """What the case files tell: kinds that are recorded in them, and keys of refusals."""
    kinds, refusals = set(), set()
    for _, text in tree.under(texts, "tests/cases", suffixes=(".toml",)):
        for entry in tomllib.loads(text).get("entry", []):
            refused = entry.get("refused", [])
            refusals |= {line.split(" ")[-1] for line in refused}
            if not refused:
                kinds.add("correction" if "corrects" in entry else entry.get("kind"))
    return kinds, refusals


def case_faults(texts):
    kinds, refusals = told_in_cases(texts)
    faults = [tree.fault(path, 1, f"the kind {word} is recorded in no case")
              for word, path in _stems(texts, "forms/definitions").items() if word not in kinds]
    return faults + [tree.fault(REFUSALS, line, f"the refusal {word} stands in no case")
                     for word, (line, _) in refusal_keys(texts).items() if word not in refusals]


def example_faults(texts):
    """Every worked example of the table is shown by tests that exist."""
    text = texts.get("DEVELOPERS.md", "")
    section = text[text.find("### Worked examples"):].split("\n#")[0]
    rows = re.findall(r"^\| (\d+), .*? \| (.*) \|$", section, re.MULTILINE)
    faults = [tree.fault("DEVELOPERS.md", 1, f"worked example {number}: there is no {path}")
              for number, shown in rows for path in re.findall("`([^`]+)`", shown)
              if path not in texts]
    missing = set(EXAMPLES) - {int(number) for number, shown in rows if "`" in shown}
    return faults + [tree.fault("DEVELOPERS.md", 1, f"worked example {number} is shown by nothing")
                     for number in sorted(missing)]


def finding_faults(texts):
    """What the rules say has a sentence, and every sentence is said."""
    path = "reports/wording/findings.toml"
    sentences = {key for key, value in tomllib.loads(texts.get(path, "")).items()
                 if isinstance(value, str)}
    code = "\n".join(text for _, text in tree.under(texts, "src/rules", suffixes=(".cpp",)))
    packs = "\n".join(text for _, text in tree.under(texts, "reports/rules/packs"))
    said = set(re.findall(r'"([a-z][a-z0-9-]+)"', code)) | set(
        re.findall(r'\bsays = "([a-z0-9-]+)"', packs))
    said |= {word + end for word in said for end in ("-due", "-over", "-note")}
    return [tree.fault(path, 1, f"nothing says '{key}'") for key in sorted(sentences - said)]


def name_faults(texts):
    """A file's own id is its name: the other checks go by the name."""
    faults = []
    for folder, key in (("forms/definitions", "kind"), ("forms/calculations", "name"),
                        ("reports/cautions", "id"), ("reports/definitions", "id")):
        for stem, path in _stems(texts, folder).items():
            own = tomllib.loads(texts[path]).get(key, stem)
            if own != stem:
                faults.append(tree.fault(path, 1, f'{key} = "{own}" in a file named {stem}'))
    return faults


class TheTree(unittest.TestCase):
    def test_everything_has_a_test(self):
        tree.expect_none(self, test_faults(tree.load()))

    def test_everything_has_a_line_in_the_documentation(self):
        tree.expect_none(self, documentation_faults(tree.load()))

    def test_the_command_line_is_documented(self):
        tree.expect_none(self, command_line_faults(tree.load()))

    def test_every_rule_stands_in_a_case(self):
        tree.expect_none(self, rule_faults(tree.load()))

    def test_every_kind_and_refusal_stands_in_a_case(self):
        tree.expect_none(self, case_faults(tree.load()))

    def test_every_worked_example_is_shown(self):
        tree.expect_none(self, example_faults(tree.load()))

    def test_every_sentence_of_a_finding_is_said(self):
        tree.expect_none(self, finding_faults(tree.load()))

    def test_files_are_named_as_what_they_define(self):
        tree.expect_none(self, name_faults(tree.load()))

    def test_the_readers_see_the_tree(self):
        texts = tree.load()
        text = texts[REFUSALS]
        self.assertEqual(len(refusal_keys(texts)), len(set(re.findall(r"\{Code::(k\w+)", text))))
        self.assertGreater(len(refusal_keys(texts)), 25)
        words = {word for word, _, _ in command_words(texts)}
        self.assertLessEqual({"serve", "verify", "reset-pin", "--month", "--port"}, words)
        self.assertGreater(len(list(_subjects(texts))), 45)


class TheCheck(unittest.TestCase):
    TEXTS = {
        "forms/definitions/oil-drained.toml": 'kind = "oil-drained"\n',
        "forms/calculations/oil-mass.toml": 'name = "oil-mass"\n',
        CALCULATION_REFUSALS: 'not_whole = "No."\n[quantities]\nx = "X"\n',
        "reports/cautions/oil.toml": 'id = "oil"\n',
        "reports/definitions/waste-month.toml": 'id = "waste-month"\n',
        REFUSALS: '    {Code::kMissing, "missing"},\n    {Code::kBadId,\n     "bad_id"},\n',
        "tests/a_test.cpp": 'f("oil-drained", "oil", "waste-month", Code::kMissing, "/a bad_id");'
                            '// oil-mass, not_whole: ',
        "README.md": "`oil-drained` `oil`\n```\nreport waste-month\n```\n`missing`, `bad_id`\n"
                     "`oil-mass`, `not_whole`\n",
    }

    def words_missing(self, check, path, before, after):
        texts = dict(self.TEXTS)
        self.assertEqual(check(texts), [])
        texts[path] = texts[path].replace(before, after)
        return check(texts)

    def test_finds_what_no_test_names(self):
        for before, after, path in (
                ('"oil-drained"', '"oil-drained-2"', "forms/definitions/oil-drained.toml:1: "),
                ('"oil"', '"oily"', "reports/cautions/oil.toml:1: "),
                ('"waste-month"', "", "reports/definitions/waste-month.toml:1: "),
                ("oil-mass", "", "forms/calculations/oil-mass.toml:1: "),
                ("not_whole", "", CALCULATION_REFUSALS + ":1: "),
                ("Code::kMissing", "Code::kMissingToo", REFUSALS + ":1: "),
                ('bad_id"', 'bad_id or so"', REFUSALS + ":2: ")):
            faults = self.words_missing(test_faults, "tests/a_test.cpp", before, after)
            self.assertEqual([fault[:len(path)] for fault in faults], [path], before)

    def test_the_style_tests_themselves_do_not_count(self):
        texts = dict(self.TEXTS)
        texts["tests/style/a_test.py"] = texts.pop("tests/a_test.cpp")
        self.assertEqual(len(test_faults(texts)), 7)

    def test_finds_what_no_document_names_as_code(self):
        for before, after in (("`oil`", "oil"), ("`bad_id`", ""), ("waste-month", ""),
                              ("`oil-mass`", ""), ("`not_whole`", "")):
            faults = self.words_missing(documentation_faults, "README.md", before, after)
            self.assertEqual(len(faults), 1, before)

    def test_finds_undocumented_commands_and_options(self):
        text = 'App* a = p.add_subcommand("serve", "Run");\n' \
               'a->add_option("-p,--port", x, "Port");\n' \
               'void add_common(App& a) {\n  go("no option");\n}\n' \
               'add_act(*person, Act::kAdd, "add",\n  "Enter");\np.add_subcommand(name, help);\n'
        texts = {"src/daemon/main.cpp": text, "README.md": "`serve -p 1`, --port\n"}
        faults = command_line_faults(texts)
        self.assertEqual([fault.split(" of ")[0] for fault in faults],
                         ["src/daemon/main.cpp:2: --port", "src/daemon/main.cpp:6: add"])

    def test_finds_a_rule_without_case_or_documentation(self):
        texts = {"reports/rules/packs/a.toml":
                 '[[rules]]\nid = "a.b"\nkind = "clock"\n[[rules]]\nid = "a.b.c"\noff = true\n',
                 "tests/cases/x.toml": 'rules = ["a.b.c"]\n', "README.md": "`clock`\n"}
        self.assertEqual(rule_faults(texts),
                         ["reports/rules/packs/a.toml:2: the rule a.b stands in no case"])
        texts["tests/cases/x.toml"] += 'findings = ["over a.b workshop"]\n'
        texts["README.md"] = "clock\n"
        self.assertEqual(rule_faults(texts),
                         ["reports/rules/packs/a.toml:2: the kind of rule clock is not documented"])

    def test_finds_a_kind_or_refusal_without_case(self):
        texts = {"forms/definitions/a.toml": "", "forms/definitions/correction.toml": "",
                 REFUSALS: '{Code::kMissing, "missing"}',
                 "tests/cases/x.toml": '[[entry]]\nkind = "a"\n[[entry]]\nkind = "a"\n'
                                       'corrects = "e"\n[[entry]]\nrefused = ["/x missing"]\n'}
        self.assertEqual(case_faults(texts), [])
        # Neither a kind that is only refused, nor a word in a comment, counts.
        texts["tests/cases/x.toml"] = ('# missing\n[[entry]]\nkind = "a"\nrefused = ["/x bad"]\n'
                                       '[[entry]]\nkind = "correction"\nnote = "missing"\n')
        self.assertEqual([fault.split(": ")[1] for fault in case_faults(texts)],
                         ["the kind a is recorded in no case",
                          "the refusal missing stands in no case"])

    def test_finds_a_worked_example_that_nothing_shows(self):
        rows = "".join(f"| {number}, what | `tests/{number}` |\n" for number in EXAMPLES)
        texts = {f"tests/{number}": "" for number in EXAMPLES}
        texts["DEVELOPERS.md"] = "### Worked examples\n\n" + rows + "## Next\n"
        self.assertEqual(example_faults(texts), [])
        del texts["tests/7"]
        texts["DEVELOPERS.md"] = texts["DEVELOPERS.md"].replace("`tests/16`", "tests/16")
        self.assertEqual([fault.split(": ", 1)[1] for fault in example_faults(texts)],
                         ["worked example 7: there is no tests/7",
                          "worked example 16 is shown by nothing"])

    def test_finds_a_sentence_nobody_says(self):
        sentences = 'one-over = "A."\ntwo-over = "B."\n[units]\nd = "x"\n'
        texts = {"reports/wording/findings.toml": sentences, "src/rules/x.cpp": 'f("one");\n'}
        self.assertEqual(finding_faults(texts),
                         ["reports/wording/findings.toml:1: nothing says 'two-over'"])

    def test_finds_a_file_with_another_name(self):
        faults = name_faults({"reports/cautions/a.toml": 'id = "b"\n'})
        self.assertEqual(len(faults), 1)
        self.assertTrue(faults[0].startswith("reports/cautions/a.toml:1: "))


if __name__ == "__main__":
    unittest.main()
