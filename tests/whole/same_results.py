#!/usr/bin/env python3
"""Compares the numbers of two builds: same_results.py BEFORE AFTER [EXAMPLES]

BEFORE and AFTER are two programs vrid. Every examples/*/board.toml is solved, put on its edge and
differentiated by both (--json). Values must agree to 1e-9 of their size, frequencies to 1e-8, error
bars to 1e-6; a derivative also where its workshop step moves the number by less than 1e-9. A length
counts as 1 mm at least. Times and residuals are not compared. A number is known by its place in the
document: those that only AFTER gives are listed, and one that is gone is a difference. Exit status
1 with the differences if any is larger.
"""
import json
import pathlib
import subprocess
import sys

SKIPPED = {"seconds", "program", "residual", "hash"}


def least_size(node):
    """A length counts as 1 mm at least: boards balance at 0 across, and rise by 0 on the axis."""
    return 1.0 if node.get("unit") == "mm" else 0.0


def largest(rows):
    """By key, the largest of a number that is given in parts: a part of nothing is rounding."""
    sizes = {}
    for row in rows:
        for key, value in row.items():
            if isinstance(value, (int, float)):
                sizes[key] = max(sizes.get(key, 0.0), abs(value))
    return sizes


def numbers(node, path="", sizes={}):
    """Every number of a document with its path, its kind and the least size it counts as."""
    if isinstance(node, dict):
        frequency = node.get("unit") == "Hz" or "mode" in path
        least = least_size(node)
        for key, value in node.items():
            if key in SKIPPED:
                continue
            place = f"{path}.{key}"
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                kind = "bar" if key == "error" else "frequency" if frequency else "value"
                yield place, value, kind, 1.0 if key.endswith("_mm") else sizes.get(key, least)
            else:
                yield from numbers(value, place)
    elif isinstance(node, list):
        sizes = largest(node) if path.endswith(".by_layer") else {}
        for i, value in enumerate(node):
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                yield f"{path}[{i}]", value, "value", 0.0
            else:
                yield from numbers(value, f"{path}[{i}]", sizes)


def derivatives(document):
    """A derivative times its step over the number: in this all are of one size."""
    sizes = {
        name: max(abs(q["value"]), least_size(q)) or 1
        for name, q in document.get("numbers", {}).items()
    }
    for row in document.pop("derivatives", []):
        yield f"d {row['of']} / d {row['to']}", row["value"] * row["step"] / sizes[row["of"]]


def compare(before, after):
    worst = {"value": 0.0, "frequency": 0.0, "bar": 0.0, "derivative": 0.0}
    limits = {"value": 1e-9, "frequency": 1e-8, "bar": 1e-6, "derivative": 1e-9}
    failed = []

    def hold(kind, place, difference):
        worst[kind] = max(worst[kind], difference)
        if not difference <= limits[kind]:
            failed.append(f"{place}: {difference:.1e} ({kind})")

    old = dict(derivatives(before))
    new = dict(derivatives(after))
    for place, a in old.items():
        if place in new:
            hold("derivative", place, abs(a - new[place]) / max(1.0, abs(a)))
    added = [place for place in new if place not in old]
    failed += [f"{place}: gone" for place in old if place not in new]
    old = {place: rest for place, *rest in numbers(before)}
    new = {place: value for place, value, *_ in numbers(after)}
    for place, (a, kind, least) in old.items():
        if place in new:
            b = new[place]
            hold(kind, place, abs(a - b) / (max(abs(a), abs(b), least) or 1.0))
    failed += [f"{place}: gone" for place in old if place not in new]
    return worst, failed, added + [place for place in new if place not in old]


def document(program, verb, board):
    run = subprocess.run([program, verb, board, "--json"], capture_output=True, text=True)
    return json.loads(run.stdout) if run.returncode in (0, 1) else {"status": run.returncode}


def main(before, after, examples):
    status = 0
    for board in sorted(pathlib.Path(examples).glob("*/board.toml")):
        for verb in ("solve", "edge", "sense"):
            worst, failed, added = compare(*(document(p, verb, str(board)) for p in (before, after)))
            shown = "  ".join(f"{kind} {size:.0e}" for kind, size in worst.items())
            print(f"{board.parent.name:22} {verb:6} {shown}", flush=True)
            for line in failed[:10]:
                print("   ", line)
            if len(failed) > 10:
                print(f"    and {len(failed) - 10} more")
            for place in added:
                print(f"    {place}: only after")
            status = status or bool(failed)
    return int(status)


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    root = pathlib.Path(__file__).resolve().parents[2] / "examples"
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3] if len(sys.argv) > 3 else root))
