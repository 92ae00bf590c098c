"""Peer of the calibration: one weighted fit by scipy.optimize.least_squares, each trial simulated by scipy.signal.lsim.
Prints the shortest time in ms and the parameters found: logarithms of the factors, then the offsets."""
import json
import sys
import time

import numpy as np
from scipy.optimize import least_squares
from scipy.signal import lsim

case = json.load(sys.stdin)
array = lambda value: np.array(value, dtype=float)


class Part:
    """A network whose conductances and capacities a factor scales; the air change scales some of the conductances besides."""

    def __init__(self, told):
        self.capacity = array(told["capacity"])
        self.fixed = array(told["conductance"])
        self.byAir = array(told["conductanceByAir"])
        self.drive = array(told["temperatureDrive"])
        self.driveByAir = array(told["temperatureDriveByAir"])
        self.source = array(told["sourceDrive"])
        self.stores = np.flatnonzero(self.capacity > 0)
        self.joints = np.flatnonzero(self.capacity == 0)

    def system(self, loss, mass, change, nodes):
        k = loss * (self.fixed + change * self.byAir)
        b = loss * (self.drive + change * self.driveByAir) + self.source
        s, j = self.stores, self.joints
        follow = -np.linalg.solve(k[np.ix_(j, j)], k[np.ix_(j, s)]) if len(j) else np.zeros((0, len(s)))
        direct = np.linalg.solve(k[np.ix_(j, j)], b[j]) if len(j) else np.zeros((0, b.shape[1]))
        heat = mass * self.capacity[s]
        a = -(k[np.ix_(s, s)] + k[np.ix_(s, j)] @ follow) / heat[:, None]
        push = (b[s] - k[np.ix_(s, j)] @ direct) / heat[:, None]
        c = np.zeros((len(nodes), len(s)))
        d = np.zeros((len(nodes), b.shape[1]))
        for row, node in enumerate(nodes):
            if self.capacity[node] > 0:
                c[row, list(s).index(node)] = 1
            else:
                c[row] = follow[list(j).index(node)]
                d[row] = direct[list(j).index(node)]
        return a, push, c, d

    def run(self, factors, inputs, t, nodes, start):
        a, b, c, d = self.system(*factors, nodes)
        day = int(round(86400 / (t[1] - t[0])))
        settled = -np.linalg.solve(a, b @ inputs[:day].mean(axis=0)) + start
        return lsim((a, b, c, d), inputs, t, settled)[1]


place, box = Part(case["place"]), Part(case["box"])
shaded, sunny = array(case["shaded"]).T, array(case["sunny"]).T
t = np.arange(len(shaded)) * case["stepS"]
readings = [(array(one["atS"]), array(one["tempC"]), one["weight"]) for one in case["readings"]]
precision = 1 / array(case["priorSds"])
still = np.zeros(len(t))


def residuals(p):
    loss, mass, sun, change, box_loss, box_mass = np.exp(p[:6])
    place_start, box_start, *baselines = p[6:]
    inputs = shaded + sun * (sunny - shaded)
    around = place.run((loss, mass, change), inputs, t, case["placeNodes"], place_start)
    beside = np.column_stack([around[:, 0], around[:, 1], still])
    inside = box.run((box_loss, box_mass, 0), beside, t, [case["boxNode"]], box_start)
    courses = [around[:, 0], inside.reshape(len(t))]
    rows = [
        (np.interp(at, t, course + baseline) - read) * weight
        for (at, read, weight), course, baseline in zip(readings, courses, baselines)
    ]
    return np.concatenate([*rows, p * precision])


best = 1e9
for _ in range(3):
    start = time.perf_counter()
    fit = least_squares(residuals, np.zeros(len(precision)), bounds=(case["low"], case["high"]), ftol=case["tolerance"])
    best = min(best, time.perf_counter() - start)
print(best * 1000, *fit.x)
