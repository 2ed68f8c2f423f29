#!/usr/bin/env bash
# Whether `verify` finds what was done to a book behind the program's back, and names the first
# bad entry:
#   tests/api/tamper.sh BENCHWARDEN DATA_FOLDER
# Works on copies; the folder stays as it is.
set -euo pipefail
binary=$(realpath "$1")
data=$(realpath "$2")
work=$(mktemp -d -t benchwarden-tamper.XXXXXX)
trap 'rm -rf "$work"' EXIT

size=$(sqlite3 "$data/book.db" 'SELECT count(*) FROM entry')
[ "$size" -gt 100 ] || { echo "tamper.sh: only $size entries in the book" >&2; exit 1; }
middle=$((size / 2))
tried=0

# The triggers are put back, so that nothing but the entries is different.
triggers=$(sqlite3 "$data/book.db" "SELECT sql || ';' FROM sqlite_schema WHERE type = 'trigger'")
drops=$(sqlite3 "$data/book.db" \
  "SELECT 'DROP TRIGGER ' || name || ';' FROM sqlite_schema WHERE type = 'trigger'")

copy() {
  rm -rf "$work/data"
  cp -r "$data" "$work/data"
}

# what, first bad entry ("": none is named); the copy is as it is to be looked at
expect() {
  local code=0 told first
  told=$("$binary" verify --data "$work/data" 2>&1) || code=$?
  echo "$told" >"$work/told"
  first=$(sed -n 's/^entry \([0-9]*\): .*/\1/p' <<<"$told" | head -n 1)
  if [ "$code" -ne 1 ] || [ "$first" != "$2" ]; then
    echo "tamper.sh: $1: code $code, first bad entry '$first'; expected code 1, entry $2" >&2
    echo "$told" >&2
    exit 1
  fi
  tried=$((tried + 1))
}

# what, first bad entry, SQL
tamper() {
  copy
  sqlite3 "$work/data/book.db" "BEGIN; $drops $3; $triggers COMMIT;"
  expect "$1" "$2"
}

# The byte in the middle of the leaf becomes another one.
change_byte="UPDATE entry SET leaf = CAST(substr(leaf, 1, length(leaf) / 2 - 1) ||
  CASE substr(leaf, length(leaf) / 2, 1) WHEN x'37' THEN '8' ELSE '7' END ||
  substr(leaf, length(leaf) / 2 + 1) AS BLOB) WHERE seq ="
forged="SELECT kind, occurred_at_ms, corrects, subjects_hash, leaf_hash, interior, root, leaf"
columns="id, kind, occurred_at_ms, corrects, subjects_hash, leaf_hash, interior, root, leaf"
shift_up() {
  echo "UPDATE entry SET seq = seq + 1000000 WHERE seq >= $1;
    UPDATE entry SET seq = seq - 999999 WHERE seq > 1000000;
    UPDATE mention SET seq = seq + 1000000 WHERE seq >= $1;
    UPDATE mention SET seq = seq - 999999 WHERE seq > 1000000;"
}

copy
"$binary" verify --data "$work/data" >/dev/null ||
  { echo "tamper.sh: verify finds faults in the book as it was" >&2; exit 1; }
sqlite3 "$work/data/book.db" "BEGIN; $drops $triggers COMMIT;"
"$binary" verify --data "$work/data" >/dev/null ||
  { echo "tamper.sh: verify finds faults where only triggers were made anew" >&2; exit 1; }

for seq in 1 2 $((middle - 1)) "$middle" $((size - 1)) "$size"; do
  tamper "one byte of entry $seq changed" "$seq" "$change_byte $seq"
done
for seq in 1 "$middle" "$size"; do
  tamper "entry $seq deleted" "$seq" "DELETE FROM entry WHERE seq = $seq"
  tamper "entry $seq deleted with what mentions it" "$seq" \
    "DELETE FROM mention WHERE seq = $seq; DELETE FROM entry WHERE seq = $seq"
done
for seq in 1 "$middle" "$size"; do
  tamper "an entry inserted as no. $seq" "$seq" "$(shift_up "$seq")
    INSERT INTO entry (seq, $columns) SELECT $seq, randomblob(16), * FROM
      ($forged FROM entry WHERE seq = $((seq + 1)))"
done
next=$((size + 1))
tamper "an entry put behind the last" "$next" "INSERT INTO entry (seq, $columns)
  SELECT $next, randomblob(16), kind, occurred_at_ms, corrects, subjects_hash, leaf_hash, interior,
    root, CAST(replace(CAST(leaf AS TEXT), '\"seq\":$size}', '\"seq\":$next}') AS BLOB)
  FROM entry WHERE seq = $size"
tamper "the last five cut off" $((size - 4)) \
  "DELETE FROM mention WHERE seq > $size - 5; DELETE FROM entry WHERE seq > $size - 5"
tamper "the last one cut off" "$size" \
  "DELETE FROM mention WHERE seq = $size; DELETE FROM entry WHERE seq = $size"

# An attachment: a byte of it changed names no entry, as several may name it; a missing one does.
named="SELECT min(seq) FROM entry WHERE kind = 'cylinder-check' AND
  json_array_length(CAST(leaf AS TEXT), '\$.attachments') > 0"
seq=$(sqlite3 "$data/book.db" "$named")
[ -n "$seq" ] || { echo "tamper.sh: no cylinder check with an attachment" >&2; exit 1; }
digest=$(sqlite3 "$data/book.db" \
  "SELECT json_extract(CAST(leaf AS TEXT), '\$.attachments[0]') FROM entry WHERE seq = $seq")
tamper "one byte of attachment $digest changed" "" "UPDATE attachment SET
  bytes = CAST(substr(bytes, 1, 20) || x'07' || substr(bytes, 22) AS BLOB)
  WHERE digest = x'$digest'"
grep -q "attachment $digest does not match" "$work/told" ||
  { echo "tamper.sh: the changed attachment is not named" >&2; cat "$work/told" >&2; exit 1; }
tamper "the attachment of entry $seq deleted" "$seq" \
  "DELETE FROM attachment WHERE digest = x'$digest'"

# The bytes of the file itself, past SQLite.
for seq in "$middle" "$size"; do
  copy
  id=$(sqlite3 "$work/data/book.db" \
    "SELECT json_extract(CAST(leaf AS TEXT), '\$.id') FROM entry WHERE seq = $seq")
  other=$(tr 0123456789abcdef 123456789abcdef0 <<<"${id:0:1}")${id:1}
  LC_ALL=C sed -i "s/\"id\":\"$id\"/\"id\":\"$other\"/" "$work/data/book.db"
  expect "one byte of entry $seq changed in the file" "$seq"
done
echo "verify found all $tried changes to a book of $size entries and named the first bad entry"
