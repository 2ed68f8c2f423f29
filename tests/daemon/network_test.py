"""The daemon in a network, from outside: HTTPS, its certificates, and the page for tablets.

Environment: BENCHWARDEN names the program.
"""

import json
import os
import pathlib
import re
import shutil
import signal
import socket
import subprocess
import tempfile
import unittest

PROGRAM = str(pathlib.Path(os.environ["BENCHWARDEN"]).resolve())
PATIENCE_S = 60
DONE, FAULTS, USAGE, BAD_DATA, UNAVAILABLE, REFUSED = range(6)
WITHOUT_NETWORK = ("unshare", "--map-root-user", "--net")
SECURE = 'https = true\nname = "shop.local"\n'


def run(*words):
    return subprocess.run(list(map(str, words)), text=True, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, timeout=PATIENCE_S, check=False)


class Network(unittest.TestCase):
    def setUp(self):
        holder = tempfile.TemporaryDirectory(prefix="benchwarden-network.")
        self.addCleanup(holder.cleanup)
        self.place = pathlib.Path(holder.name)
        self.data = self.place / "data"
        self.config = self.place / "config.toml"
        self.authority = self.place / "authority.crt"

    def words(self, settings, ports="port = 0\nset_up_port = 0\n"):
        self.config.write_text(ports + settings)
        return [PROGRAM, "serve", "--config", str(self.config), "--data", str(self.data)]

    def serve(self, settings=SECURE, until="first manager", within=()):
        """Starts the daemon; what it said until these words, and its two ports."""
        daemon = subprocess.Popen([*within, *self.words(settings)], stdout=subprocess.PIPE,
                                  stderr=subprocess.STDOUT, text=True)
        self.addCleanup(daemon.stdout.close)
        self.addCleanup(daemon.wait)
        self.addCleanup(daemon.terminate)
        said = ""
        while until not in said:
            line = daemon.stdout.readline()
            self.assertTrue(line, said)
            said += line
        self.app = int(re.search(r" on https://[^:]+:(\d+)\n", said)[1])
        self.set_up = int(re.search(r"^Set up a tablet at http://[^:]+:(\d+)", said, re.M)[1])
        return daemon, said

    def stop(self, daemon):
        daemon.send_signal(signal.SIGTERM)
        self.assertEqual(daemon.wait(PATIENCE_S), DONE)

    def expect_refused(self, code, settings, *says):
        done = run(*self.words(settings))
        self.assertEqual(done.returncode, code, done.stdout)
        for words in says:
            self.assertIn(words, done.stdout)

    def curl(self, address, *more):
        return run("curl", "--silent", "--show-error", "--noproxy", "*", *more, address)

    def fetch_authority(self):
        done = self.curl(f"http://127.0.0.1:{self.set_up}/benchwarden.crt", "--fail",
                         "--output", self.authority)
        self.assertEqual(done.returncode, 0, done.stdout)
        return run("openssl", "x509", "-in", self.authority, "-noout", "-fingerprint",
                   "-sha256").stdout

    def health(self, host, *more):
        return self.curl(f"https://{host}:{self.app}/api/v1/health", "--cacert", self.authority,
                         *more)


class Secure(Network):
    def test_it_answers_by_name_and_by_address_to_who_trusts_it(self):
        _, said = self.serve()
        self.assertIn(self.fetch_authority().split("=")[1].strip(), said)
        here = ("--resolve", f"shop.local:{self.app}:127.0.0.1")
        for host, more in (("shop.local", here), ("127.0.0.1", ()), ("localhost", ())):
            self.assertIn("book_size", self.health(host, *more).stdout, host)
        other = self.health("other.local", "--resolve", f"other.local:{self.app}:127.0.0.1")
        self.assertIn("SSL", other.stdout)
        untrusted = self.curl(f"https://127.0.0.1:{self.app}/api/v1/health")
        self.assertIn("SSL certificate problem", untrusted.stdout)
        plain = self.curl(f"http://127.0.0.1:{self.app}/api/v1/health", "--include")
        self.assertIn("400 Bad Request", plain.stdout)
        self.assertIn("write https:// before it", plain.stdout)
        self.assertNotIn("book_size", plain.stdout)

    def test_the_session_cookie_is_for_https_only(self):
        self.serve()
        self.fetch_authority()
        done = self.curl(f"https://localhost:{self.app}/api/v1/session", "--cacert",
                         self.authority, "--include", "--request", "DELETE")
        self.assertIn("401", done.stdout)
        added = run(PROGRAM, "person", "add", "--name", "Office", "--role", "manager", "--pin",
                    "274913", "--data", self.data)
        self.assertEqual(added.returncode, DONE, added.stdout)
        done = self.curl(f"https://localhost:{self.app}/api/v1/session", "--cacert",
                         self.authority, "--include", "--json", '{"person":"p1","pin":"274913"}')
        self.assertRegex(done.stdout, r"(?i)set-cookie: __Host-benchwarden_session=.*; Secure")

    def test_the_page_for_tablets_has_the_certificate_and_nothing_of_the_api(self):
        _, said = self.serve()
        page = self.curl(f"http://127.0.0.1:{self.set_up}/").stdout
        fingerprint = re.search(r"(?:[0-9A-F]{2}:){31}[0-9A-F]{2}", said)[0]
        self.assertEqual("".join(re.findall(r"<span>([^<]+)</span>", page)).replace(":", ""),
                         fingerprint.replace(":", ""))
        for address in (f"https://shop.local:{self.app}/", f"https://127.0.0.1:{self.app}/"):
            self.assertIn(f'href="{address}"', page)
        self.assertNotIn("{", page)
        self.assertNotIn("<script", page)
        for path in ("api/v1/health", "api/v1/people", "app.js"):
            missing = self.curl(f"http://127.0.0.1:{self.set_up}/{path}").stdout
            self.assertIn('"status":404', missing)
        head = self.curl(f"http://127.0.0.1:{self.set_up}/benchwarden.crt", "--head").stdout
        self.assertIn("application/x-x509-ca-cert", head)
        self.assertIn("attachment", head)

    def test_on_every_address_it_answers_under_those_of_now(self):
        present = run("hostname", "-I").stdout.split()
        private = [one for one in present
                   if re.match(r"10\.|192\.168\.|172\.(1[6-9]|2\d|3[01])\.", one)]
        _, said = self.serve('address = "0.0.0.0"\nname = "shop.local"\n')
        self.fetch_authority()
        self.assertEqual(re.findall(r"also on https://([\d.]+):", said), sorted(private))
        for address in ("127.0.0.1", "localhost", *private):
            self.assertIn("book_size", self.health(address).stdout, address)

    @unittest.skipIf(run(*WITHOUT_NETWORK, "true").returncode, "no network of its own to be had")
    def test_a_machine_without_a_network_says_that_its_name_alone_leads_to_it(self):
        says = "until it has one, tablets reach it by the name only"
        daemon, said = self.serve('address = "0.0.0.0"\nname = "shop.local"\n',
                                  within=WITHOUT_NETWORK)
        self.assertIn(says, said)
        self.stop(daemon)
        self.assertNotIn(says, self.serve()[1])

    def test_the_authority_stays_and_its_key_cannot_vouch_for_others(self):
        daemon, said = self.serve()
        self.fetch_authority()
        self.stop(daemon)
        again, repeated = self.serve()
        self.assertEqual(re.search(r"fingerprint .*", said)[0],
                         re.search(r"fingerprint .*", repeated)[0])
        self.stop(again)
        for host, taken in (("shop.local", True), ("bank.example", False)):
            self.assertEqual(self.verdict(host).returncode == 0, taken, host)
        self.assertIn("permitted subtree violation", self.verdict("bank.example").stdout)

    def verdict(self, host):
        """What others say of a certificate for `host`, made with the key of the authority."""
        stolen = self.data / "tls/authority.pem"
        forged = self.place / "forged.crt"
        request = self.place / "forged.csr"
        names = self.place / "names.txt"
        names.write_text(f"subjectAltName=DNS:{host}\nextendedKeyUsage=serverAuth\n")
        run("openssl", "req", "-new", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1",
            "-nodes", "-keyout", self.place / "forged.key", "-subj", "/CN=x", "-out", request)
        made = run("openssl", "x509", "-req", "-in", request, "-CA", stolen, "-CAkey", stolen,
                   "-extfile", names, "-days", "1", "-out", forged)
        self.assertEqual(made.returncode, 0, made.stdout)
        return run("openssl", "verify", "-CAfile", self.authority, "-purpose", "sslserver", forged)

    def test_files_that_were_lost_or_changed_stop_the_start(self):
        self.stop(self.serve()[0])
        for name in ("authority.pem", "server.pem"):
            file = self.data / "tls" / name
            self.assertEqual(file.stat().st_mode & 0o777, 0o600)
            whole = file.read_text()
            file.write_text(whole[:300])
            self.expect_refused(BAD_DATA, SECURE, f"tls/{name}: ")
            file.unlink()
            file.mkdir()
            self.expect_refused(BAD_DATA, SECURE, f"tls/{name}: ")
            file.rmdir()
            file.write_text(whole)
        self.expect_refused(BAD_DATA, 'https = true\nname = "barn.local"\n', 'name = "shop.local"')
        (self.data / "tls/authority.pem").unlink()
        self.expect_refused(BAD_DATA, SECURE, "put it back from a copy")

    def ask(self, path, body, *more):
        """The JSON that a POST is answered with."""
        done = self.curl(f"https://127.0.0.1:{self.app}/api/v1/{path}", "--cacert", self.authority,
                         "--fail", "--json", json.dumps(body), *more)
        self.assertEqual(done.returncode, 0, done.stdout)
        return json.loads(done.stdout)

    def pair_a_tablet(self):
        self.fetch_authority()
        token = self.ask("session", {"person": "p1", "pin": "274913"})["token"]
        code = self.ask("devices/pairing", {"name": "Bench"}, "--oauth2-bearer", token)["code"]
        self.ask("devices", {"code": code})

    def test_a_new_authority_is_told_of_where_tablets_knew_another(self):
        told, fingerprint = "has to be set up again. Its SHA-256 fingerprint: ", "has to trust: "
        run(PROGRAM, "person", "add", "--name", "Office", "--role", "manager", "--pin", "274913",
            "--data", self.data)
        for is_paired in (False, True):
            daemon, said = self.serve(until=fingerprint)
            if is_paired:
                self.pair_a_tablet()
            self.stop(daemon)
            self.assertNotIn(told, said + daemon.stdout.read())
            if not is_paired:
                shutil.rmtree(self.data / "tls")
        first = said.split(fingerprint)[1].strip()
        shutil.rmtree(self.data / "tls")
        daemon, said = self.serve(until=told)
        another = said.split(told)[1].strip()
        self.assertIn(fingerprint + another, said)
        self.assertNotEqual(another, first)
        self.assertIn(str(self.data / "tls"), said)
        self.stop(daemon)
        daemon, said = self.serve(until=fingerprint)
        self.stop(daemon)
        self.assertNotIn(told, said + daemon.stdout.read())

    def test_that_the_authority_ends_is_said_from_a_year_before(self):
        self.stop(self.serve()[0])
        for days, is_said in (("360", True), ("370", False)):
            files = self.place / "authority.crt", self.place / "authority.key"
            made = run("openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt",
                       "ec_paramgen_curve:prime256v1", "-nodes", "-days", days, "-subj",
                       "/CN=shop.local", "-out", files[0], "-keyout", files[1])
            self.assertEqual(made.returncode, 0, made.stdout)
            (self.data / "tls/authority.pem").write_text("".join(
                file.read_text() for file in files))
            (self.data / "tls/server.pem").unlink()
            daemon, said = self.serve()
            self.stop(daemon)
            self.assertEqual("the certificate authority of this workshop ends at 20" in said,
                             is_said, said)

    def test_a_taken_port_of_the_page_is_named(self):
        with socket.socket() as taken:
            taken.bind(("127.0.0.1", 0))
            taken.listen()
            port = taken.getsockname()[1]
            self.config.write_text(f"port = 0\nset_up_port = {port}\n" + SECURE)
            done = run(PROGRAM, "serve", "--config", self.config, "--data", self.data)
        self.assertEqual(done.returncode, UNAVAILABLE, done.stdout)
        self.assertIn(f"127.0.0.1:{port}", done.stdout)


class Given(Network):
    def make(self, host, *more):
        files = self.place / "given.crt", self.place / "given.key"
        made = run("openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt",
                   "ec_paramgen_curve:prime256v1", "-nodes", "-days", "30", "-subj", f"/CN={host}",
                   "-addext", f"subjectAltName=DNS:{host}", *more, "-out", files[0], "-keyout",
                   files[1])
        self.assertEqual(made.returncode, 0, made.stdout)
        return f'certificate = "{files[0]}"\ncertificate_key = "{files[1]}"\nhttps = true\n'

    def test_a_certificate_of_the_workshops_own_is_served_and_none_is_made(self):
        settings = (self.make("book.works.example") + 'name = "book.works.example"\n' +
                    'host_names = ["book.example"]\n')
        _, said = self.serve(settings)
        self.assertNotIn("fingerprint", said)
        self.authority = self.place / "given.crt"
        done = self.health("book.works.example", "--resolve",
                           f"book.works.example:{self.app}:127.0.0.1")
        self.assertIn("book_size", done.stdout)
        self.assertFalse((self.data / "tls").exists())
        page = self.curl(f"http://127.0.0.1:{self.set_up}/").stdout
        self.assertIn("No certificate has to be installed", page)
        gone = self.curl(f"http://127.0.0.1:{self.set_up}/benchwarden.crt").stdout
        self.assertIn('"status":404', gone)

    def test_one_that_does_not_fit_is_refused(self):
        settings = self.make("book.works.example")
        self.expect_refused(BAD_DATA, settings + 'name = "shop.local"\n', "given.crt",
                            "'shop.local' but for book.works.example")
        (self.place / "given.key").write_text("rubbish")
        self.expect_refused(BAD_DATA, settings + 'name = "book.works.example"\n', "given.key",
                            "no private key in PEM")
        (self.place / "given.key").unlink()
        self.expect_refused(BAD_DATA, settings + 'name = "book.works.example"\n', "given.key: ")


class Settings(Network):
    def test_settings_that_do_not_fit_together_are_refused_before_anything_is_made(self):
        for settings, said in (
                ('address = "0.0.0.0"\nhttps = false\n', "'https' is false"),
                (SECURE.replace("shop.local", "Shop"), "'name' is 'Shop'; accepted: a host name"),
                (SECURE + 'certificate = "a"\n', "accepted: both or neither"),
                ('certificate = "a"\ncertificate_key = "b"\n', "accepted: https = true"),
                ('address = "203.0.113.5"\nname = "shop.local"\n', "a certificate of your own"),
                ('name = "shop.local"\n', "'name' is 'shop.local', but only this machine"),
                ("set_up_port = 8500\n", "'set_up_port' is 8500, but only this machine"),
                (SECURE + 'host_names = ["book.example"]\n',
                 "'host_names' is 'book.example', but our own authority"),
                ('host_names = ["not a host!"]\n', "'host_names' has 'not a host!'"),
                (SECURE + "set_up_port = 65536\n", "0 to 65535")):
            self.config.write_text(settings)
            done = run(PROGRAM, "serve", "--config", self.config, "--data", self.data)
            self.assertEqual(done.returncode, BAD_DATA, done.stdout)
            self.assertIn(said, done.stdout)
        self.config.write_text(SECURE + "port = 9000\nset_up_port = 9000\n")
        done = run(PROGRAM, "serve", "--config", self.config, "--data", self.data)
        self.assertEqual((done.returncode, "'set_up_port' is 9000" in done.stdout),
                         (BAD_DATA, True), done.stdout)
        self.assertFalse(self.data.exists())

    def test_this_machine_alone_is_served_by_plain_http_as_ever(self):
        daemon = subprocess.Popen(self.words("", "port = 0\n"), stdout=subprocess.PIPE, text=True)
        self.addCleanup(daemon.stdout.close)
        self.addCleanup(daemon.wait)
        self.addCleanup(daemon.terminate)
        self.assertRegex(daemon.stdout.readline(), r" on http://127\.0\.0\.1:\d+\n")
        self.assertFalse((self.data / "tls").exists())


if __name__ == "__main__":
    unittest.main()
