//! Properties of the flow that hold for every tree, and a second method.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_circuit::flow::{
    BuiltTree, Loads, Margin, NoSolution, NonexistenceCertificate, Options, Outcome, SegmentEnds, Source,
    Tree, Workspace, branch_currents, loading_margin, sensitivities, solve, transfer_resistances,
};
use proptest::prelude::*;

/// A network owned by the test.
#[derive(Clone, Debug)]
struct Net {
    parent: Vec<u32>,
    r: Vec<f64>,
    power: Vec<f64>,
    current: Vec<f64>,
    conductance: Vec<f64>,
    drop: Vec<f64>,
    source: Source,
}

impl Net {
    fn tree(&self) -> Tree {
        Tree::new(self.parent.clone(), self.r.clone()).unwrap()
    }

    fn loads(&self) -> Loads<'_> {
        Loads {
            power_w: &self.power,
            current_a: &self.current,
            conductance_s: &self.conductance,
            drop_v: &self.drop,
        }
    }

    fn scaled(&self, factor: f64) -> Self {
        let times = |values: &[f64]| values.iter().map(|v| v * factor).collect();
        Self {
            power: times(&self.power),
            current: times(&self.current),
            conductance: times(&self.conductance),
            ..self.clone()
        }
    }

    fn outcome(&self, workspace: &mut Workspace) -> Outcome {
        solve(&self.tree(), &self.source, &self.loads(), workspace, &Options::default()).unwrap()
    }

    /// Voltages of the greatest solution; panics if there is none.
    fn voltages(&self) -> Vec<f64> {
        let mut workspace = Workspace::new();
        match self.outcome(&mut workspace) {
            Outcome::Solved(found) => {
                assert!(found.enclosure.width_v <= 1e-9);
                workspace.voltages_v().to_vec()
            }
            other => panic!("{other:?}"),
        }
    }

    fn margin(&self) -> Margin {
        loading_margin(&self.tree(), &self.source, &self.loads())
    }

    fn limited(&self) -> (f64, f64) {
        match self.margin() {
            Margin::Limited { low, high, .. } => (low, high.load_factor),
            other => panic!("{other:?} for {self:?}"),
        }
    }
}

/// Trees of 2 to 40 nodes with some zero-ohm segments and every kind of load; always some power.
fn nets() -> impl Strategy<Value = Net> {
    (2_usize..40).prop_flat_map(|n| {
        let parents = (1..n).map(|k| 0..k as u32).collect::<Vec<_>>();
        let r = prop::collection::vec(prop_oneof![1 => Just(0.0), 6 => 0.05_f64..4.0], n);
        let load = prop::collection::vec((0_u8..6, 0.1_f64..1.0), n);
        (parents, r, load, 0.01_f64..2.0, 12.0_f64..60.0).prop_map(
            move |(parents, r, load, r0, voltage_v)| {
                let mut net = Net {
                    parent: std::iter::once(0).chain(parents).collect(),
                    r,
                    power: vec![0.0; n],
                    current: vec![0.0; n],
                    conductance: vec![0.0; n],
                    drop: vec![0.0; n],
                    source: Source { voltage_v, resistance_ohm: r0 },
                };
                for (k, (kind, value)) in load.into_iter().enumerate() {
                    match kind {
                        0 => net.current[k] = 0.05 * value,
                        1 => net.conductance[k] = 0.002 * value,
                        2 => {
                            net.power[k] = value;
                            net.drop[k] = 1.4;
                        }
                        3 => {}
                        _ => net.power[k] = value,
                    }
                }
                net.power[n - 1] = 1.0;
                net
            },
        )
    })
}

/// The same net loaded to the given part of its margin.
fn loaded(part: f64) -> impl Strategy<Value = Net> {
    nets().prop_map(move |net| {
        let (low, _) = net.limited();
        net.scaled(low * part)
    })
}

/// Newton on the dense nodal equations of the tree with zero-ohm segments merged, by Gaussian elimination: a
/// second method that shares nothing with the first but the loads.
#[allow(clippy::needless_range_loop, reason = "elimination reads best with indices")]
fn dense_newton(net: &Net) -> Vec<f64> {
    let n = net.parent.len();
    let mut merged: Vec<usize> = (0..n).collect();
    for k in 1..n {
        if net.r[k] == 0.0 {
            merged[k] = merged[net.parent[k] as usize];
        }
    }
    let v0 = net.source.voltage_v;
    let mut v = vec![v0; n];
    for _ in 0..60 {
        let mut a = vec![vec![0.0; n + 1]; n];
        a[0][0] += 1.0 / net.source.resistance_ohm;
        a[0][n] += (v0 - v[0]) / net.source.resistance_ohm;
        for k in 1..n {
            let (i, j) = (merged[k], merged[net.parent[k] as usize]);
            if i != j {
                let g = 1.0 / net.r[k];
                a[i][i] += g;
                a[j][j] += g;
                a[i][j] -= g;
                a[j][i] -= g;
                a[i][n] -= g * (v[i] - v[j]);
                a[j][n] -= g * (v[j] - v[i]);
            }
        }
        for k in 0..n {
            let i = merged[k];
            let x = v[i] - net.drop[k];
            a[i][i] += net.conductance[k] - net.power[k] / (x * x);
            a[i][n] -= net.conductance[k] * v[i] + net.current[k] + net.power[k] / x;
        }
        for k in 0..n {
            if merged[k] != k {
                a[k][k] = 1.0;
            }
        }
        for col in 0..n {
            let best = (col..n).max_by(|&x, &y| a[x][col].abs().total_cmp(&a[y][col].abs())).unwrap();
            a.swap(col, best);
            for row in col + 1..n {
                let m = a[row][col] / a[col][col];
                if m != 0.0 {
                    for c in col..=n {
                        a[row][c] -= m * a[col][c];
                    }
                }
            }
        }
        let mut dv = vec![0.0; n];
        for row in (0..n).rev() {
            let sum: f64 = (row + 1..n).map(|c| a[row][c] * dv[c]).sum();
            dv[row] = (a[row][n] - sum) / a[row][row];
        }
        for k in 0..n {
            v[k] += dv[k];
        }
        if dv.iter().all(|d| d.abs() < 1e-12) {
            break;
        }
    }
    (0..n).map(|k| v[merged[k]]).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(96) })]

    #[test]
    fn a_second_method_agrees(net in prop_oneof![loaded(0.3), loaded(0.9), loaded(0.999)]) {
        for (a, b) in net.voltages().iter().zip(dense_newton(&net)) {
            prop_assert!((a - b).abs() < 2e-9, "{} {}", a, b);
        }
    }

    #[test]
    fn current_and_power_balance(net in loaded(0.8)) {
        let v = net.voltages();
        let tree = net.tree();
        let currents = branch_currents(&tree, &net.source, &net.loads(), &v);
        let v0 = net.source.voltage_v;
        let total = currents.branch_a[0];
        prop_assert!((v0 - v[0] - net.source.resistance_ohm * total).abs() < 2e-9);
        for k in 1..v.len() {
            let drop = v[net.parent[k] as usize] - v[k];
            prop_assert!((drop - net.r[k] * currents.branch_a[k]).abs() < 2e-9);
        }
        let used: f64 = (0..v.len()).map(|k| v[k] * net.loads().current_at(k, v[k], 1.0)).sum();
        let lost: f64 = currents.loss_w.iter().sum();
        prop_assert!((v0 * total - used - lost).abs() < 1e-8 * v0 * total.max(1.0));
    }

    #[test]
    fn more_power_or_current_lowers_every_voltage(
        net in loaded(0.6),
        at in any::<prop::sample::Index>(),
        add in 0.01_f64..0.2,
    ) {
        let before = net.voltages();
        let k = at.index(before.len());
        for by_power in [true, false] {
            let mut more = net.clone();
            if by_power { more.power[k] += add } else { more.current[k] += add / 50.0 }
            let mut workspace = Workspace::new();
            if let Outcome::Solved(_) = more.outcome(&mut workspace) {
                for (a, b) in workspace.voltages_v().iter().zip(&before) {
                    prop_assert!(*a <= b + 1e-9);
                }
            }
        }
    }

    #[test]
    fn splitting_segments_and_reordering_rows_change_nothing(net in loaded(0.7), seed in any::<u64>()) {
        let expected = net.voltages();
        let n = expected.len();
        let mut segments = Vec::new();
        for k in 1..n {
            let up = net.parent[k] as usize;
            // Every third segment is cut in two at a node of its own.
            if k % 3 == 0 {
                let middle = n + k;
                segments.push(SegmentEnds { from: up, to: middle, resistance_ohm: 0.25 * net.r[k] });
                segments.push(SegmentEnds { from: k, to: middle, resistance_ohm: 0.75 * net.r[k] });
            } else if k % 2 == 0 {
                segments.push(SegmentEnds { from: k, to: up, resistance_ohm: net.r[k] });
            } else {
                segments.push(SegmentEnds { from: up, to: k, resistance_ohm: net.r[k] });
            }
        }
        let mut names: Vec<usize> = (0..n).chain((1..n).filter(|k| k % 3 == 0).map(|k| n + k)).collect();
        let mut state = seed | 1;
        let mut next = |below: usize| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) as usize % below
        };
        for last in (1..segments.len()).rev() { segments.swap(last, next(last + 1)); }
        for last in (1..names.len()).rev() { names.swap(last, next(last + 1)); }
        let place = |name: usize| names.iter().position(|&x| x == name).unwrap();
        for s in &mut segments { s.from = place(s.from); s.to = place(s.to); }
        let built = BuiltTree::new(names.len(), place(0), &segments).unwrap();
        let pick = |values: &[f64]| -> Vec<f64> {
            built.node_at.iter().map(|&p| values.get(names[p as usize]).copied().unwrap_or(0.0)).collect()
        };
        let (power, current, conductance, drop) =
            (pick(&net.power), pick(&net.current), pick(&net.conductance), pick(&net.drop));
        let loads = Loads { power_w: &power, current_a: &current, conductance_s: &conductance, drop_v: &drop };
        let mut workspace = Workspace::new();
        let outcome = solve(&built.tree, &net.source, &loads, &mut workspace, &Options::default()).unwrap();
        prop_assert!(matches!(outcome, Outcome::Solved(_)));
        for (k, expected) in expected.iter().enumerate() {
            let found = workspace.voltages_v()[built.position_of[place(k)] as usize];
            prop_assert!((found - expected).abs() < 1.5e-9);
        }
    }

    #[test]
    fn either_side_of_the_margin_is_decided(net in nets(), exponent in 3_i32..7) {
        let (low, high) = net.limited();
        prop_assert!(high > low && high - low <= 1e-6 * low);
        let margin = 0.5 * (low + high);
        let apart = 10.0_f64.powi(-exponent);
        let mut workspace = Workspace::new();
        let below = net.scaled(margin * (1.0 - apart)).outcome(&mut workspace);
        prop_assert!(matches!(below, Outcome::Solved(_)), "{:?}", below);
        let above = net.scaled(margin * (1.0 + apart)).outcome(&mut workspace);
        match above {
            Outcome::NoSolution(NoSolution::Certified { certificate, .. }) => {
                prop_assert!(certificate.load_factor <= 1.0 && certificate.ratio > 1.0);
            }
            other => prop_assert!(false, "{:?}", other),
        }
    }

    #[test]
    fn no_certificate_where_there_is_a_solution(
        net in loaded(0.9),
        weights in prop::collection::vec(0.0_f64..1.0, 40),
    ) {
        let tree = net.tree();
        let c = weights[..tree.len()].to_vec();
        prop_assert!(NonexistenceCertificate::new(&tree, &net.source, &net.loads(), 1.0, c).is_none());
    }

    #[test]
    fn derivatives_agree_with_differences(
        net in loaded(0.6),
        at in any::<prop::sample::Index>(),
        with in any::<prop::sample::Index>(),
    ) {
        let v = net.voltages();
        let (target, k) = (at.index(v.len()), with.index(v.len()));
        let found = sensitivities(&net.tree(), &net.source, &net.loads(), &v, target).unwrap();
        // Central differences of the second method, which is solved to rounding.
        let difference = |change: &dyn Fn(&mut Net, f64), h: f64| {
            let (mut more, mut less) = (net.clone(), net.clone());
            change(&mut more, h);
            change(&mut less, -h);
            (dense_newton(&more)[target] - dense_newton(&less)[target]) / (2.0 * h)
        };
        let close = |a: f64, b: f64| (a - b).abs() <= 2e-5 * b.abs() + 1e-6;
        if net.power[k] > 0.0 {
            let d = difference(&|net, h| net.power[k] += h, 1e-5 * net.power[k]);
            prop_assert!(close(found.per_power_v_per_w[k], d), "{} {}", found.per_power_v_per_w[k], d);
        }
        let d = difference(&|net, h| net.current[k] += h, 1e-5);
        prop_assert!(close(found.per_current_v_per_a[k], d), "{} {}", found.per_current_v_per_a[k], d);
        if k > 0 && net.r[k] > 0.0 {
            let d = difference(&|net, h| net.r[k] += h, 1e-5 * net.r[k]);
            prop_assert!(close(found.per_resistance_v_per_ohm[k], d), "{} {}", found.per_resistance_v_per_ohm[k], d);
        }
        let d = difference(&|net, h| net.source.resistance_ohm += h, 1e-5 * net.source.resistance_ohm);
        prop_assert!(close(found.per_resistance_v_per_ohm[0], d));
        let d = difference(&|net, h| net.source.voltage_v += h, 1e-4);
        prop_assert!(close(found.per_supply_voltage, d));
    }

    #[test]
    fn shared_resistance_is_the_answer_to_one_current(net in nets(), at in any::<prop::sample::Index>()) {
        let tree = net.tree();
        let target = at.index(tree.len());
        let mut shared = Vec::new();
        transfer_resistances(&tree, &net.source, target, &mut shared);
        let mut current = vec![0.0; tree.len()];
        current[target] = 0.01;
        let loads = Loads { current_a: &current, ..Loads::default() };
        let mut workspace = Workspace::new();
        let outcome = solve(&tree, &net.source, &loads, &mut workspace, &Options::default()).unwrap();
        prop_assert!(matches!(outcome, Outcome::Solved(_)));
        for (v, r) in workspace.voltages_v().iter().zip(&shared) {
            prop_assert!((net.source.voltage_v - v - 0.01 * r).abs() < 1e-9);
        }
    }

    #[test]
    fn a_warm_start_from_lighter_loads_gives_the_same(net in loaded(0.95)) {
        let start = net.scaled(0.8).voltages();
        let expected = net.voltages();
        let mut workspace = Workspace::new();
        let options = Options { start_v: Some(&start), ..Options::default() };
        let outcome = solve(&net.tree(), &net.source, &net.loads(), &mut workspace, &options).unwrap();
        prop_assert!(matches!(outcome, Outcome::Solved(_)));
        for (a, b) in workspace.voltages_v().iter().zip(&expected) {
            prop_assert!((a - b).abs() <= 1e-9);
        }
    }
}

/// With resistive loads raising one load can *raise* the voltage of another node: a higher conductance
/// lowers every voltage, but a *larger resistance* draws less; and where a constant-power load hangs
/// beside a resistive one, a longer segment to the resistive load relieves the shared segment.
#[test]
fn a_longer_segment_can_raise_another_voltage() {
    let net = |r: f64| Net {
        parent: vec![0, 0, 0],
        r: vec![0.0, r, 1.0],
        power: vec![0.0, 0.0, 5.0],
        current: vec![0.0; 3],
        conductance: vec![0.0, 0.1, 0.0],
        drop: vec![0.0; 3],
        source: Source { voltage_v: 48.0, resistance_ohm: 2.0 },
    };
    let (short, long) = (net(1.0).voltages(), net(5.0).voltages());
    assert!(long[1] < short[1]);
    assert!(long[2] > short[2] + 0.5, "{short:?} {long:?}");
    assert!(dense_newton(&net(5.0))[2] > dense_newton(&net(1.0))[2]);
}

#[test]
fn extreme_figures_end_in_an_outcome() {
    let extremes = [0.0, 1e-300, 1e-9, 1.0, 1e12, 1e300, f64::MAX];
    let mut outcomes = 0;
    for voltage_v in [1e-300, 1e-3, 48.0, 1e300] {
        for r in extremes {
            for p in extremes {
                for i in [0.0, 1e-300, 1.0, 1e300] {
                    let tree = Tree::new(vec![0, 0, 1], vec![0.0, r, 1.0]).unwrap();
                    let (power, current) = ([0.0, p, 1.0], [0.0, i, 0.0]);
                    let loads = Loads { current_a: &current, ..Loads::of_power(&power) };
                    let source = Source { voltage_v, resistance_ohm: r };
                    let mut workspace = Workspace::new();
                    let _ = solve(&tree, &source, &loads, &mut workspace, &Options::default()).unwrap();
                    let _ =
                        solve(&tree, &source, &Loads::of_power(&power), &mut workspace, &Options::default())
                            .unwrap();
                    outcomes += 1;
                }
            }
        }
    }
    assert_eq!(outcomes, 4 * 7 * 7 * 4);
}

#[test]
fn large_trees_are_solved() {
    // A chain of 100,000, a star of 100,000, and a random tree of 1,000,000 nodes.
    let chain: Vec<u32> = (0..100_000_u32).map(|k| k.saturating_sub(1)).collect();
    let star = vec![0_u32; 100_000];
    let mut state = 1_u64;
    let random: Vec<u32> = (0..1_000_000_u64)
        .map(|k| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) % k.max(1)) as u32
        })
        .collect();
    for (parent, r, power, r0) in
        [(chain, 1e-5, 4e-4, 0.1), (star, 1.0, 1e-3, 0.1), (random, 1e-3, 2e-4, 0.05)]
    {
        let n = parent.len();
        let tree = Tree::new(parent, vec![r; n]).unwrap();
        let power = vec![power; n];
        let source = Source { voltage_v: 48.0, resistance_ohm: r0 };
        let mut workspace = Workspace::new();
        let loads = Loads::of_power(&power);
        let outcome = solve(&tree, &source, &loads, &mut workspace, &Options::default()).unwrap();
        let Outcome::Solved(found) = outcome else { panic!("{n} nodes: {outcome:?}") };
        assert!(found.enclosure.width_v <= 1e-9, "{found:?}");
        assert!(matches!(loading_margin(&tree, &source, &loads), Margin::Limited { .. }));
    }
}

/// A start that is no upper bound, or no voltage at all, does not change the answer.
#[test]
fn a_bad_start_changes_nothing() {
    let tree = Tree::new(vec![0, 0, 1], vec![0.0, 4.0, 5.0]).unwrap();
    let source = Source { voltage_v: 48.0, resistance_ohm: 0.5 };
    let (power, current) = ([0.0, 10.0, 10.0], [0.0, 0.1, 0.0]);
    for loads in [Loads::of_power(&power), Loads { current_a: &current, ..Loads::of_power(&power) }] {
        let mut workspace = Workspace::new();
        solve(&tree, &source, &loads, &mut workspace, &Options::default()).unwrap();
        let expected = workspace.voltages_v().to_vec();
        for start in [[0.0; 3], [5.0, 1.0, 3.0], [-7.0; 3], [f64::NAN; 3], [f64::INFINITY; 3], [1e300; 3]] {
            let options = Options { start_v: Some(&start), ..Options::default() };
            let outcome = solve(&tree, &source, &loads, &mut workspace, &options).unwrap();
            assert!(matches!(outcome, Outcome::Solved(_)), "{start:?} {outcome:?}");
            for (a, b) in workspace.voltages_v().iter().zip(&expected) {
                assert!((a - b).abs() <= 1e-9);
            }
        }
        let options = Options { start_v: Some(&[48.0]), ..Options::default() };
        assert!(solve(&tree, &source, &loads, &mut workspace, &options).is_err());
    }
}

/// Within a millionth of the limit, also where thousands of roundings add up.
#[test]
fn larger_trees_close_to_collapse() {
    let mut state = 3_u64;
    let mut next = |below: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    };
    for chain in [false, true] {
        let n = 3_000_u64;
        let parent = (0..n).map(|k| if chain { k.max(1) - 1 } else { next(k.max(1)) } as u32).collect();
        let r = (0..n).map(|_| 1e-3 * (1 + next(100)) as f64).collect();
        let power: Vec<f64> = (0..n).map(|_| 1e-3 * (1 + next(100)) as f64).collect();
        let tree = Tree::new(parent, r).unwrap();
        let source = Source { voltage_v: 48.0, resistance_ohm: 0.1 };
        let margin = loading_margin(&tree, &source, &Loads::of_power(&power)).value().unwrap();
        let mut workspace = Workspace::new();
        for (apart, feasible) in [(-1.01e-6, true), (1.01e-6, false)] {
            let power: Vec<f64> = power.iter().map(|p| p * margin * (1.0 + apart)).collect();
            let loads = Loads::of_power(&power);
            let outcome = solve(&tree, &source, &loads, &mut workspace, &Options::default()).unwrap();
            match outcome {
                Outcome::Solved(found) => assert!(feasible && found.enclosure.width_v <= 1e-9),
                Outcome::NoSolution(_) => assert!(!feasible),
                Outcome::Undecided(_) => panic!("{outcome:?}"),
            }
        }
    }
}
