//! Times the response of one tree: `signal-bench TREE REPEATS [base|avx2]`, where TREE is the text that `compare.py`
//! writes, and the last word leaves wider vector instructions aside. Prints the median time of solving for all voltages, then of solving and taking decibels, in
//! milliseconds, then gain in decibel and phase of every node and frequency.
//!
//! TREE: a line of source impedance; a line of frequencies; then one line per node but the root: parent,
//! length in metre, R, L, C, G per metre, skin corner, load resistance (0 for none), load capacitance.

use std::hint::black_box;
use std::io::Write;
use std::time::Instant;

use latchline_circuit::signal::{
    Branch, InstructionSet, Line, LineLaw, PlainLine, Shunt, SignalTree, Source, Workspace, respond, sweep,
};

fn numbers(line: &str) -> Vec<f64> {
    line.split_whitespace().map(|word| word.parse().expect("a number")).collect()
}

fn median_ms(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2] * 1e3
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let text = std::fs::read_to_string(&arguments[1]).expect("the tree file");
    let repeats: usize = arguments[2].parse().expect("repeats");
    let widest = match arguments.get(3).map(String::as_str) {
        None => InstructionSet::Avx512,
        Some("avx2") => InstructionSet::Avx2,
        Some("base") => InstructionSet::Base,
        Some(other) => panic!("{other} is none of base, avx2"),
    };
    let mut rows = text.lines();
    let source = Source { node: 0, impedance_ohm: numbers(rows.next().expect("source"))[0] };
    let frequencies_hz = numbers(rows.next().expect("frequencies"));
    let mut lines: Vec<Line> = Vec::new();
    let (mut branches, mut loads) = (Vec::new(), Vec::new());
    for (k, row) in rows.enumerate() {
        let v = numbers(row);
        let line = Line::new(LineLaw::Plain(PlainLine {
            r_ohm_per_m: v[2],
            l_h_per_m: v[3],
            c_f_per_m: v[4],
            g_s_per_m: v[5],
            skin_corner_hz: Some(v[6]),
            loss_tangent: 0.0,
        }))
        .expect("a line");
        let at = lines.iter().position(|known| *known == line).unwrap_or_else(|| {
            lines.push(line);
            lines.len() - 1
        });
        branches.push(Branch { parent: v[0] as usize, line: at, length_m: v[1], entry: None });
        if v[7] > 0.0 {
            let load = Shunt::Load {
                resistance_ohm: v[7],
                series_capacitance_f: None,
                parallel_capacitance_f: v[8],
            };
            loads.push((k + 1, load));
        }
    }
    let mut tree = SignalTree::new(lines, branches).expect("a tree");
    for (node, load) in loads {
        tree.add_shunt(node, load).expect("a load");
    }
    let mut workspace = Workspace::limited_to(widest);
    let (mut voltages, mut decibels) = (Vec::new(), Vec::new());
    let mut gains = vec![0.0; tree.node_count() * frequencies_hz.len()];
    for _ in 0..repeats {
        let start = Instant::now();
        black_box(respond(&tree, source, &frequencies_hz, &mut workspace).expect("a response"));
        voltages.push(start.elapsed().as_secs_f64());
        let start = Instant::now();
        sweep(&tree, source, &frequencies_hz, &mut workspace, |block| {
            for node in 0..tree.node_count() {
                block.gains_db(node, &mut gains[node * frequencies_hz.len() + block.first..]);
            }
        })
        .expect("a response");
        black_box(&gains);
        decibels.push(start.elapsed().as_secs_f64());
    }
    let response = respond(&tree, source, &frequencies_hz, &mut workspace).expect("a response");
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    writeln!(out, "{} {}", median_ms(voltages), median_ms(decibels)).expect("output");
    for node in 0..tree.node_count() {
        for k in 0..frequencies_hz.len() {
            writeln!(out, "{} {}", response.gain_db(node, k), response.phase_deg(node, k)).expect("output");
        }
    }
}
