//! Plain files in JSON: a network, read and solved, as `latchline flow` does; a tree of lines, as `latchline response` does.

use latchline_circuit::flow::{
    MonteCarloOptions, Options, Outcome, Workspace, branch_currents, loading_margin, monte_carlo, solve,
};
use latchline_circuit::signal::{Workspace as SignalWorkspace, respond};
use plain_line::PlainLineTree;
use plain_network::PlainNetwork;

#[path = "../../crates/latchline/src/plain_fault.rs"]
#[allow(dead_code, reason = "the binary's own module: it makes use of more")]
mod plain_fault;
#[path = "../../crates/latchline/src/plain_line.rs"]
#[allow(dead_code, reason = "the binary's own module: it makes use of more")]
mod plain_line;
#[path = "../../crates/latchline/src/plain_network.rs"]
#[allow(dead_code, reason = "the binary's own module: it makes use of more")]
mod plain_network;

/// Nodes, or nodes times frequencies, up to which it is solved.
const MOST_SOLVED: usize = 200;

/// As the bytes of a plain network file.
pub fn network(bytes: &[u8]) {
    let network = match PlainNetwork::parse(bytes) {
        Ok(network) => network,
        Err(error) => {
            assert!(!format!("{error:#}").is_empty(), "it is told why");
            return;
        }
    };
    if network.names.len() > MOST_SOLVED {
        return;
    }
    let (tree, source, loads) = (&network.built.tree, &network.source, network.loads.as_loads());
    let mut workspace = Workspace::new();
    let Ok(outcome) = solve(tree, source, &loads, &mut workspace, &Options::default()) else { return };
    if let Outcome::Solved(found) = &outcome {
        let _ = branch_currents(tree, source, &loads, workspace.voltages_v());
        for node in 0..network.names.len() {
            let (lower, upper) =
                (workspace.lower_v(node, &found.enclosure), workspace.upper_v(node, &found.enclosure));
            assert!(lower <= upper, "node {node}: {lower} V to {upper} V");
        }
    }
    let _ = loading_margin(tree, source, &loads).value();
    // Refused or done: both are answers.
    let _ = monte_carlo(
        tree,
        source,
        &network.elements,
        &MonteCarloOptions { samples: 4, seed: 1, spread: 0.05 },
    );
}

/// As the bytes of a plain line file.
pub fn line(bytes: &[u8]) {
    let file = match PlainLineTree::parse(bytes) {
        Ok(file) => file,
        Err(error) => {
            assert!(!format!("{error:#}").is_empty(), "it is told why");
            return;
        }
    };
    if file.tree.node_count() * file.frequencies_hz.len() > MOST_SOLVED {
        return;
    }
    let response = respond(&file.tree, file.source, &file.frequencies_hz, &mut SignalWorkspace::default());
    let Ok(response) = response else { return };
    for node in 0..file.tree.node_count() {
        for frequency in 0..file.frequencies_hz.len() {
            let _ = (response.gain_db(node, frequency), response.phase_deg(node, frequency));
        }
    }
}
