"""The include ladder as data: which folder of src may reach which. DEVELOPERS.md says why."""

# folder: the folders it may include, besides itself. The order is that of CMakeLists.txt.
MAY_INCLUDE = {
    "base": (),
    "quantities": ("base",),
    "calculations": ("base", "quantities"),
    "entries": ("base", "quantities"),
    "forms": ("base", "quantities", "entries"),
    "sqlite": ("base",),
    "seal": ("base",),
    "book": ("base", "entries", "sqlite"),
    "tallies": ("base", "quantities", "entries", "calculations"),
    "findings": ("base", "quantities"),
    "rules": ("base", "quantities", "calculations", "entries", "tallies", "findings"),
    "document": ("base",),
    "reports": ("base", "quantities", "entries", "calculations", "tallies", "findings",
                "document"),
    "print": ("base", "document"),
    "access": ("base", "sqlite"),
    "workshop": ("base", "quantities", "calculations", "entries", "forms", "sqlite", "seal",
                 "book", "tallies", "findings", "rules", "document", "reports", "print"),
    "http": ("base", "document", "access", "workshop"),
    "daemon": ("base", "seal", "access", "workshop", "http"),
}

# Start of a third-party header: the folders or single files whose .cpp may include it.
THIRD_PARTY = {
    "nlohmann/": ("base",),
    "toml++/": ("base",),
    "date/": ("base",),
    "openssl/": ("base", "http"),
    "SQLiteCpp/": ("sqlite",),
    "sqlite3.h": ("sqlite",),
    "hpdf.h": ("print",),
    "qrencode.h": ("document",),
    "Poco/": ("http",),
    "sodium.h": ("access", "book", "daemon", "seal"),
    "boost/": ("calculations",),
    "CLI/": ("daemon/main.cpp",),
}

# What a bw_library may link besides our own libraries: the folders that may name it.
THIRD_PARTY_LINKS = {
    "date::date-tz": ("base",),
    "OpenSSL::Crypto": ("base", "http"),
    "OpenSSL::SSL": ("http",),
    "SQLiteCpp": ("sqlite",),
    "sqlite3": ("sqlite",),
    "${HARU_LIBRARY}": ("print",),
    "${QRENCODE_LIBRARY}": ("document",),
    "PkgConfig::SODIUM": ("access", "book", "daemon", "seal"),
    "Poco::Net": ("http",),
    "Poco::NetSSL": ("http",),
    "Poco::Foundation": ("http",),
    "Threads::Threads": tuple(MAY_INCLUDE),
}

# Headers of the operating system (the C++ library's own have neither dot nor slash).
SYSTEM = ("dirent.h", "fcntl.h", "ifaddrs.h", "malloc.h", "poll.h", "unistd.h", "arpa/inet.h",
          "net/if.h", "netinet/", "sys/")

# Made by the build, in no folder.
GENERATED = {"embedded_list.inc": ("daemon",)}
