"""What src does not use, with what to use instead: one row each, tried on its own samples.

A pattern is searched for in code without comments and strings, line by line; what matches
`harmless` is taken out of the line first. `only` names the folders or files below src that may use
it all the same. `bad` and `good` are lines that the row must find and must leave alone.
"""

import dataclasses
import re

DISK = ("access", "book", "daemon", "http", "sqlite")
EXACT = ("base", "book", "entries", "forms", "quantities", "tallies")  # no rounding in here


@dataclasses.dataclass
class Row:
    name: str
    pattern: str
    instead: str
    bad: tuple
    good: tuple
    only: tuple = ()       # allowed here
    inside: tuple = ()     # forbidden here and nowhere else; empty: everywhere
    harmless: str = r"(?!)"

    def applies(self, below):
        places = {below, below.split("/")[0]}
        if self.inside and not places & set(self.inside):
            return False
        return not places & set(self.only)

    def find(self, line):
        return re.search(self.pattern, re.sub(self.harmless, " ", line)) is not None


ROWS = (
    Row("C string copy", r"\b(?:str(?:n?cpy|n?cat)|v?sprintf|gets)\s*\(",
        "std::string, or std::snprintf into a std::array",
        ("strcpy(a, b);", "std::sprintf(buffer, format);"), ("std::snprintf(b, n, f);",)),
    Row("C number parsing", r"\b(?:ato(?:i|l|ll|f)|strto(?:d|f|ld|l|ul|ll|ull)|v?s?scanf)\s*\(",
        "base::parse_decimal or std::from_chars: they say what is wrong",
        ("n = std::atoi(text);", "strtod(text, &end)"), ("std::from_chars(a, b, n);",)),
    Row("std::stoi and friends", r"\bsto(?:i|l|ul|ll|ull|f|d|ld)\s*\(",
        "base::parse_decimal or std::from_chars: these throw and take trailing rubbish",
        ("std::stoi(text)", "std::stoull(x)"), ("histoi(text)", "std::to_string(1)")),
    Row("C random numbers", r"\b(?:s?rand|random|drand48)\s*\(|\bmt19937|\brandom_device\b",
        "RAND_bytes in base or randombytes_buf in access",
        ("int n = rand();", "std::mt19937 engine;"), ("operand(1)", "randombytes_buf(a, b);")),
    Row("starting a program", r"\b(?:system|popen|fork|exec[lv]p?e?|posix_spawnp?)\s*\(",
        "nothing: the daemon starts no other program",
        ("system(command);", "::popen(a, b)"), ("file_system(a)",)),
    Row("printing", r"\bstd::(?:cout|cerr|clog)\b|\b(?:f?printf|f?puts|putchar|perror)\s*\(",
        "base::Result for faults; only the daemon talks to the console",
        ("std::cout << a;", "printf(a);", "std::puts(a);"), ("std::snprintf(a, b, c);",),
        only=("daemon",)),
    Row("naked new", r"\bnew\b",
        "std::make_unique; for a private constructor std::unique_ptr<T>(new T(…)) in one line",
        ("Thing* thing = new Thing;", "return new Thing(1);", "take(new Thing[3]);"),
        ("std::unique_ptr<Thing> thing(new Thing);", "#include <new>", "void* operator new(int n);",
         "return std::unique_ptr<Thing>(new Thing(1));"),
        harmless=r"\bunique_ptr<[^;]*?>\s*\w*\(new\b|\boperator new\b|#\s*include\s*<new>",
        # Poco's factories, filters and handlers are handed over as raw pointers and owned there.
        only=("http/server.cpp", "http/library_faults.cpp")),
    Row("delete or malloc", r"\bdelete\b|\b(?:malloc|calloc|realloc|free)\s*\(",
        "std::unique_ptr, with a deleter for a C library's own",
        ("delete thing;", "delete[] things;", "free(p);"),
        ("A(const A&) = delete;", "void operator delete(void* p);", "HPDF_Free(pdf);"),
        harmless=r"=\s*delete\b|\boperator delete\b"),
    Row("throw", r"\bthrow\b(?!\s+std::bad_alloc\b)",
        "base::Result; exceptions stay inside the skin of the library that makes them",
        ("throw std::runtime_error(a);", "throw;"), ("throw std::bad_alloc();", "noexcept"),
        # wording_keys.h: in a consteval function, where it stops the compiler and never runs.
        # toml.cpp: the skin of a library whose assertions a file can break.
        only=("sqlite", "print", "http", "base/toml.cpp", "reports/wording_keys.h")),
    Row("floating point", r"\b(?:float|double)\b",
        "integers in the smallest unit (src/quantities), base::Decimal",
        ("double mass = 1;", "static_cast<float>(a)"), ("doubled(a)", "std::int64_t mass_mg;"),
        inside=EXACT,
        # What calculations measure with: no stored value passes through these.
        only=("quantities/measure.h", "quantities/converted.h", "quantities/converted.cpp",
              "quantities/read_amount.h", "quantities/read_amount.cpp")),
    Row("std::endl", r"\bstd::endl\b", "'\\n'; std::flush where it matters",
        ("out << std::endl;",), ("out << '\\n';",), only=("daemon",)),
    Row("using namespace", r"\busing\s+namespace\b", "the name itself, or one using declaration",
        ("using namespace std;", "  using namespace std::chrono;"), ("using std::chrono::days;",)),
    Row("reading the clock",
        r"\b(?:system_clock|high_resolution_clock|utc_clock|gettimeofday|clock_gettime)\b"
        r"|\bstd::time\s*\(|\btime\s*\(\s*(?:nullptr|NULL|0)\s*\)"
        r"|\b(?:local|gm)time(?:_r)?\s*\(",
        "base::Clock, which is handed in; base::Zone for local time",
        ("auto a = std::chrono::system_clock::now();", "std::time(nullptr)", "time(0)",
         "localtime_r(&a, &b)"),
        ("time(name)", "SystemClock clock;"), only=("daemon/system_clock.h",)),
    Row("steady_clock", r"\bsteady_clock\b",
        "base::Clock; deadlines belong to http, access and book",
        ("std::chrono::steady_clock::now()",), ("steady()",), only=("access", "book", "http")),
    Row("the environment", r"\b(?:secure_)?getenv\b|\b(?:set|put|unset)env\b|\benviron\b",
        "a setting read in daemon/config.cpp",
        ("std::getenv(name)",), ("environment()",), only=("daemon",)),
    Row("the disk", r"#\s*include\s*<(?:fstream|fcntl\.h|unistd\.h|sys/(?:stat|file|mman)\.h)>"
        r"|\bf(?:re)?open\s*\(|\bstd::[io]?fstream\b|\bstd::filesystem::(?!path\b)\w+"
        r"|\bnamespace\s+\w+\s*=\s*std::filesystem\b",
        "bytes handed in or out; files are opened in " + ", ".join(DISK),
        ("#include <fstream>", "std::ofstream out(path);", "std::filesystem::remove(path);",
         "#include <sys/stat.h>", "fopen(a, b)", "namespace fs = std::filesystem;"),
        ("const std::filesystem::path& folder", "reopen(a)"), only=DISK),
    Row("paths of the disk", r"#\s*include\s*<filesystem>|\bstd::filesystem\b",
        "bytes handed in or out; paths are known to " + ", ".join(DISK) + " and workshop",
        ("#include <filesystem>", "std::filesystem::path p"), ("#include <string>",),
        only=DISK + ("workshop",)),  # hands the data folder's path on
)
