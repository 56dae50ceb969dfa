"""The standard workload of standard.hpp in NumPy, as a notebook would have it: baseline.py PASSES CHUNK GENERATOR.
Prints processor seconds with histograms, and with exact quantiles, for moments and extremes of all
outputs and the misses of the limits.
GENERATOR is a bit generator of numpy.random, or "default" for default_rng()."""
import sys
import time

import numpy as np

lead, pitch, minor, nut, tan_flank = 5e-3, 5e-3, 19e-3, 40e-3, 0.26794919243112
face_radius, length, wanted, safe_pressure = 15e-3, 0.485, 8000.0, 12e6
pi = np.pi
limits = 8  # the outputs from here on


def outputs(dice, n):
    torque, yields, modulus = dice.normal(40, 2, n), dice.normal(400e6, 20e6, n), dice.normal(207e9, 4e9, n)
    friction, face_friction = dice.lognormal(-2.0, 0.15, n), dice.lognormal(-2.3, 0.15, n)
    model, diameter, drag = dice.lognormal(0, 0.05, n), dice.uniform(-1e-4, 1e-4, n), dice.uniform(0.5, 1.5, n)
    d2, d3 = 22e-3 + diameter, minor + diameter
    tan_l = lead / (pi * d2)
    m = friction * np.sqrt(1 + tan_flank**2 / (1 + tan_l * tan_l))
    up = d2 / 2 * (tan_l + m) / (1 - m * tan_l)
    force = model * (torque - drag) / (up + face_friction * face_radius)
    thread_torque = force * up / model
    axial, torsion = 4 * force / (pi * d3 * d3), 16 * thread_torque / (pi * d3 * d3 * d3)
    combined = np.sqrt(axial * axial + 3 * torsion * torsion)
    bearing = force * pitch / (pi * d2 * (pitch / 2) * nut)
    s2 = (length / (d3 / 4)) ** 2
    euler, johnson = pi * pi * modulus / s2, yields - yields * yields * s2 / (4 * pi * pi * modulus)
    buckling = pi * d3 * d3 / 4 * np.where(s2 * yields > 2 * pi * pi * modulus, euler, johnson)
    return (force, thread_torque, force * lead / (2 * pi * torque), axial, torsion, combined, bearing, buckling,
            force / wanted, yields / combined, buckling / force, safe_pressure / bearing)


def run(dice, passes, chunk, last):
    ranges = [(y.min() - np.ptp(y) / 2, y.max() + np.ptp(y) / 2) for y in outputs(dice, 4096)]
    began = time.process_time()
    for _ in range(0, passes, chunk):
        for k, (y, (low, high)) in enumerate(zip(outputs(dice, chunk), ranges)):
            y.mean(), y.std(), y.min(), y.max()
            if k >= limits:
                np.count_nonzero(y < 1)
            last(y, low, high)
    return time.process_time() - began


passes, chunk, generator = int(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
dice = np.random.default_rng(1) if generator == "default" else np.random.Generator(getattr(np.random, generator)(1))
print(run(dice, passes, chunk, lambda y, low, high: np.histogram(y, 1000, (low, high))),
      run(dice, passes, chunk, lambda y, low, high: np.quantile(y, (0.01, 0.05, 0.5, 0.95, 0.99))))
