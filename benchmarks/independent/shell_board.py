"""Board files read anew, as far as the boards here use them. SI units."""
import math
import tomllib
from pathlib import Path

import numpy as np

from shell_laminate import Ply


class Profile:
    """Smooth profile over stations: cubic Hermite, slopes of Fritsch and Butland (1984)."""

    def __init__(self, pairs):
        x, v = np.array(sorted(pairs), float).T * 1e-3
        self.x, self.v = x, v
        h, d = np.diff(x), np.diff(v) / np.diff(x)
        s = np.zeros(len(x))
        for i in range(1, len(x) - 1):
            if d[i - 1] * d[i] > 0:
                a, b = 2 * h[i] + h[i - 1], h[i] + 2 * h[i - 1]
                s[i] = (a + b) / (a / d[i - 1] + b / d[i])
        for i, j, k in ((0, 0, 1), (-1, -1, -2)):
            if len(d) == 1:
                s[i] = d[0]
                continue
            s[i] = ((2 * h[j] + h[k]) * d[j] - h[j] * d[k]) / (h[j] + h[k])
            if s[i] * d[j] <= 0:
                s[i] = 0
            elif d[j] * d[k] < 0 and abs(s[i]) > 3 * abs(d[j]):
                s[i] = 3 * d[j]
        self.s = s

    def __call__(self, x, near):
        """Value, slope, second derivative at x, of the piece that holds `near`; constant beyond."""
        i = np.clip(np.searchsorted(self.x, near) - 1, 0, len(self.x) - 2)
        h = self.x[i + 1] - self.x[i]
        t = (x - self.x[i]) / h
        d = (self.v[i + 1] - self.v[i]) / h
        bow, rise = 3 * d - 2 * self.s[i] - self.s[i + 1], self.s[i] + self.s[i + 1] - 2 * d
        out = [
            self.v[i] + h * t * (self.s[i] + t * (bow + t * rise)),
            self.s[i] + t * (2 * bow + 3 * t * rise),
            (2 * bow + 6 * t * rise) / h,
        ]
        for beyond, end in ((near < self.x[0], 0), (near > self.x[-1], -1)):
            out = [np.where(beyond, v, o) for v, o in zip((self.v[end], 0.0, 0.0), out)]
        return out


# Drawn outlines that are known as functions: ends of the board, left and right side (m). The points in
# boards/NAME.csv are from them (write_drawn), close enough for a spline through them to differ by 1e-9 m.
DRAWN = {
    "godwit": (
        (-0.713, 0.738),
        lambda x: 0.122 + 0.071 * x**2 + 0.011 * x**3,
        lambda x: -(0.127 + 0.058 * x**2 - 0.009 * x),
    )
}


def write_drawn(name, folder):
    (a, b), left, right = DRAWN[name]
    x = np.linspace(b, a, 73)
    sides = [np.stack([x, left(x)], 1), np.stack([x[::-1], right(x[::-1])], 1)]
    rows = []
    for here, there in (sides, sides[::-1]):
        across = here[-1] + (there[0] - here[-1]) * np.linspace(0, 1, 9)[:, None]
        rows += [(*p, k == 0) for k, p in enumerate(here[:-1])] + [(*p, k == 0) for k, p in enumerate(across[:-1])]
    text = "".join(f"{1e3 * px:.7f},{1e3 * py:.7f},{int(corner)}\n" for px, py, corner in rows)
    (Path(folder) / f"{name}.csv").write_text("x_mm,y_mm,corner\n" + text)


class Board:
    """What a board file says, as far as these boards use it; `changes` sets values by their path."""

    def __init__(self, path, changes=()):
        with open(path, "rb") as file:
            data = tomllib.load(file)
        for key, value in dict(changes).items():
            table, name = key.rsplit(".", 1)
            data[table][name] = value
        self.data, self.name = data, Path(path).stem
        plan, stance = data["planform"], data["stance"]
        self.plan = {k: v * 1e-3 if k.endswith("_mm") and not isinstance(v, list) else v for k, v in plan.items()}
        self.rectangle = [v * 1e-3 for v in plan["rectangle_mm"]] if "rectangle_mm" in plan else None
        self.half = self.plan.get("running_length_mm", self.rectangle[0] if self.rectangle else 0) / 2
        middle, apart = -stance.get("setback_mm", 0) * 1e-3, stance["width_mm"] * 1e-3
        self.feet = [middle + apart / 2, middle - apart / 2]  # front, rear
        self.foot = [stance["foot_length_mm"] * 1e-3, stance["foot_width_mm"] * 1e-3]
        self.core = Profile(data["core"]["thickness_mm"])
        self.rest = Profile(data["rest_shape"]["z_mm"]) if "rest_shape" in data else None
        band = [data[k]["width_mm"] * 1e-3 for k in ("edge", "sidewall") if k in data]
        self.bands = sorted(band)

    def plies(self, band):
        """Plies at the band's number: 0 inside all bands, 1 the outermost of them, and so on."""
        data, out = self.data, []
        for n, layer in enumerate(data["layer"]):
            name, core = layer.get("material"), layer.get("core", False)
            if core:
                name = data["core"]["strips"][0]["material"]
            for key, replaced in (("edge", n == 0), ("sidewall", core)):
                if key in data and replaced and band and self.bands[band - 1] <= data[key]["width_mm"] * 1e-3 + 1e-9:
                    name = data[key]["material"]
            angle = math.radians(layer.get("angle_deg", 0))
            out.append(Ply(data["material"][name], None if core else layer["thickness_mm"] * 1e-3, angle))
        return out
