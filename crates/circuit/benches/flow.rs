//! Measures the flow solver against the tight C of `benches/flow/peer.c`, in turns in the same run.
//!
//! `cargo bench --bench flow -- PEER DIRECTORY` (see `benches/flow/run`). `PEER` is the compiled C
//! program; tree files are written to `DIRECTORY`. Prints one line a measurement.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark reads the clock, writes its tree files and prints"
)]

use std::io::{BufRead as _, BufReader, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::Instant;

use latchline_circuit::flow::{
    BuiltTree, LoadElement, LoadKind, Loads, MonteCarloOptions, Options, Outcome, SegmentEnds, Source, Tree,
    Workspace, loading_margin, monte_carlo, solve,
};

/// A random tree of constant powers whose lowest voltage is about nine tenths of the supply.
struct Case {
    tree: Tree,
    power_w: Vec<f64>,
    source: Source,
}

fn random_case(nodes: usize, seed: u64) -> Case {
    let mut state = seed;
    let mut next = || {
        // SplitMix64 (public domain constants).
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    };
    let parent: Vec<u32> = (0..nodes as u64).map(|k| (next() % k.max(1)) as u32).collect();
    let mut unit = || (next() >> 11) as f64 / 9_007_199_254_740_992.0;
    let r: Vec<f64> = (0..nodes).map(|_| 0.5 + unit()).collect();
    let power_w: Vec<f64> = (0..nodes).map(|_| 0.5 + unit()).collect();
    let tree = Tree::new(parent, r).unwrap();
    let source = Source { voltage_v: 48.0, resistance_ohm: 0.1 };
    // Scale the powers to about 2.8 times below the margin: a drop of about a tenth.
    let margin = loading_margin(&tree, &source, &Loads::of_power(&power_w)).value().unwrap();
    let power_w = power_w.iter().map(|p| p * margin / 2.8).collect();
    Case { tree, power_w, source }
}

fn write_tree(case: &Case, path: &Path) {
    let mut bytes = Vec::new();
    bytes.extend((case.tree.len() as i64).to_le_bytes());
    bytes.extend(case.source.voltage_v.to_le_bytes());
    bytes.extend(case.source.resistance_ohm.to_le_bytes());
    case.tree.parents().iter().for_each(|p| bytes.extend((*p as i32).to_le_bytes()));
    case.tree.resistances_ohm().iter().for_each(|r| bytes.extend(r.to_le_bytes()));
    case.power_w.iter().for_each(|p| bytes.extend(p.to_le_bytes()));
    std::fs::write(path, bytes).unwrap();
}

struct Peer {
    child: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
}

impl Peer {
    fn start(program: &str, file: &Path) -> Self {
        let mut child = Command::new(program)
            .arg(file)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the C program starts");
        let to = child.stdin.take().unwrap();
        let from = BufReader::new(child.stdout.take().unwrap());
        Self { child, to, from }
    }

    fn ask(&mut self, question: &str) -> Vec<f64> {
        writeln!(self.to, "{question}").unwrap();
        let mut line = String::new();
        self.from.read_line(&mut line).unwrap();
        line.split_whitespace().map(|word| word.parse().unwrap()).collect()
    }

    fn stop(mut self) {
        drop(self.to);
        self.child.wait().unwrap();
    }
}

fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// Nanoseconds of one solve, averaged over `times`.
fn time_solve(case: &Case, workspace: &mut Workspace, times: usize) -> (f64, f64, usize) {
    let loads = Loads::of_power(&case.power_w);
    let start = Instant::now();
    let mut steps = 0;
    for _ in 0..times {
        match solve(&case.tree, &case.source, &loads, workspace, &Options::default()).unwrap() {
            Outcome::Solved(found) => steps = found.steps,
            other => panic!("{other:?}"),
        }
    }
    let took = start.elapsed().as_nanos() as f64 / times as f64;
    (took, workspace.voltages_v().iter().copied().fold(f64::INFINITY, f64::min), steps)
}

fn flow_against_c(peer: &str, directory: &Path, nodes: usize, rounds: usize, times: usize) {
    let case = random_case(nodes, 1);
    let file = directory.join(format!("tree-{nodes}.bin"));
    write_tree(&case, &file);
    let mut c = Peer::start(peer, &file);
    let mut workspace = Workspace::new();
    let (mut ours, mut theirs, mut ratios) = (Vec::new(), Vec::new(), Vec::new());
    for round in 0..rounds + 3 {
        let (own, lowest, steps) = time_solve(&case, &mut workspace, times);
        let answer = c.ask(&format!("newton {times}"));
        assert!((answer[1] - lowest).abs() < 2e-9, "the two disagree: {lowest} {}", answer[1]);
        if round == 0 {
            println!("flow {nodes}: lowest {lowest:.3} V, Newton steps {steps} (C {})", answer[2]);
        }
        // The first rounds warm up.
        if round >= 3 {
            ours.push(own);
            theirs.push(answer[0]);
            ratios.push(own / answer[0]);
        }
    }
    c.stop();
    println!(
        "flow {nodes}: ours {:.2} us, C {:.2} us, median ratio {:.3}",
        median(&mut ours) / 1e3,
        median(&mut theirs) / 1e3,
        median(&mut ratios)
    );
}

fn samples_against_c(peer: &str, directory: &Path, nodes: usize, samples: usize, rounds: usize) {
    let case = random_case(nodes, 1);
    let file = directory.join(format!("tree-{nodes}.bin"));
    write_tree(&case, &file);
    let elements: Vec<LoadElement> = (0..nodes)
        .map(|k| LoadElement { node: k as u32, kind: LoadKind::Power, value: case.power_w[k] })
        .collect();
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    let options = MonteCarloOptions { samples, seed: 1, spread: 0.05 };
    let mut c = Peer::start(peer, &file);
    let (mut ours, mut theirs, mut ratios) = (Vec::new(), Vec::new(), Vec::new());
    for round in 0..rounds + 1 {
        let start = Instant::now();
        let found = pool.install(|| monte_carlo(&case.tree, &case.source, &elements, &options).unwrap());
        let own = start.elapsed().as_nanos() as f64;
        let answer = c.ask(&format!("samples {samples}"));
        // Two independent samples of the same distribution: their means agree to a few standard errors.
        assert!((found.mean_v.unwrap() - answer[1]).abs() < 0.01, "{found:?} {}", answer[1]);
        if round > 0 {
            ours.push(own);
            theirs.push(answer[0]);
            ratios.push(own / answer[0]);
        }
    }
    c.stop();
    println!(
        "samples {nodes} x {samples}: ours {:.1} ms, C {:.1} ms, one thread, median ratio {:.3}",
        median(&mut ours) / 1e6,
        median(&mut theirs) / 1e6,
        median(&mut ratios)
    );
}

/// The same tree in the order that the builder gives.
fn level_by_level(case: Case) -> Case {
    let segments: Vec<SegmentEnds> = (1..case.tree.len())
        .map(|k| SegmentEnds {
            from: case.tree.parents()[k] as usize,
            to: k,
            resistance_ohm: case.tree.resistances_ohm()[k],
        })
        .collect();
    let built = BuiltTree::new(case.tree.len(), 0, &segments).unwrap();
    let power_w = built.node_at.iter().map(|&k| case.power_w[k as usize]).collect();
    Case { tree: built.tree, power_w, ..case }
}

fn growth() {
    for nodes in [1_000, 10_000, 100_000, 1_000_000] {
        let case = level_by_level(random_case(nodes, 1));
        let mut workspace = Workspace::new();
        let times = (1_000_000 / nodes).max(3);
        let mut took: Vec<f64> = (0..5).map(|_| time_solve(&case, &mut workspace, times).0).collect();
        let start = Instant::now();
        let margin = loading_margin(&case.tree, &case.source, &Loads::of_power(&case.power_w));
        let margin_ms = start.elapsed().as_secs_f64() * 1e3;
        println!(
            "growth {nodes}: {:.2} ns a node; margin {:.6} in {margin_ms:.2} ms",
            median(&mut took) / nodes as f64,
            margin.value().unwrap()
        );
    }
}

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|a| !a.starts_with("--")).collect();
    let [peer, directory] = &arguments[..] else {
        println!("usage: cargo bench --bench flow -- PEER DIRECTORY (see benches/flow/run)");
        return;
    };
    let directory = PathBuf::from(directory);
    flow_against_c(peer, &directory, 100_000, 41, 1);
    flow_against_c(peer, &directory, 500, 41, 200);
    samples_against_c(peer, &directory, 500, 10_000, 9);
    growth();
}
