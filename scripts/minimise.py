#!/usr/bin/env python3
"""Finds rest poses of cards again, independently of the program: SciPy's SLSQP on the equations that TestEquations wrote.

Usage: minimise.py FOLDER, with one JSON file per card. Prints a row of CSV per card, and to standard error how long each took.
The kinematics are written anew here: a tree of the panels, three marked points for each hinge or joint that closes a ring.
"""
import json
import os
import sys
import time

import numpy
import scipy
from scipy.optimize import minimize


def turn(origin, axis, angle):
    """The motion (rotation, shift) that turns by an angle about a line, right-handed."""
    x, y, z = axis
    cross = numpy.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    r = numpy.eye(3) + numpy.sin(angle) * cross + (1 - numpy.cos(angle)) * (cross @ cross)
    return r, origin - r @ origin


def after(f, g):
    return f[0] @ g[0], f[0] @ g[1] + f[1]


def inverse(f):
    return f[0].T, -f[0].T @ f[1]


class Card:
    def __init__(self, e):
        self.e = e
        self.k, self.rest = numpy.array(e["k"]), numpy.array(e["rest"])
        self.lines = []
        for h in e["hinges"]:
            a, b = numpy.array(h["from"] + [0.0]), numpy.array(h["to"] + [0.0])
            self.lines.append((a, (b - a) / numpy.linalg.norm(b - a)))
        self.places = []
        for j in e["joints"]:
            xx, xy, tx, yx, yy, ty = j["place"]
            flip = numpy.sign(xx * yy - xy * yx)
            self.places.append((numpy.array([[xx, xy, 0], [yx, yy, 0], [0, 0, flip]]), numpy.array([tx, ty, 0])))
        self.plan()

    def plan(self):
        """Hangs every panel on the first one; what is left over closes rings."""
        seen, queue, used = {0}, [0], set()
        self.tree, self.rings = [], []
        edges = [("joint", i, j["b"], j["a"]) for i, j in enumerate(self.e["joints"])]
        edges += [("hinge", i, h["a"], h["b"]) for i, h in enumerate(self.e["hinges"])]
        while queue:
            p = queue.pop(0)
            for edge in edges:
                kind, i, a, b = edge
                if edge in used or p not in (a, b):
                    continue
                q = b if p == a else a
                if q in seen:
                    continue
                used.add(edge)
                seen.add(q)
                queue.append(q)
                self.tree.append((kind, i, p, q, p == a))
        self.rings = [edge for edge in edges if edge not in used]

    def step(self, kind, i, x):
        return turn(*self.lines[i], x[i]) if kind == "hinge" else self.places[i]

    def loops(self, x):
        frames = {0: (numpy.eye(3), numpy.zeros(3))}
        for kind, i, p, q, along in self.tree:
            m = self.step(kind, i, x)
            frames[q] = after(frames[p], m if along else inverse(m))
        out = []
        marks = numpy.array([[0, 0, 0], [50, 0, 0], [0, 50, 0]], float)
        for kind, i, a, b in self.rings:
            f, g = frames[b], after(frames[a], self.step(kind, i, x))
            for m in marks:
                out.extend((f[0] @ m + f[1] - g[0] @ m - g[1]) / 100)
        return numpy.array(out)

    def energy(self, x):
        d = x - self.rest
        return 0.5 * d @ self.k @ d

    def slopes(self, x):
        h = 1e-6
        return numpy.array([(self.loops(x + d) - self.loops(x - d)) / (2 * h) for d in h * numpy.eye(len(x))]).T


def solve(card):
    x = numpy.clip(numpy.array(card.e["start"]), card.e["low"], card.e["high"])
    for _ in range(60):  # onto the loops
        r = card.loops(x)
        if not len(r) or numpy.abs(r).max() < 1e-12:
            break
        x = numpy.clip(x - numpy.linalg.lstsq(card.slopes(x), r, rcond=1e-8)[0], card.e["low"], card.e["high"])
    # The loops say much twice, which SLSQP does not bear: take as many combinations of them as are independent.
    constraints = []
    if len(card.loops(x)):
        u, s, _ = numpy.linalg.svd(card.slopes(x))
        pick = u[:, : int((s > 1e-6 * s[0]).sum())].T
        constraints = [{"type": "eq", "fun": lambda y: pick @ card.loops(y), "jac": lambda y: pick @ card.slopes(y)}]
    unit = card.k.diagonal().max()
    found = minimize(lambda y: card.energy(y) / unit, x, jac=lambda y: card.k @ (y - card.rest) / unit, method="SLSQP",
                     bounds=list(zip(card.e["low"], card.e["high"])), constraints=constraints, options={"maxiter": 500, "ftol": 1e-12})
    return found


def main(folder):
    print("card,source,expected_energy_mJ,expected_angles_rad2,loops")
    for name in sorted(os.listdir(folder)):
        with open(os.path.join(folder, name)) as f:
            card = Card(json.load(f))
        began = time.perf_counter()
        found = solve(card)
        took = time.perf_counter() - began
        loops = numpy.abs(card.loops(found.x)).max() if card.rings else 0.0
        label = name.removesuffix(".json")
        print(f'{label},"SLSQP of SciPy {scipy.__version__}, NumPy {numpy.__version__} (scripts/minimise.py)",'
              f"{card.energy(found.x):.9g},{found.x @ found.x:.9g},{loops:.1e}")
        print(f"{label}: {1000 * took:.1f} ms, {found.nit} steps, {found.message}", file=sys.stderr)


main(sys.argv[1])
