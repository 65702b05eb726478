#!/usr/bin/env python3
"""Derivatives of the linear cases by outline values: central differences of full independent solves.

    shell_slopes.py BOARD.toml [--degree 6] [--flat]

Prints JSON {path: {case: derivative}}, N/mm and N m/deg per mm (per 1 of fullness). The mesh follows
the value; core and rest shape stay where the file says. Steps of 1 mm (fullness 0.01): halving them
changes a derivative by less than 1e-4 of the largest.
"""
import argparse
import json

from shell_answers import LINEAR, shell_of

PATHS = {
    "planform.running_length_mm": 1.0, "planform.waist_width_mm": 1.0, "planform.waist_x_mm": 4.0,
    "planform.nose_width_mm": 1.0, "planform.tail_width_mm": 1.0,
    "planform.nose_length_mm": 1.0, "planform.tail_length_mm": 1.0,
    "planform.nose_fullness": 0.01, "planform.tail_fullness": 0.01,
    "stance.width_mm": 1.0, "stance.setback_mm": 1.0, "stance.foot_length_mm": 1.0,
}  # fmt: skip


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("board")
    parser.add_argument("--degree", type=int, default=6)
    parser.add_argument("--flat", action="store_true")
    parser.add_argument("--paths", type=lambda s: s.split(","), default=list(PATHS))
    parser.add_argument("--step", type=float, default=1.0, help="times the usual step")
    asked = parser.parse_args()
    data, out = shell_of(asked.board, 2).board.data, {}
    for path in asked.paths:
        table, name = path.split(".")
        value, h, sides, size = data[table][name], PATHS[path] * asked.step, [], None
        for sign in (1, -1):
            shell = shell_of(asked.board, asked.degree, [(path, value + sign * h)], asked.flat)
            assert size in (None, shell.size), "the two meshes differ"
            size = shell.size
            sides.append(shell.linear(LINEAR))
        out[path] = {case: (sides[0][case] - sides[1][case]) / (2 * h) for case in LINEAR}
    print(json.dumps(out, indent=1))


if __name__ == "__main__":
    main()
