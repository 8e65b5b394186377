"""What can be known: the class of a case before the program is asked, and the posterior by brute force.

Every cause is solved at 33 sizes (17 on sites of 100 stations and more); between two sizes what is read is interpolated linearly in the logarithm of the size. Nuisances (supply, drums,
lengths, terminals, loads) are linearised around the fault, so that with the meter they are one covariance. The class: the causes whose least whitened
distance to the truth (the fault on the site as drawn, no meter), over their size and the nuisances, is below 2; whitened with the
covariance at the truth. The posterior: at most one reading wrong or careless, as the table has it; every size with a covariance of its own, eight points
between two sizes; what is further from the readings than e^-14 of the best is left out.
"""

from __future__ import annotations

import numpy as np
from kinds import CARELESS, NONE_OF_THESE, WRONG, Cause, causes, put
from sites import Quantity, Site
from tree import ROOT3

BETWEEN, FAR = 8, 14.0
SIZES, SIZES_OF_MANY, MANY = 33, 17, 100  # so many stations are many
SHARE, FLOOR_V, FLOOR_A = 0.005, 0.03, 0.002
MOST_V, MOST_A = 60.0, 10.0  # a wrong reading lies anywhere up to there
NEAR = 2.0


def meter_variance(quantities: list[Quantity], seen: np.ndarray) -> np.ndarray:
    floor = np.array([FLOOR_A if one.kind == "current" else FLOOR_V for one in quantities])
    return ((SHARE * np.abs(seen) + floor) / ROOT3) ** 2


def log_likelihood(e: np.ndarray, covariance: np.ndarray, meters: np.ndarray, most: np.ndarray) -> np.ndarray:
    """Of many errors (many, readings), each with its covariance: normal, or one of them careless, or one of them wrong."""
    n = e.shape[1]
    q = np.linalg.inv(covariance)
    log_det = np.linalg.slogdet(2 * np.pi * covariance)[1]
    qe = np.einsum("kij,kj->ki", q, e)
    base = -0.5 * ((qe * e).sum(1) + log_det)
    fine = np.log(1 - WRONG - CARELESS)
    variance = 1 / np.einsum("kii->ki", q)
    off = qe * variance
    others = base[:, None] + 0.5 * (np.log(2 * np.pi * variance) + off**2 / variance) + (n - 1) * fine
    wide = variance + 24 * meters
    careless = others + np.log(CARELESS) - 0.5 * (np.log(2 * np.pi * wide) + off**2 / wide)
    wrong = others + np.log(WRONG / most)
    return np.logaddexp.reduce(np.concatenate([base[:, None] + n * fine, careless, wrong], axis=1), axis=1)


class Oracle:
    """Of one site."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.causes, self.prior = causes(site, with_unseen=False)
        self.many = SIZES if site.stations < MANY else SIZES_OF_MANY
        self.sizes = [self.grid(cause) for cause in self.causes]
        self.of = np.concatenate([np.full(len(sizes), number) for number, sizes in enumerate(self.sizes)])
        self.start = np.concatenate([[0], np.cumsum([len(sizes) for sizes in self.sizes])])
        self.columns: dict[Quantity, np.ndarray] = {}
        self.solve_all([None])

    def grid(self, cause: Cause) -> np.ndarray:
        if cause.size is None:
            return np.array([1.0])
        low, high = cause.size
        return low * (high / low) ** np.linspace(0, 1, self.many)

    def faulted(self, flat: np.ndarray):
        """Circuits with the fault of each flat index (cause and size)."""
        c = self.site.circuits(len(flat))
        for column, index in enumerate(flat):
            number = self.of[index]
            put(self.site, c, column, self.causes[number], self.sizes[number][index - self.start[number]])
        return c

    def solve_all(self, states: list, quantities: list[Quantity] | None = None) -> None:
        """Columns of predictions: every cause at every size. In standby every voltage and every run's current."""
        site = self.site
        for state in states:
            if quantities is None:
                wanted = [Quantity("voltage", node) for node in range(site.tree.nodes)] + [Quantity("current", 0)]
                wanted += [Quantity("current", run.nodes[0]) for run in site.runs]
            else:
                wanted = [one for one in quantities if one.state == state]
            parts = {one: [] for one in wanted}
            for begin in range(0, len(self.of), 6000):
                c = self.faulted(np.arange(begin, min(begin + 6000, len(self.of))))
                if state is not None:
                    site.ring(c, state)
                s = site.tree.solve(c)
                for one in wanted:
                    parts[one].append(np.where(s.bad, np.nan, one.of(s)).astype(np.float32))
            self.columns |= {one: np.concatenate(part) for one, part in parts.items()}

    def said(self, quantities: list[Quantity]) -> np.ndarray:
        whole = [Quantity("voltage", node, one.state) for one in quantities if one.kind == "drop" for node in (one.start, one.node)]
        missing = [one for one in [*quantities, *whole] if one.kind != "drop" and one not in self.columns]
        if missing:
            self.solve_all(sorted({one.state for one in missing}), missing)
        return np.stack([self.column(one) for one in quantities], axis=1)

    def column(self, one: Quantity) -> np.ndarray:
        if one.kind == "drop":
            return self.column(Quantity("voltage", one.start, one.state)) - self.column(Quantity("voltage", one.node, one.state))
        return self.columns[one].astype(float)

    def covariance(self, c, quantities: list[Quantity], meters: np.ndarray) -> np.ndarray:
        """Of the tolerances and the meter, of each circuit."""
        states = sorted({one.state for one in quantities}, key=lambda state: -1 if state is None else state)
        rows = None
        for state in states:
            places = [k for k, one in enumerate(quantities) if one.state == state]
            part = self.site.rows(c, [quantities[k] for k in places], state)
            if rows is None:
                rows = np.zeros((*part.shape[:2], len(quantities)))
            rows[:, :, places] = part
        return np.einsum("fki,fkj->kij", rows, rows) + np.diag(meters)

    def distances(self, quantities: list[Quantity], target: np.ndarray, covariance: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Least whitened distance of every cause to `target`, and of the segment that begins at each size."""
        white = np.linalg.inv(np.linalg.cholesky(covariance))
        e = (self.said(quantities) - target) @ white.T
        point = (e**2).sum(1)
        a, b = e[:-1], e[1:]
        d = b - a
        with np.errstate(divide="ignore", invalid="ignore"):
            t = np.clip(-(a * d).sum(1) / (d * d).sum(1), 0.0, 1.0)
        segment = ((a + np.nan_to_num(t)[:, None] * d) ** 2).sum(1)
        segment[self.of[1:] != self.of[:-1]] = np.inf
        segment = np.append(segment, np.inf)
        least = np.full(len(self.causes), np.inf)
        np.fmin.at(least, self.of, np.fmin(point, segment))
        return np.sqrt(least), segment

    def number_of_classes(self) -> int:
        """What could be told apart at most: causes at the middle of their sizes that stay apart by 2 if everything is read in standby (greedy)."""
        site = self.site
        quantities = [Quantity("voltage", node) for node in range(site.tree.nodes)] + [Quantity("current", 0)]
        quantities += [Quantity("current", run.nodes[0]) for run in site.runs]
        said = self.said(quantities)
        plain = self.covariance(site.circuits(1), quantities, meter_variance(quantities, said[np.isfinite(said).all(1)].max(0)))[0]
        taken, classes = np.zeros(len(self.causes), dtype=bool), 0
        for number in range(len(self.causes)):
            middle = said[(self.start[number] + self.start[number + 1]) // 2]
            if taken[number] or np.isnan(middle).any():
                continue
            taken |= self.distances(quantities, middle, plain)[0] < NEAR
            taken[number] = True
            classes += 1
        return classes

    def alike(self, quantities: list[Quantity], truth: np.ndarray, c, seen: np.ndarray) -> set[int]:
        """The class of the case: causes that are within 2 of the truth."""
        meters = meter_variance(quantities, seen)
        least, _ = self.distances(quantities, truth, self.covariance(c, quantities, meters)[0])
        return set(np.flatnonzero(least < NEAR).tolist())

    def posterior(self, quantities: list[Quantity], seen: np.ndarray) -> tuple[np.ndarray, int]:
        """Of every cause given that it is one of the list; and the flat index of the likeliest size of the likeliest cause."""
        meters = meter_variance(quantities, seen)
        most = np.array([MOST_A if one.kind == "current" else MOST_V for one in quantities])
        said = self.said(quantities)
        good = ~np.isnan(said).any(1)
        # First look, with the covariance of the site without a fault: at the sizes and at the nearest points between them.
        plain = self.covariance(self.site.circuits(1), quantities, meters)
        wide = 2.0 * plain
        first = np.full(len(said), -np.inf)
        first[good] = log_likelihood(seen - said[good], np.broadcast_to(wide, (good.sum(), *wide.shape[1:])), meters, most)
        middle = 0.5 * (said[:-1] + said[1:])
        joined = good[:-1] & good[1:] & (self.of[1:] == self.of[:-1])
        between = np.full(len(said) - 1, -np.inf)
        between[joined] = log_likelihood(seen - middle[joined], np.broadcast_to(wide, (joined.sum(), *wide.shape[1:])), meters, most)
        # Between two sizes the error can pass through nothing: allow for it by the way that is passed.
        white = np.linalg.inv(np.linalg.cholesky(wide[0]))
        passed = (((said[1:] - said[:-1]) @ white.T) ** 2).sum(1)
        between[joined] += 0.125 * np.minimum(passed[joined], 100.0)
        best = max(first.max(), between.max())
        keep_segments = np.flatnonzero(between > best - FAR)
        single = np.flatnonzero((np.diff(self.start)[self.of] == 1) & (first > best - FAR))
        points = [said[single]]
        owner, nodes, weight = [self.of[single]], [single], [np.ones(len(single))]
        t = (np.arange(BETWEEN) + 0.5) / BETWEEN
        if len(keep_segments):
            a, b = said[keep_segments], said[keep_segments + 1]
            points.append((a[:, None] + t[:, None] * (b - a)[:, None]).reshape(-1, said.shape[1]))
            owner.append(np.repeat(self.of[keep_segments], BETWEEN))
            nodes.append((keep_segments[:, None] + (t > 0.5).astype(int)).ravel())
            weight.append(np.full(len(keep_segments) * BETWEEN, 1.0 / (BETWEEN * (self.many - 1))))
        points, owner, nodes, weight = np.concatenate(points), np.concatenate(owner), np.concatenate(nodes), np.concatenate(weight)
        used, inverse = np.unique(nodes, return_inverse=True)
        covariance = np.concatenate(
            [self.covariance(self.faulted(used[k : k + 400]), quantities, meters) for k in range(0, len(used), 400)]
        )
        log = log_likelihood(seen - points, covariance[inverse], meters, most)
        joint = log + np.log(weight) + np.log(self.prior[owner])
        posterior = np.zeros(len(self.causes))
        top = joint.max()
        np.add.at(posterior, owner, np.exp(joint - top))
        posterior /= posterior.sum()
        of_best = np.flatnonzero(owner == posterior.argmax())
        return posterior, int(nodes[of_best[log[of_best].argmax()]])
