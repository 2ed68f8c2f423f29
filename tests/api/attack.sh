#!/usr/bin/env bash
# Somebody has the data folder and the program, and makes a book that fits in itself, without a word
# of what was signed before: every edit, deletion, insertion, other order and cut shows against a
# checkpoint that was copied, and a book made anew under another key against the verifier key.
#   tests/api/attack.sh BENCHWARDEN DATA_FOLDER
# Works on copies; the folder stays as it is.
set -euo pipefail
binary=$(realpath "$1")
data=$(realpath "$2")
work=$(mktemp -d -t benchwarden-attack.XXXXXX)
trap 'rm -rf "$work"' EXIT
tried=0

fail() { echo "attack.sh: $1" >&2; cat "$work/told" >&2; exit 1; }

# What a prudent inspector took away: the last note, and the key off an old page.
"$binary" export --data "$data" --to "$work/export" >/dev/null
note=$work/checkpoint.note
cp "$work/export/checkpoint.note" "$note"
key=$(cat "$work/export/verifier-key.txt")

# expected code, words expected, arguments of verify
expect() {
  local code=0
  "$binary" verify "${@:3}" >"$work/told" 2>&1 || code=$?
  [ "$code" -eq "$1" ] && grep -q -- "$2" "$work/told" ||
    fail "verify ${*:3}: code $code; expected $1 and '$2'"
}

expect 0 'it is signed by the key you gave' --data "$data" --checkpoint "$note" --key "$key"

# What the attacker does to the leaves; numbers, head and digests are made to fit.
forge() {
  rm -rf "$work/forged" "$work/data"
  cp -r "$work/export" "$work/forged"
  python3 - "$work/forged" "$1" <<'END'
import hashlib, json, pathlib, sys, uuid

folder, act = pathlib.Path(sys.argv[1]), sys.argv[2]
lines = (folder / "entries.jsonl").read_text().split("\n")[:-1]
size = int((folder / "checkpoint.note").read_text().split("\n")[1])
leaves = [json.loads(line) for line in lines]
corrected = {leaf["corrects"] for leaf in leaves}
drains = [i for i, leaf in enumerate(leaves[:size - 1]) if leaf["kind"] == "oil-drained"
          and not leaf["corrects"] and leaf["id"] not in corrected]
first, middle, last = drains[0], drains[len(drains) // 2], drains[-1]
match act.split(":"):
    case ["edit", which]:
        at = {"first": first, "middle": middle, "last": last}[which]
        leaves[at]["fields"]["volume_ml"] += 1
    case ["signer"]:
        leaves[middle]["person"] = "p9"
    case ["time"]:
        leaves[middle]["recorded_at"] = leaves[middle - 1]["recorded_at"]
        leaves[middle]["occurred_at"] = leaves[middle - 1]["recorded_at"]
    case ["delete", which]:
        del leaves[{"first": first, "middle": middle, "last": last}[which]]
    case ["insert"]:
        leaves.insert(middle, leaves[middle] | {"id": str(uuid.UUID(int=7 << 76 | 2 << 62))})
    case ["swap"]:
        leaves[first], leaves[last] = leaves[last], leaves[first]
    case ["cut"]:
        leaves = leaves[:size - 1]
    case ["nothing"]:
        pass

def root(hashes):
    if len(hashes) == 1:
        return hashes[0]
    left = 1 << (len(hashes) - 1).bit_length() - 1
    return hashlib.sha256(b"\1" + root(hashes[:left]) + root(hashes[left:])).digest()

made, hashes = [], []
for number, leaf in enumerate(leaves, 1):
    fields = leaf["fields"]
    leaf["seq"] = number
    if leaf["kind"] == "report-issued":  # or the missing checkpoint of each report would show
        fields.pop("figures_digest", None)
    if "book_root" in fields:  # or the head that a report or a backup names would show
        fields["book_size"] = min(fields["book_size"], number - 1)
        fields["book_root"] = root(hashes[:fields["book_size"]]).hex()
    made.append(json.dumps(leaf, sort_keys=True, separators=(",", ":"),
                           ensure_ascii=False).encode())
    hashes.append(hashlib.sha256(b"\0" + made[-1]).digest())

head = root(hashes).hex()
(folder / "entries.jsonl").write_bytes(b"".join(leaf + b"\n" for leaf in made))
(folder / "head.txt").write_text(f"size {len(made)}\nroot {head}\n")
for name in ("checkpoint.json", "checkpoints.jsonl", "checkpoint.note", "verifier-key.txt"):
    (folder / name).unlink()
# Of the columns of a table those that it names are held to the entries: one is enough.
for table in (folder / "tables").iterdir():
    seqs = [str(leaf["seq"]) for leaf in leaves if leaf["kind"] == table.stem]
    table.write_text("".join(line + "\r\n" for line in ["seq", *seqs]), newline="")
files = sorted(path for path in folder.rglob("*") if path.is_file() and path.name != "digests.txt")
(folder / "digests.txt").write_text("".join(
    f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.relative_to(folder)}\n"
    for path in files))
END
  "$binary" import --book "$work/forged" --data "$work/data" >"$work/told" 2>&1 ||
    fail "the forged book of '$1' cannot be made"
  expect 0 'every stored byte matches' --data "$work/data"
}

for act in edit:first edit:middle edit:last signer time delete:first delete:middle delete:last \
           insert swap; do
  forge "$act"
  expect 1 'are NOT those of this root' --data "$work/data" --checkpoint "$note" --key "$key"
  tried=$((tried + 1))
done
forge cut
expect 1 'ends before entry' --data "$work/data" --checkpoint "$note" --key "$key"
tried=$((tried + 1))

# The same with the checkpoints left in: the export tells it by itself.
forge edit:middle
for name in checkpoints.jsonl checkpoint.note verifier-key.txt; do
  cp "$work/export/$name" "$work/forged/$name"
  (cd "$work/forged" && sha256sum "$name" >>digests.txt && sort -k 2 -o digests.txt digests.txt)
done
expect 1 'are not those that were signed' --export "$work/forged"
tried=$((tried + 1))

# A book made anew, with an edit or without, that another key signs.
for act in edit:first nothing; do
  forge "$act"
  "$binary" serve --data "$work/data" --port 0 >"$work/told" 2>&1 &
  daemon=$!
  for _ in $(seq 300); do
    ! grep -q ' on http' "$work/told" || break
    sleep 0.1
  done
  kill "$daemon"
  wait "$daemon" || true
  expect 0 'signed checkpoints: 1' --data "$work/data"
  "$binary" export --data "$work/data" --to "$work/anew" >/dev/null
  expect 1 'no signature is by the key' --data "$work/data" \
    --checkpoint "$work/anew/checkpoint.note" --key "$key"
  expect 0 'no checkpoint\|signed checkpoints: 1' --export "$work/anew"
  [ "$(cat "$work/anew/verifier-key.txt")" != "$key" ] || fail "the key of $act is the old one"
  rm -rf "$work/anew"
  tried=$((tried + 1))
done
echo "the last checkpoint told all $tried books that fitted in themselves from the one it signed"
