#!/usr/bin/env python3
"""vrid beside the independent shell: a table of both answers, their difference and the bound.

    shell_compare.py PATH/TO/vrid              compares with the stored shell_answers.json
    shell_compare.py --renew [BOARD...]        computes the stored answers afresh (some 20 minutes of one core)

Bounds: linear cases 0.3 %, forces and tangents while bent 0.5 %, twist while bent 1 %, edge hold 2.5 %,
derivatives by outline values, each times its workshop step, 0.3 % of the largest of the same case.
Exit 1 beyond them.
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


def step_of(path):
    """A workshop step: 1 mm, or 0.02 of fullness."""
    return 1.0 if path.endswith("_mm") else 0.02


def kind_of(name):
    if name.endswith("flattening"):
        return "flattening"
    if " at " in name:
        return "force and tangent bent"
    return "twist while bent" if " bent " in name else "frequency" if "mode" in name else "number"


class Table:
    def __init__(self):
        self.beyond, self.title, self.worst = 0, "", {}

    def note(self, kind, miss, bound):
        """Keeps the largest difference of a kind for the summary."""
        key = self.title, kind
        self.worst[key] = max(self.worst.get(key, (0.0, bound)), (abs(miss), bound), key=lambda p: p[0])

    def summary(self):
        print("\n**Largest differences**\n\n| board | kind | largest | bound |\n|---|---|---|---|")
        for (title, kind), (miss, bound) in self.worst.items():
            print(f"| {title} | {kind} | {100 * miss:.3f} % | {'none' if bound is None else f'{100 * bound:g} %'} |")

    def head(self, title):
        self.title = title
        print(f"\n**{title}**\n\n| number | independent | one degree less | vrid | bar | difference | bound |")
        print("|---|---|---|---|---|---|---|")

    def row(self, name, ours, coarse, found, bar, bound):
        miss = (found - ours) / abs(ours)
        late = bound is not None and abs(miss) > bound
        self.beyond += late
        self.note(kind_of(name), miss, bound)
        limit = "none" if bound is None else f"{100 * bound:g} %"
        less = "" if coarse is None else f"{100 * (coarse - ours) / abs(ours):+.3f} %"
        mark = " **beyond**" if late else ""
        print(f"| {name} | {ours:.6g} | {less} | {found:.6g} | {bar:.2g} | {100 * miss:+.3f} %{mark} | {limit} |")

    def slopes(self, ours, found):
        print("| case | value | independent | vrid | difference | bound |\n|---|---|---|---|---|---|")
        for case in next(iter(ours.values())):
            for path, by in ours.items():
                largest = max(abs(v[case]) * step_of(k) for k, v in ours.items())
                miss = (found[case, path] - by[case]) * step_of(path) / largest
                self.note("slope", miss, 0.003)
                late = abs(miss) > 0.003
                self.beyond += late
                mark = " **beyond**" if late else ""
                pair = f"{by[case]:.5g} | {found[case, path]:.5g}"
                print(f"| {case} | {path} | {pair} | {100 * miss:+.3f} %{mark} | 0.3 % |")


def shell_against_solid(stored):
    print("\n**Shell against solid**: the independent answers with layers in three dimensions, at rest\n")
    stored = {name: one for name, one in stored.items() if "solid" in one}
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
            if key not in one:
                continue
            table.head(f"{name}, {title}")
            found = bench(program(vrid, "solve", board, *more))
            coarse = one.get(key + ", one degree less", {"cases": {}})
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
            table.title = f"{name}, derivatives by outline values"
            print(f"\n**{table.title}** (difference: of the largest of the case, by steps of 1 mm and 0.02)\n")
            found = program(vrid, "sense", board, "--to", "planform.*,stance.*")["derivatives"]
            table.slopes(one["slopes"], {(d["of"], d["to"]): d["value"] for d in found})
    shell_against_solid(stored)
    table.summary()
    print(f"\n{table.beyond} numbers beyond their bound")
    return table.beyond > 0


if __name__ == "__main__":
    if sys.argv[1] == "--renew":
        renew(sys.argv[2:])
    else:
        sys.exit(compare(sys.argv[1], sys.argv[2:]))
