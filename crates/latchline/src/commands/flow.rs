//! `latchline flow`: solves a plain network file.

use std::io::{BufWriter, Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

use crate::refusal::{Refused, Result};
use clap::Args;
use latchline_circuit::flow::{
    Margin, MonteCarloOptions, NoSolution, NonexistenceCertificate, Options, Outcome, Workspace,
    branch_currents, loading_margin, monte_carlo, solve,
};
use latchline_words::refusals::SystemRefusal;
use serde::Serialize;

use crate::files::{cannot_use, read_bytes};
use crate::plain_network::PlainNetwork;

/// Voltages and currents along cables that branch, from a plain network file (JSON)
///
/// Prints the voltages, the currents and losses of the segments, and how many times all loads could grow before the
/// voltage collapses (the loading margin), as JSON. Exit status 0: there is a solution; 1: there is none (or it is too close to
/// collapse to tell); 2: the file cannot be used.
#[derive(Args, Debug)]
pub struct FlowArguments {
    /// The plain network file; `-` reads standard input
    pub file: PathBuf,
    /// Leave out the loading margin
    #[arg(long)]
    pub no_margin: bool,
    /// Add a Monte Carlo of this many samples
    #[arg(long, value_name = "N", requires = "spread")]
    pub samples: Option<usize>,
    /// Seed of the Monte Carlo
    #[arg(long, value_name = "S", default_value_t = 1)]
    pub seed: u64,
    /// Every segment resistance and every load varies within plus or minus this many percent
    #[arg(long, value_name = "P", requires = "samples")]
    pub spread: Option<f64>,
    /// Add the ends of the verified enclosure, or the weights that show that there is no solution
    #[arg(long, hide = true)]
    pub certificate: bool,
}

#[derive(Serialize)]
struct OutSource {
    current_a: f64,
    power_w: f64,
}

#[derive(Serialize)]
struct OutNode<'a> {
    id: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    voltage_v: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lower_v: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    upper_v: Option<f64>,
}

#[derive(Serialize)]
struct OutSegment<'a> {
    from: &'a str,
    to: &'a str,
    /// Positive from `from` to `to`.
    current_a: f64,
    loss_w: f64,
}

#[derive(Serialize)]
struct OutMinimum {
    mean: Option<f64>,
    p01: Option<f64>,
    p50: Option<f64>,
    p99: Option<f64>,
}

#[derive(Serialize)]
struct OutMonteCarlo {
    samples: usize,
    infeasible: usize,
    minimum_v: OutMinimum,
}

/// Weights in the order of the file's nodes; see the documentation of `NonexistenceCertificate`.
#[derive(Serialize)]
struct OutWeights {
    load_factor: f64,
    injected_a: Vec<f64>,
    ratio: f64,
}

#[derive(Default, Serialize)]
struct OutCertificate {
    #[serde(skip_serializing_if = "Option::is_none")]
    lower_v: Option<Vec<f64>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    upper_v: Option<Vec<f64>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    possible_factor: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    impossible: Option<OutWeights>,
}

/// `true`, `false` or `"undecided"`.
#[derive(Serialize)]
#[serde(untagged)]
enum Feasible {
    Known(bool),
    Undecided(&'static str),
}

/// A factor, or `"undecided"`.
#[derive(Serialize)]
#[serde(untagged)]
enum LargestFactor {
    Known(f64),
    Undecided(&'static str),
}

impl LargestFactor {
    /// `None` where there is no largest factor.
    fn of(margin: &Margin) -> Option<Self> {
        match margin {
            Margin::Undecided { .. } => Some(LargestFactor::Undecided("undecided")),
            known => known.value().map(LargestFactor::Known),
        }
    }
}

#[derive(Serialize)]
struct Out<'a> {
    feasible: Feasible,
    #[serde(skip_serializing_if = "Option::is_none")]
    source: Option<OutSource>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nodes: Option<Vec<OutNode<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    segments: Option<Vec<OutSegment<'a>>>,
    /// Absent when left out, `null` when there is no largest factor, `"undecided"` where that could not be told.
    #[serde(skip_serializing_if = "Option::is_none")]
    loading_margin: Option<Option<LargestFactor>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    weakest_node: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    certificate: Option<OutCertificate>,
    #[serde(skip_serializing_if = "Option::is_none")]
    monte_carlo: Option<OutMonteCarlo>,
}

impl Out<'_> {
    fn new(feasible: Feasible) -> Self {
        Self {
            feasible,
            source: None,
            nodes: None,
            segments: None,
            loading_margin: None,
            weakest_node: None,
            certificate: None,
            monte_carlo: None,
        }
    }
}

/// Runs the command: reads `arguments.file` (`-`: `input`) and writes JSON to `output`.
///
/// # Errors
/// A file that cannot be read or used (exit status 2 is the caller's), or an output that cannot be
/// written.
pub fn run(arguments: &FlowArguments, input: &mut dyn Read, output: &mut dyn Write) -> Result<ExitCode> {
    let text = read_bytes(&arguments.file, input)?;
    let network = PlainNetwork::parse(&text).refused(|| cannot_use(&arguments.file))?;
    let (out, code) = answer(arguments, &network)?;
    let mut writer = BufWriter::with_capacity(1 << 16, output);
    serde_json::to_writer(&mut writer, &out)
        .map_err(std::io::Error::from)
        .and_then(|()| writer.write_all(b"\n"))
        .and_then(|()| writer.flush())
        .refused(|| SystemRefusal::CannotWriteResult)?;
    Ok(ExitCode::from(code))
}

/// The answer and the exit status.
fn answer<'a>(arguments: &FlowArguments, network: &'a PlainNetwork<'_>) -> Result<(Out<'a>, u8)> {
    let (tree, source, loads) = (&network.built.tree, &network.source, network.loads.as_loads());
    let mut workspace = Workspace::new();
    let outcome = solve(tree, source, &loads, &mut workspace, &Options::default())?;
    let (mut out, code) = match &outcome {
        Outcome::Solved(_) => (solved(network, &workspace), 0),
        Outcome::NoSolution(_) => (Out::new(Feasible::Known(false)), 1),
        Outcome::Undecided(_) => (Out::new(Feasible::Undecided("undecided")), 1),
    };
    let margin = match &outcome {
        Outcome::Solved(_) if arguments.no_margin => None,
        Outcome::NoSolution(NoSolution::Certified { margin, .. }) => Some(margin.clone()),
        Outcome::Undecided(undecided) if undecided.margin.is_some() => undecided.margin.clone(),
        _ => Some(loading_margin(tree, source, &loads)),
    };
    if let Some(margin) = &margin {
        out.loading_margin = Some(LargestFactor::of(margin));
        if code != 0
            && let Margin::Limited { weakest_node, .. } = margin
        {
            out.weakest_node = Some(network.name_at(*weakest_node));
        }
    }
    let enclosure = match &outcome {
        Outcome::Solved(found) => Some(found.enclosure),
        Outcome::Undecided(undecided) => undecided.enclosure,
        Outcome::NoSolution(_) => None,
    };
    let ends = enclosure.map(|enclosure| {
        let end = |of: &dyn Fn(usize) -> f64| -> Vec<f64> {
            network.built.position_of.iter().map(|&position| of(position as usize)).collect()
        };
        (end(&|k| workspace.lower_v(k, &enclosure)), end(&|k| workspace.upper_v(k, &enclosure)))
    });
    if let (Outcome::Undecided(_), Some((lower, upper))) = (&outcome, &ends) {
        let node = |(k, id): (usize, &'a std::borrow::Cow<'_, str>)| OutNode {
            id,
            voltage_v: None,
            lower_v: Some(lower[k]),
            upper_v: Some(upper[k]),
        };
        out.nodes = Some(network.names.iter().enumerate().map(node).collect());
    }
    if arguments.certificate {
        out.certificate = Some(certificate(network, &outcome, margin.as_ref(), ends));
    }
    if let (Some(samples), Some(percent)) = (arguments.samples, arguments.spread) {
        let options = MonteCarloOptions { samples, seed: arguments.seed, spread: percent / 100.0 };
        let found = monte_carlo(tree, source, &network.elements, &options)?;
        out.monte_carlo = Some(OutMonteCarlo {
            samples: found.samples,
            infeasible: found.infeasible,
            minimum_v: OutMinimum {
                mean: found.mean_v,
                p01: found.quantile_v(0.01),
                p50: found.quantile_v(0.5),
                p99: found.quantile_v(0.99),
            },
        });
    }
    Ok((out, code))
}

fn solved<'a>(network: &'a PlainNetwork<'_>, workspace: &Workspace) -> Out<'a> {
    let (tree, source, loads) = (&network.built.tree, &network.source, network.loads.as_loads());
    let voltages = workspace.voltages_v();
    let currents = branch_currents(tree, source, &loads, voltages);
    let position_of = &network.built.position_of;
    let mut out = Out::new(Feasible::Known(true));
    let current_a = currents.branch_a[0];
    out.source = Some(OutSource { current_a, power_w: source.voltage_v * current_a });
    let node = |(id, position): (&'a std::borrow::Cow<'_, str>, &u32)| OutNode {
        id,
        voltage_v: Some(voltages[*position as usize]),
        lower_v: None,
        upper_v: None,
    };
    out.nodes = Some(network.names.iter().zip(position_of).map(node).collect());
    out.segments = Some(
        network
            .segments
            .iter()
            .map(|segment| {
                let (from, to) = (position_of[segment.from as usize], position_of[segment.to as usize]);
                // The end further from the root has the higher position, and carries the segment.
                let far = from.max(to) as usize;
                let outwards = currents.branch_a[far];
                OutSegment {
                    from: &network.names[segment.from as usize],
                    to: &network.names[segment.to as usize],
                    // Subtracted, so that no current does not read -0.0.
                    current_a: if from < to { outwards } else { 0.0 - outwards },
                    loss_w: currents.loss_w[far],
                }
            })
            .collect(),
    );
    out
}

fn certificate(
    network: &PlainNetwork<'_>,
    outcome: &Outcome,
    margin: Option<&Margin>,
    ends: Option<(Vec<f64>, Vec<f64>)>,
) -> OutCertificate {
    let weights = |from: &NonexistenceCertificate| OutWeights {
        load_factor: from.load_factor,
        injected_a: network.in_file_order(&from.injected_a),
        ratio: from.ratio,
    };
    let mut out = OutCertificate::default();
    if let Some((lower, upper)) = ends {
        (out.lower_v, out.upper_v) = (Some(lower), Some(upper));
    }
    if let Some(Margin::Limited { low, high, .. }) = margin {
        out.possible_factor = Some(*low);
        out.impossible = Some(weights(high));
    }
    if let Outcome::NoSolution(NoSolution::Certified { certificate, .. }) = outcome {
        out.impossible = Some(weights(certificate));
    }
    out
}
