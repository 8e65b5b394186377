//! Flow against published examples and closed forms. The source stands beside each check.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_circuit::flow::{
    BuiltTree, Loads, Margin, NoSolution, Options, Outcome, SegmentEnds, Source, Tree, Workspace,
    branch_currents, loading_margin, solve,
};

fn solved(tree: &Tree, source: Source, loads: &Loads<'_>) -> Vec<f64> {
    let mut workspace = Workspace::new();
    match solve(tree, &source, loads, &mut workspace, &Options::default()).unwrap() {
        Outcome::Solved(found) => {
            assert!(found.enclosure.width_v <= 1e-9);
            for node in 0..tree.len() {
                assert!(workspace.lower_v(node, &found.enclosure) < workspace.voltages_v()[node]);
                assert!(workspace.upper_v(node, &found.enclosure) > workspace.voltages_v()[node]);
            }
            workspace.voltages_v().to_vec()
        }
        other => panic!("{other:?}"),
    }
}

fn close(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "found {found}, expected {expected}");
}

/// A single load at the root behind the source resistance.
fn single(voltage_v: f64, resistance_ohm: f64, power_w: f64) -> Outcome {
    let tree = Tree::new(vec![0], vec![0.0]).unwrap();
    let source = Source { voltage_v, resistance_ohm };
    let mut workspace = Workspace::new();
    solve(&tree, &source, &Loads::of_power(&[power_w]), &mut workspace, &Options::default()).unwrap()
}

/// IEEE 802.3 (af, at, bt) powered devices: least source voltage, loop resistance, power at the device,
/// and the device voltage V = (Vs + sqrt(Vs^2 - 4 P R))/2. Types 1 and 2 close exactly; the resistances of
/// types 3 and 4 and the printed 41.1, 44.3 and 42.9 V are from memory, not yet confirmed.
#[test]
fn power_over_ethernet_rows() {
    let rows = [
        (44.0, 20.0, 12.95, 37.0, 0.350, 15.40),
        (50.0, 12.5, 25.5, 42.5, 0.600, 30.00),
        (50.0, 6.25, 51.0, 42.5, 1.200, 60.00),
        (52.0, 6.25, 71.3, 41.178_11, 1.7315, 90.04),
        (50.0, 6.25, 40.0, 44.364_92, 0.9016, 45.08),
        (52.0, 6.25, 62.0, 42.985_29, 1.4424, 75.00),
    ];
    for (voltage_v, r, power_w, device_v, current_a, source_w) in rows {
        let tree = Tree::new(vec![0, 0], vec![0.0, r]).unwrap();
        let source = Source { voltage_v, resistance_ohm: 0.0 };
        let power = [0.0, power_w];
        let v = solved(&tree, source, &Loads::of_power(&power));
        let exact = 0.5 * (voltage_v + (voltage_v * voltage_v - 4.0 * power_w * r).sqrt());
        close(v[1], exact, 1e-9);
        close(v[1], device_v, 5e-6);
        let currents = branch_currents(&tree, &source, &Loads::of_power(&power), &v);
        close(currents.branch_a[1], current_a, 5e-5);
        close(voltage_v * currents.branch_a[0], source_w, 5e-3);
    }
}

/// IEEE 802.3 type 1 feed, 44 V behind 20 ohm: at most Vs^2/(4 R) = 24.2 W, where V = 22.0 V and I = 1.1 A.
#[test]
fn power_over_ethernet_limit() {
    match single(44.0, 20.0, 24.3) {
        Outcome::NoSolution(NoSolution::Certified { certificate, .. }) => {
            assert!(certificate.load_factor <= 1.0 && certificate.ratio > 1.0);
        }
        other => panic!("{other:?}"),
    }
    assert!(matches!(single(44.0, 20.0, 24.2 * (1.0 + 1e-9)), Outcome::NoSolution(_)));
    // At the limit itself the two solutions meet and no rounding can be allowed for.
    assert!(matches!(single(44.0, 20.0, 24.2), Outcome::Undecided(_)), "{:?}", single(44.0, 20.0, 24.2));
    let tree = Tree::new(vec![0], vec![0.0]).unwrap();
    for below in [1e-3, 1e-6, 1e-7] {
        let power_w = 24.2 * (1.0 - below);
        let v = solved(&tree, Source { voltage_v: 44.0, resistance_ohm: 20.0 }, &Loads::of_power(&[power_w]));
        // V = 22 + 22 sqrt(below): the high one of the two roots; the low one is below 22 V.
        close(v[0], 22.0 + 22.0 * below.sqrt(), 1e-8);
        assert!(v[0] > 22.0);
    }
}

/// Mehta and Mehta, Principles of Power System (title from memory), ch. 13 "D.C. Distribution", Example
/// 13.1: 300 V, 0.01 ohm per 1000 m and conductor, 100/150/200/50 A at 500/1000/1600/2000 m; printed
/// 295.0, 291.0, 288.0, 287.6 V.
#[test]
fn two_wire_distributor() {
    let per_m = 2.0 * 0.01 / 1000.0;
    let tree =
        Tree::new(vec![0, 0, 1, 2, 3], vec![0.0, 500.0 * per_m, 500.0 * per_m, 600.0 * per_m, 400.0 * per_m])
            .unwrap();
    let currents = [0.0, 100.0, 150.0, 200.0, 50.0];
    let loads = Loads { current_a: &currents, ..Loads::default() };
    let v = solved(&tree, Source { voltage_v: 300.0, resistance_ohm: 0.0 }, &loads);
    for (found, printed) in v.iter().zip([300.0, 295.0, 291.0, 288.0, 287.6]) {
        close(*found, printed, 1e-9);
    }
}

/// Distributor fed at one end (examination solution): 500 V, 0.02 ohm/km and conductor, two sections of
/// 2 km, taps of 100 A and 200 A; printed 476 V and 460 V.
#[test]
fn distributor_fed_at_one_end() {
    let tree = Tree::new(vec![0, 0, 1], vec![0.0, 0.08, 0.08]).unwrap();
    let currents = [0.0, 100.0, 200.0];
    let loads = Loads { current_a: &currents, ..Loads::default() };
    let v = solved(&tree, Source { voltage_v: 500.0, resistance_ohm: 0.0 }, &loads);
    close(v[1], 476.0, 1e-9);
    close(v[2], 460.0, 1e-9);
}

/// Ladder of n cells of 1 ohm in series and 1 ohm across: end over input is 1/F(2n+1), odd Fibonacci numbers
/// (closed form of the ladder's chain matrix).
#[test]
fn fibonacci_ladder() {
    let (mut a, mut b) = (1.0_f64, 2.0_f64);
    for n in 1..=20_usize {
        let parent = (0..=n).map(|k| k.saturating_sub(1) as u32).collect();
        let mut r = vec![1.0; n + 1];
        r[0] = 0.0;
        let tree = Tree::new(parent, r).unwrap();
        let mut conductance_s = vec![1.0; n + 1];
        conductance_s[0] = 0.0;
        let loads = Loads { conductance_s: &conductance_s, ..Loads::default() };
        let v = solved(&tree, Source { voltage_v: 48.0, resistance_ohm: 0.0 }, &loads);
        close(v[n] / 48.0, 1.0 / b, 1e-12);
        assert_eq!(
            loading_margin(&tree, &Source { voltage_v: 48.0, resistance_ohm: 0.0 }, &loads),
            Margin::Unlimited
        );
        // F(2n+1) to F(2n+3).
        (a, b) = (a + b, a + 2.0 * b);
    }
}

/// n equal currents I spaced by r: end drop I r n(n+1)/2 (arithmetic series). 10 x 20 mA, 0.36 ohm: 0.396 V.
#[test]
fn equal_currents_along_a_chain() {
    for (n, current_a, r) in [(10_usize, 0.02, 0.36), (300, 0.001, 0.05)] {
        let parent = (0..=n).map(|k| k.saturating_sub(1) as u32).collect();
        let tree = Tree::new(parent, vec![r; n + 1]).unwrap();
        let mut current = vec![current_a; n + 1];
        current[0] = 0.0;
        let loads = Loads { current_a: &current, ..Loads::default() };
        let source = Source { voltage_v: 48.0, resistance_ohm: 0.0 };
        let v = solved(&tree, source, &loads);
        let drop = current_a * r * (n * (n + 1)) as f64 / 2.0;
        close(48.0 - v[n], drop, 1e-9);
        // The last voltage reaches zero at the factor V0/drop.
        let margin = loading_margin(&tree, &source, &loads);
        close(margin.value().unwrap() * drop / 48.0, 1.0, 1e-6);
        assert!(matches!(margin, Margin::Limited { weakest_node, .. } if weakest_node == n));
    }
}

/// 48 V through 10 ohm to 20 W: V = 24 + sqrt(576 - 200) V = 43.39072 V, limit 57.6 W (quadratic formula).
#[test]
fn project_sized_load() {
    let tree = Tree::new(vec![0], vec![0.0]).unwrap();
    let source = Source { voltage_v: 48.0, resistance_ohm: 10.0 };
    let loads = Loads::of_power(&[20.0]);
    close(solved(&tree, source, &loads)[0], 24.0 + 376.0_f64.sqrt(), 1e-9);
    close(loading_margin(&tree, &source, &loads).value().unwrap(), 57.6 / 20.0, 2.88e-6);
}

/// Six 3 W loads on a chain of 0.5 ohm, 48 V; values computed with pandapower 3.5.6 (zero reactance).
#[test]
fn six_load_chain() {
    let tree = Tree::new(vec![0, 0, 1, 2, 3, 4, 5], vec![0.5; 7]).unwrap();
    let power = [0.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0];
    let v = solved(&tree, Source { voltage_v: 48.0, resistance_ohm: 0.0 }, &Loads::of_power(&power));
    let expected = [48.0, 47.810606, 47.652587, 47.526045, 47.431064, 47.367709, 47.336020];
    for (found, expected) in v.iter().zip(expected) {
        close(*found, expected, 6e-7);
    }
}

/// Branched tree: 0-1 0.8 ohm, 1-2 1.2, 1-3 2.0, 3-4 1.0; 4, 6 and 5 W at 2, 3, 4; values from pandapower
/// 3.5.6 (zero reactance).
#[test]
fn branched_tree() {
    let rows = [(3, 4, 1.0), (1, 0, 0.8), (3, 1, 2.0), (1, 2, 1.2)];
    let segments: Vec<_> =
        rows.iter().map(|&(from, to, resistance_ohm)| SegmentEnds { from, to, resistance_ohm }).collect();
    let built = BuiltTree::new(5, 0, &segments).unwrap();
    let by_node = [0.0, 0.0, 4.0, 6.0, 5.0];
    let power: Vec<f64> = built.node_at.iter().map(|&node| by_node[node as usize]).collect();
    let v = solved(&built.tree, Source { voltage_v: 48.0, resistance_ohm: 0.0 }, &Loads::of_power(&power));
    for (node, expected) in [(1, 47.746525), (2, 47.645782), (3, 47.280744), (4, 47.174756)] {
        close(v[built.position_of[node] as usize], expected, 6e-7);
    }
}

/// A rectifier drop: with v = Vd + x the load is P/x behind V0 - Vd, so x = ((V0-Vd) + sqrt((V0-Vd)^2 - 4
/// R P))/2 and the limit is (V0 - Vd)^2/(4 R) (quadratic formula).
#[test]
fn rectifier_drop() {
    let tree = Tree::new(vec![0], vec![0.0]).unwrap();
    let source = Source { voltage_v: 26.0, resistance_ohm: 10.0 };
    let (power, drop) = ([8.0], [1.4]);
    let loads = Loads { drop_v: &drop, ..Loads::of_power(&power) };
    let supply = 26.0_f64 - 1.4;
    let x = 0.5 * (supply + (supply * supply - 4.0 * 10.0 * 8.0).sqrt());
    close(solved(&tree, source, &loads)[0], 1.4 + x, 1e-9);
    let limit = supply * supply / 40.0;
    let margin = loading_margin(&tree, &source, &loads);
    close(margin.value().unwrap() * 8.0 / limit, 1.0, 1e-6);
    let (power, drop) = ([8.0], [26.0]);
    let loads = Loads { drop_v: &drop, ..Loads::of_power(&power) };
    let outcome = solve(&tree, &source, &loads, &mut Workspace::new(), &Options::default()).unwrap();
    assert_eq!(outcome, Outcome::NoSolution(NoSolution::DropNotBelowSupply { node: 0 }));
    assert_eq!(loading_margin(&tree, &source, &loads), Margin::Zero { node: 0 });
}

/// Where nothing is fed through a resistance there is no limit; a star of unequal branches is limited by its
/// weakest branch, V0^2/(4 R P) (quadratic formula).
#[test]
fn star_from_an_ideal_source() {
    let tree = Tree::new(vec![0, 0, 0, 0], vec![0.0, 0.0, 10.0, 20.0]).unwrap();
    let source = Source { voltage_v: 48.0, resistance_ohm: 0.0 };
    assert_eq!(loading_margin(&tree, &source, &Loads::of_power(&[5.0, 9.0, 0.0, 0.0])), Margin::Unlimited);
    let margin = loading_margin(&tree, &source, &Loads::of_power(&[5.0, 9.0, 4.0, 1.0]));
    close(margin.value().unwrap(), 48.0 * 48.0 / (4.0 * 10.0 * 4.0), 1e-6 * 14.4);
    assert!(matches!(margin, Margin::Limited { weakest_node: 2, .. }));
}
