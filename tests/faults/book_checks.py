"""What must hold between what clients were answered and what the book holds.

Each check gives a list of faults, one line each, so that it can be tried on bad samples.
"""

import collections


def answered_faults(posts, entries):
    """Every answered entry is in the book once, as it was answered and sent; no other twice."""
    by_id = collections.defaultdict(list)
    for entry in entries:
        by_id[entry["id"]].append(entry)
    faults = [f"{identity} is in the book {len(found)} times"
              for identity, found in by_id.items() if len(found) > 1]
    for post in posts:
        found = by_id.get(post.id)
        if not found:
            if post.recorded:
                faults.append(f"{post.id} was answered as no. {post.answer['seq']} and is lost")
            continue
        if not post.sent:
            faults.append(f"{post.id} is in the book and was never sent")
        faults += entry_faults(post, found[0])
    return faults


def entry_faults(post, entry):
    """One entry of the book against what was sent and answered."""
    faults = []
    if entry["fields"]["volume_ml"] != post.volume_ml:
        faults.append(f"{post.id}: {entry['fields']['volume_ml']} mL, sent {post.volume_ml} mL")
    if post.recorded:
        faults += [f"{post.id}: {name} is {entry[name]}, answered {post.answer[name]}"
                   for name in ("id", "seq", "recorded_at", "leaf_hash")
                   if entry[name] != post.answer[name]]
    return faults


def sequence_faults(entries):
    """Numbers go up by one from the first entry to the last."""
    numbers = [entry["seq"] for entry in entries]
    return [f"no. {number} follows no. {before}"
            for before, number in zip(numbers, numbers[1:]) if number != before + 1]


def untold(posts, entries):
    """Those in the book whose client was not told so."""
    ids = {entry["id"] for entry in entries}
    return [post for post in posts if not post.recorded and post.id in ids]


def sum_ml(posts, entries):
    """What those of `posts` that are in the book add up to."""
    ids = {post.id for post in posts}
    return sum(entry["fields"]["volume_ml"] for entry in entries if entry["id"] in ids)
