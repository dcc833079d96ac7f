#!/usr/bin/python3
"""A second solver for the aqueous equilibrium: same equations and constants, other numerics.

usage: second_solver.py SOLVE_TOTALS [COUNT]

Draws COUNT (default 1000) random compositions with a fixed seed, solves each here with nested
scipy.optimize.brentq on the plain charge balance (ionic strength outermost, then pH, calcium,
magnesium), and compares with the program SOLVE_TOTALS: pH to 1e-9, ionic strength and free calcium
to 1e-8 relative. Only numerics are compared: the constants come from the program itself.
Exit code 1 if any differs.
"""
import json
import math
import random
import subprocess
import sys

from scipy.optimize import brentq

LN10 = math.log(10.0)
BUFFER_PKA = 5.3
CO2_ATM = 420e-6
TIGHT = dict(xtol=1e-15, rtol=4 * sys.float_info.epsilon, maxiter=300)


def load(program):
    c = json.loads(subprocess.check_output([program, "--constants"]))
    for s in c["species"]:
        if s["name"] == "HBuf":
            s["beta"] = 10.0 ** BUFFER_PKA
    return c


def log_gamma1(c, strength):
    i = min(strength, 0.5)
    r = math.sqrt(i)
    return -c["davies_a"] * LN10 * (r / (1 + r) - 0.3 * i)


class Composition:
    def __init__(self, c, total, is_open):
        self.c, self.total, self.open = c, total, is_open
        self.charge = {x["name"]: x["charge"] for x in c["components"]}
        self.metals = ("calcium", "magnesium", "sodium", "potassium")
        self.ligands = [x["name"] for x in c["components"][:12]
                        if total[x["name"]] > 0 or (is_open and x["name"] == "carbonate")]
        self.by = {n: [s for s in c["species"] if s["component"] == n]
                   for n in self.ligands + ["calcium"]}

    def weights(self, h, g1, pairs):
        """Per ligand: list of (species, molality over bare-ligand activity and metal molality)."""
        out = {}
        for n in self.ligands:
            rows = []
            for s in self.by[n]:
                if (s["na"] or s["k"]) and not pairs:
                    continue
                w = s["beta"] * h ** s["h"] * g1 ** (4 * (s["ca"] + s["mg"]) + s["na"] + s["k"]
                                                      - s["activity_z2"])
                which = 0 if s["ca"] else 1 if s["mg"] else 2 if s["na"] else 3 if s["k"] else None
                rows.append((s, w, which))
            out[n] = rows
        return out

    def scale(self, rows, n, m):
        """Activity of the bare ligand."""
        if self.open and n == "carbonate":
            co2 = next(w for s, w, _ in rows if s["name"] == "H2CO3")
            return self.c["kh"] * CO2_ATM / co2
        return self.total[n] / math.fsum(w if k is None else w * m[k] for _, w, k in rows)

    def solve_metals(self, h, g1, pairs):
        weights = self.weights(h, g1, pairs)
        hydroxide = next(s["beta"] for s in self.by["calcium"] if s["name"] == "CaOH+") * g1 ** 3 / h
        own = [1.0 + hydroxide, 1.0, 1.0, 1.0]
        reduced = []  # (total, free, [a per metal])
        for n in self.ligands:
            free, a = 0.0, [0.0] * 4
            for _, w, k in weights[n]:
                if k is None:
                    free += w
                else:
                    a[k] += w
            if self.open and n == "carbonate":
                f = self.scale(weights[n], n, None)
                for k in range(4):
                    own[k] += f * a[k]
            elif any(a):
                reduced.append((self.total[n], free, a))
        total = [self.total[x] for x in self.metals]
        order = [k for k in (range(4) if pairs else range(2)) if total[k] > 0]
        m = [0.0] * 4

        def fill(position):
            """Solves metal order[position] with all later ones solved inside."""
            if position == len(order):
                return
            k = order[position]

            def residual(ln_m):
                m[k] = math.exp(ln_m)
                fill(position + 1)
                bound = own[k]
                for t, free, a in reduced:
                    if a[k]:
                        bound += t * a[k] / (free + a[0] * m[0] + a[1] * m[1] + a[2] * m[2]
                                             + a[3] * m[3])
                return math.log(m[k] * bound / total[k])

            most = own[k] + sum(t * a[k] / free for t, free, a in reduced)
            residual(brentq(residual, math.log(total[k] / most) - 1e-9,
                            math.log(total[k] / own[k]) + 1e-9, **TIGHT))

        fill(0)
        return m, weights, hydroxide

    def amounts(self, h, g1):
        m, weights, hydroxide = self.solve_metals(h, g1, False)
        ions = [(1, h / g1), (-1, self.c["kw"] / (h * g1)), (2, m[0]), (2, m[1]),
                (1, hydroxide * m[0]), (1, self.total["sodium"]), (1, self.total["potassium"]),
                (-1, self.total["chloride"])]
        for n in self.ligands:
            f = self.scale(weights[n], n, m)
            ions += [(s["charge"], f * (w if k is None else w * m[k])) for s, w, k in weights[n]]
        return ions

    def solve(self):
        state = {}

        def excess(i):
            g1 = math.exp(log_gamma1(self.c, i))

            def charge(ln_h):
                return math.fsum(z * x for z, x in self.amounts(math.exp(ln_h), g1))

            ln_h = brentq(charge, -46.0, 9.0, **TIGHT)
            ions = self.amounts(math.exp(ln_h), g1)
            made = 0.5 * math.fsum(z * z * x for z, x in ions)
            state.update(ln_h=ln_h, i=made, g1=math.exp(log_gamma1(self.c, made)))
            return i - made

        if excess(0.5) > 0:
            i = brentq(lambda r: excess(r * r), 0.0, math.sqrt(0.5), **TIGHT) ** 2
            excess(i)
        h = math.exp(state["ln_h"])
        calcium = self.solve_metals(h, state["g1"], True)[0][0] if self.total["calcium"] else 0.0
        return -state["ln_h"] / LN10, state["i"], calcium


def main():
    program = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    c = load(program)
    names = [x["name"] for x in c["components"]]
    draw = random.Random(20240607)
    cases = []
    for _ in range(count):
        total = {n: 10.0 ** draw.uniform(-6, -0.5) if draw.random() < 0.5 else 0.0 for n in names}
        cases.append((draw.random() < 0.15, total))
    lines = "".join(" ".join([str(int(is_open))] + [repr(t[n]) for n in names]) + "\n"
                    for is_open, t in cases)
    out = subprocess.run([program, "--buffer-pka", str(BUFFER_PKA)], input=lines, text=True,
                         check=True, stdout=subprocess.PIPE).stdout.splitlines()
    if len(out) != count:
        sys.exit(f"{count} compositions in, {len(out)} answers out")
    worst = [0.0, 0.0, 0.0]
    failures = 0
    for (is_open, total), line in zip(cases, out):
        ph, strength, calcium = map(float, line.split())
        ph2, strength2, calcium2 = Composition(c, total, is_open).solve()
        error = [abs(ph - ph2), abs(strength / strength2 - 1.0),
                 abs(calcium / calcium2 - 1.0) if calcium2 > 0 else abs(calcium)]
        worst = [max(a, b) for a, b in zip(worst, error)]
        if not (error[0] < 1e-9 and error[1] < 1e-8 and error[2] < 1e-8):
            failures += 1
            print(f"differs: pH {ph} {ph2}, I {strength} {strength2}, "
                  f"Ca {calcium} {calcium2}: {total}")
    print(f"{count} compositions, {failures} differ; largest difference: pH {worst[0]:.1e}, "
          f"I {worst[1]:.1e} relative, free calcium {worst[2]:.1e} relative")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
