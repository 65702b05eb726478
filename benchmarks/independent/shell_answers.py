#!/usr/bin/env python3
"""Answers of the independent shell for one board, as JSON on standard output.

    shell_answers.py BOARD.toml [--degree 5] [--flat] [--solid] [--bend 30,60] [--cases a,b] [--set path=value]

Stiffness in N/mm and N m/deg, frequencies in Hz, force in N, flattening in mm. Cases: README.md beside the board file
format's bench cases. --solid integrates the layers in three dimensions, metric included, instead of
A, B, D on bending strains after Koiter and Sanders: how much the shell theory itself leaves out.
"""
import argparse
import json
import sys
import time

from shell_board import Board
from shell_mesh import board_mesh
from shell_solver import Shell

LINEAR = ["centre-flex", "nose-flex", "tail-flex", "nose-twist", "tail-twist", "stance-twist", "full-twist"]
BENT = {"centre-flex": ["stance-twist", "full-twist"], "nose-flex": ["nose-twist"], "tail-flex": ["tail-twist"]}


def arguments():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("board")
    parser.add_argument("--degree", type=int, default=5)
    parser.add_argument("--flat", action="store_true")
    parser.add_argument("--solid", action="store_true")
    parser.add_argument("--bend", type=lambda s: [float(x) * 1e-3 for x in s.split(",")], default=[])
    parser.add_argument("--cases", type=lambda s: s.split(","), default=LINEAR)
    parser.add_argument("--set", action="append", default=[])
    parser.add_argument("--verbose", action="store_true")
    return parser.parse_args()


def shell_of(path, degree, changes=(), flat=False, solid=False):
    board = Board(path, changes)
    return Shell(board, board_mesh(board, degree, longest=0.12, grade=(0.006,), rim=(0.004,)), flat, solid)


def main():
    asked = arguments()
    start = time.time()
    changes = [(p, float(v)) for p, v in (one.split("=") for one in asked.set)]
    shell = shell_of(asked.board, asked.degree, changes, asked.flat, asked.solid)
    out = {"board": shell.board.name, "degree": asked.degree, "unknowns": shell.size}
    out |= {"shape": "flat" if asked.flat else "rest", "theory": "solid" if asked.solid else "shell"}
    out["cases"] = shell.linear(asked.cases)
    if asked.cases == LINEAR:
        out["cases"] |= {f"free-modes.mode {k + 1}": f for k, f in enumerate(shell.modes())}
    say = (lambda text: print(text, file=sys.stderr)) if asked.verbose else (lambda text: None)
    for case in [c for c in BENT if c in asked.cases and asked.bend]:
        twists = [t for t in BENT[case] if t in asked.cases]
        for answer in shell.bend(case, asked.bend, twists, say):
            mm = f"{answer['travel'] * 1e3:g} mm"
            for key in ("force", "tangent", "flattening"):
                out["cases"][f"{case} at {mm}.{key}"] = answer[key]
            for twist in twists:
                out["cases"][f"{twist} bent {mm}"] = answer[twist]
    out["seconds"] = round(time.time() - start, 1)
    print(json.dumps(out, indent=1))


if __name__ == "__main__":
    main()
