#!/usr/bin/env python3
"""Compares the numbers of two builds: same_results.py BEFORE AFTER [EXAMPLES]

BEFORE and AFTER are two programs vrid. Every examples/*/board.toml is solved, put on its edge and
differentiated by both (--json). Values must agree to 1e-9 of their size, frequencies to 1e-8, error
bars to 1e-6; a derivative also where its workshop step moves the number by less than 1e-9. Times
and residuals are not compared. Exit status 1 with the worst differences if any is larger.
"""
import json
import pathlib
import subprocess
import sys

SKIPPED = {"seconds", "program", "residual", "hash"}


def numbers(node, path=""):
    """Every number of a document with its path, its kind and what it may differ by in absolute terms."""
    if isinstance(node, dict):
        frequency = node.get("unit") == "Hz" or "mode" in path
        for key, value in node.items():
            if key in SKIPPED:
                continue
            place = f"{path}.{key}"
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                kind = "bar" if key == "error" else "frequency" if frequency else "value"
                yield place, value, kind
            else:
                yield from numbers(value, place)
    elif isinstance(node, list):
        for i, value in enumerate(node):
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                yield f"{path}[{i}]", value, "value"
            else:
                yield from numbers(value, f"{path}[{i}]")


def derivatives(document):
    """A derivative times its step over the number: in this all are of one size."""
    sizes = {name: abs(q["value"]) or 1 for name, q in document.get("numbers", {}).items()}
    for row in document.pop("derivatives", []):
        yield f"d {row['of']} / d {row['to']}", row["value"] * row["step"] / sizes[row["of"]], row


def compare(before, after):
    worst = {"value": 0.0, "frequency": 0.0, "bar": 0.0, "derivative": 0.0}
    limits = {"value": 1e-9, "frequency": 1e-8, "bar": 1e-6, "derivative": 1e-9}
    failed = []

    def hold(kind, place, difference):
        worst[kind] = max(worst[kind], difference)
        if not difference <= limits[kind]:
            failed.append(f"{place}: {difference:.1e} ({kind})")

    for (place, a, _), (_, b, _) in zip(list(derivatives(before)), list(derivatives(after))):
        hold("derivative", place, abs(a - b) / max(1.0, abs(a)))
    old, new = list(numbers(before)), list(numbers(after))
    if [place for place, _, _ in old] != [place for place, _, _ in new]:
        return worst, ["the documents hold different numbers"]
    for (place, a, kind), (_, b, _) in zip(old, new):
        hold(kind, place, abs(a - b) / (max(abs(a), abs(b)) or 1.0))
    return worst, failed


def document(program, verb, board):
    run = subprocess.run([program, verb, board, "--json"], capture_output=True, text=True)
    return json.loads(run.stdout) if run.returncode in (0, 1) else {"status": run.returncode}


def main(before, after, examples):
    status = 0
    for board in sorted(pathlib.Path(examples).glob("*/board.toml")):
        for verb in ("solve", "edge", "sense"):
            worst, failed = compare(*(document(p, verb, str(board)) for p in (before, after)))
            shown = "  ".join(f"{kind} {size:.0e}" for kind, size in worst.items())
            print(f"{board.parent.name:22} {verb:6} {shown}", flush=True)
            for line in failed[:10]:
                print("   ", line)
            status = status or bool(failed)
    return int(status)


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    root = pathlib.Path(__file__).resolve().parents[2] / "examples"
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3] if len(sys.argv) > 3 else root))
