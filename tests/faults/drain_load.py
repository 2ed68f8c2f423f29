"""Many drains posted by many clients at once, and what each was answered."""

import dataclasses
import datetime
import decimal
import http.client
import json
import queue
import threading
import time
import uuid

import served_folder

CONTAINER = "tank"
THREADS = 16
POSTS = 1000


@dataclasses.dataclass
class Post:
    id: str
    volume_ml: decimal.Decimal
    body: str
    sent: bool = False
    status: int = 0      # 0: sent or not, no answer came
    answer: dict = None

    @property
    def recorded(self):
        return self.status == 201


def _uuid7(now, random):
    """RFC 9562, section 5.7."""
    value = int(now.timestamp() * 1000) << 80 | 7 << 76 | random.getrandbits(12) << 64
    return str(uuid.UUID(int=value | 2 << 62 | random.getrandbits(62)))


def make_posts(random, count=POSTS):
    now = datetime.datetime.now(datetime.timezone.utc)
    now_text, posts = now.isoformat(timespec="milliseconds"), []
    for _ in range(count):
        identity = _uuid7(now, random)
        volume = decimal.Decimal(random.randint(1000, 9000)).scaleb(-3)
        body = json.dumps({"id": identity, "kind": "oil-drained", "occurred_at": now_text,
                           "fields": {"container": CONTAINER, "volume_ml": "VOLUME"}})
        posts.append(Post(identity, volume, body.replace('"VOLUME"', f"{volume:f}")))
    return posts


def check_with(random, digest):
    """A cylinder check that names a file."""
    now = datetime.datetime.now(datetime.timezone.utc)
    return json.dumps({"id": _uuid7(now, random), "kind": "cylinder-check",
                       "occurred_at": now.isoformat(timespec="milliseconds"),
                       "fields": {"cylinder": "n1", "gauge_pressure_bar": 150},
                       "attachments": [digest]})


class Load:
    """Posts from 16 threads until all is posted or the daemon is gone.

    `strike` is called once, `pause_s` after answer number `strike_after` and by the thread that got
    it, while the others go on. Only from then on may answers be missing. Any other mishap is a line
    in `faults`.
    """

    def __init__(self, daemon, token, posts, strike_after, pause_s, strike):
        self._daemon, self._token, self._strike = daemon, token, strike
        self._waiting = queue.SimpleQueue()
        for post in posts:
            self._waiting.put(post)
        self._lock = threading.Lock()
        self._left, self._pause_s = strike_after, pause_s
        self._struck = False
        self.faults = []

    def run(self):
        threads = [threading.Thread(target=self._post_all) for _ in range(THREADS)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        return self

    def _post_all(self):
        client = served_folder.Client(self._daemon, self._token)
        try:
            while True:
                self._post(client, self._waiting.get_nowait())
        except queue.Empty:
            pass
        except TimeoutError:
            self.faults.append("a request was neither answered nor refused")
        except (OSError, http.client.HTTPException) as fault:
            if not self._struck:
                self.faults.append(f"no answer before the daemon was struck: {fault!r}")
        finally:
            client.close()

    def _post(self, client, post):
        post.sent = True
        status, post.answer = client.call("POST", "/entries", post.body)
        post.status = status  # last: an answer that broke off is none
        if status != 201 and not (status == 503 and self._struck):
            self.faults.append(f"{post.body}: {status} {post.answer}")
        with self._lock:
            self._left -= 1
            turn = self._left == 0
        if turn:
            time.sleep(self._pause_s)
            self._struck = True
            self._strike()
