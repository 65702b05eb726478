#!/usr/bin/env python3
"""vrid beside the independent shell: a table of both answers, their difference and the bound.

    shell_compare.py PATH/TO/vrid              compares with the stored shell_answers.json
    shell_compare.py --renew [BOARD...]        computes the stored answers afresh (some 20 minutes of one core)

Bounds: linear cases 0.3 %, forces and tangents while bent 0.5 %, twist while bent 1 %, edge hold 2.5 %,
derivatives by outline values 0.3 % of the largest of the same case by a value of the same unit. Exit 1
beyond them.
"""
import json
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent
STORE = HERE / "shell_answers.json"
EDGE = {"angle": 45.0, "force": 1200.0, "hardness": 5.0, "share": 0.5}
BOARDS = ("ibis", "tern", "dunlin", "godwit")
WITH_EDGE, WITH_SLOPES = ("tern", "dunlin"), ("tern",)


def renew(names):
    run = lambda script, *more: json.loads(
        subprocess.run([sys.executable, HERE / script, *more], check=True, capture_output=True, text=True).stdout
    )
    stored = json.loads(STORE.read_text()) if STORE.exists() else {}
    for name in names or BOARDS:
        board = HERE / "boards" / f"{name}.toml"
        one = stored[name] = {
            "rest": run("shell_answers.py", board, "--bend", "30,60"),
            "rest, one degree less": run("shell_answers.py", board, "--bend", "30,60", "--degree", "4"),
            "flat": run("shell_answers.py", board, "--flat"),
            "solid": run("shell_answers.py", board, "--solid"),
        }
        if name in WITH_EDGE:
            for title, more in (("edge", []), ("edge in large motion", ["--bent"])):
                one[title] = run("shell_edge.py", board, *more, "--degree", "4")
                one[title + ", one degree less"] = run("shell_edge.py", board, *more, "--degree", "3")
        if name in WITH_SLOPES:
            one["slopes"] = run("shell_slopes.py", board)
        STORE.write_text(json.dumps(stored, indent=1) + "\n")


def program(vrid, *more):
    done = subprocess.run([vrid, *map(str, more), "--json"], capture_output=True, text=True)
    return json.loads(done.stdout)


def bench(answer):
    """{name as here: (value, bar)} of a document of solve."""
    out = {}
    for case, numbers in answer["cases"].items():
        for key, number in numbers.items():
            if not isinstance(number, dict) or (key == "stiffness" and " at " in case):
                continue
            name = case if key == "stiffness" else f"{case}.{key}"
            out[name] = number["value"], number["error"]
    return out


def bound_of(name):
    if name.endswith("flattening"):
        return None  # no bound is asked; shown
    return 0.01 if " bent " in name else 0.005 if " at " in name else 0.003


class Table:
    def __init__(self):
        self.beyond = 0

    def head(self, title):
        print(f"\n**{title}**\n\n| number | independent | one degree less | vrid | bar | difference | bound |")
        print("|---|---|---|---|---|---|---|")

    def row(self, name, ours, coarse, found, bar, bound):
        miss = (found - ours) / abs(ours)
        late = bound is not None and abs(miss) > bound
        self.beyond += late
        limit = "none" if bound is None else f"{100 * bound:g} %"
        less = "" if coarse is None else f"{100 * (coarse - ours) / abs(ours):+.3f} %"
        mark = " **beyond**" if late else ""
        print(f"| {name} | {ours:.6g} | {less} | {found:.6g} | {bar:.2g} | {100 * miss:+.3f} %{mark} | {limit} |")

    def slopes(self, ours, found):
        print("| case | value | independent | vrid | difference | bound |\n|---|---|---|---|---|---|")
        for case in next(iter(ours.values())):
            for path, by in ours.items():
                alike = [v[case] for k, v in ours.items() if k.endswith("_mm") == path.endswith("_mm")]
                miss = (found[case, path] - by[case]) / max(map(abs, alike))
                late = abs(miss) > 0.003
                self.beyond += late
                mark = " **beyond**" if late else ""
                pair = f"{by[case]:.5g} | {found[case, path]:.5g}"
                print(f"| {case} | {path} | {pair} | {100 * miss:+.3f} %{mark} | 0.3 % |")


def shell_against_solid(stored):
    print("\n**Shell against solid**: the independent answers with layers in three dimensions, at rest\n")
    cases = list(next(iter(stored.values()))["solid"]["cases"])
    print("| board | " + " | ".join(cases) + " |\n|---" + "|---" * len(cases) + "|")
    for name, one in stored.items():
        change = [100 * (one["solid"]["cases"][c] / one["rest"]["cases"][c] - 1) for c in cases]
        print(f"| {name} | " + " | ".join(f"{x:+.3f} %" for x in change) + " |")


def compare(vrid, names=None):
    stored, table = json.loads(STORE.read_text()), Table()
    for name in names or stored:
        board, one = HERE / "boards" / f"{name}.toml", stored[name]
        for title, key, more in (("flat", "flat", ["--flat"]), ("at rest and bent", "rest", ["--bend", "30,60"])):
            table.head(f"{name}, {title}")
            found, coarse = bench(program(vrid, "solve", board, *more)), one.get(key + ", one degree less", {"cases": {}})
            for case, ours in one[key]["cases"].items():
                table.row(case, ours, coarse["cases"].get(case), *found[case], bound_of(case))
        for title, way in (("edge", []), ("edge in large motion", ["--bent"])):
            if title not in one:
                continue
            table.head(f"{name}, {title}: 45 degrees, 1200 N, 5 N/mm3")
            more = [x for k, v in EDGE.items() for x in ("--" + k, v)]
            found = program(vrid, "edge", board, *more, "--side", "left", *way)["conditions"][0]
            for key, ours in one[title].items():
                if key != "balance":
                    coarse = one[title + ", one degree less"][key]
                    table.row(key, ours, coarse, found[key]["value"], found[key]["error"], 0.025)
        if "slopes" in one:
            print(f"\n**{name}, derivatives by outline values** (difference: of the largest of the case)\n")
            found = program(vrid, "sense", board, "--to", "planform.*,stance.*")["derivatives"]
            table.slopes(one["slopes"], {(d["of"], d["to"]): d["value"] for d in found})
    shell_against_solid(stored)
    print(f"\n{table.beyond} numbers beyond their bound")
    return table.beyond > 0


if __name__ == "__main__":
    if sys.argv[1] == "--renew":
        renew(sys.argv[2:])
    else:
        sys.exit(compare(sys.argv[1], sys.argv[2:]))
