"""Answers questions with SciPy and NumPy: a list of {"ask": name, "given": [...]} on standard input, the answers out.

Only the libraries' own functions are used, none of Raybend's formulas.
"""
import json
import sys

import numpy
import scipy
from scipy import constants, linalg, odr, optimize, stats


def circle(points):
    x, y = numpy.array(points).T
    start = [x.mean(), y.mean(), numpy.hypot(x - x.mean(), y - y.mean()).mean()]
    fit = optimize.least_squares(lambda p: numpy.hypot(x - p[0], y - p[1]) - p[2], start, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    return list(fit.x)


def line(points):
    """Slope and intercept of the first principal direction."""
    about = numpy.array(points)
    along = linalg.svd(about - about.mean(axis=0))[2][0]
    slope = along[1] / along[0]
    return [slope, about[:, 1].mean() - slope * about[:, 0].mean()]


def straight(points):
    x, y = numpy.array(points).T
    fit = stats.linregress(x, y)
    return [fit.intercept, fit.slope, fit.intercept_stderr, fit.stderr, fit.pvalue]


def errors_in_both(points):
    """Orthogonal distance regression with a standard uncertainty on each coordinate."""
    x, y, sx, sy = numpy.array(points).T
    straight_line = odr.Model(lambda b, x: b[0] + b[1] * x)
    start = stats.linregress(x, y)
    fit = odr.ODR(
        odr.RealData(x, y, sx=sx, sy=sy), straight_line, beta0=[start.intercept, start.slope], sstol=1e-15, partol=1e-15, maxit=1000
    ).run()
    return [*fit.beta, fit.res_var]


def ratio(rows):
    """One-way analysis of variance of the subjects."""
    fit = stats.f_oneway(*rows)
    return [fit.statistic, fit.pvalue]


ANSWERS = {
    "normal quantile": lambda p: [stats.norm.ppf(p)],
    "normal probability": lambda z: [stats.norm.cdf(z)],
    "t quantile": lambda p, df: [stats.t.ppf(p, df)],
    "t probability": lambda t, df: [stats.t.cdf(t, df)],
    "F quantile": lambda p, a, b: [stats.f.ppf(p, a, b)],
    "F probability": lambda x, a, b: [stats.f.cdf(x, a, b)],
    "chi-square quantile": lambda p, df: [stats.chi2.ppf(p, df)],
    "non-central t quantile": lambda p, df, nc: [stats.nct.ppf(p, df, nc)],
    "solve": lambda rows, right: list(linalg.solve(rows, right)),
    "inverse": lambda rows: list(numpy.ravel(linalg.inv(rows))),
    "millimetres": lambda unit: [1000 * getattr(constants, unit)],
    "circle": circle,
    "line": line,
    "straight": straight,
    "errors in both": errors_in_both,
    "ratio": ratio,
}

answers = [[float(x) for x in ANSWERS[q["ask"]](*q["given"])] for q in json.load(sys.stdin)]
json.dump({"scipy": scipy.__version__, "answers": answers}, sys.stdout)
