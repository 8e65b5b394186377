//! Solving one flow problem to a verified enclosure.

mod enclose;
mod workspace;

use enclose::{enclose, polish};
pub use workspace::{Enclosure, Workspace};

use super::enclosure::verify_power_only;
use super::margin::{Margin, loading_margin};
use super::newton::{StepResult, factor, first_step_power_only, solve_tangent, step_power_only};
use super::precise::PreciseSweep;
use super::{LoadError, Loads, NonexistenceCertificate, Source, Tree};

/// What to solve for.
#[derive(Clone, Copy, Debug)]
pub struct Options<'a> {
    /// Largest width of the enclosure, V.
    pub tolerance_v: f64,
    /// Most Newton steps before giving up.
    pub most_steps: usize,
    /// Where to start: an *upper* bound of the solution, for example the solution with smaller
    /// loads. A start that is not one costs time, not correctness.
    pub start_v: Option<&'a [f64]>,
}

impl Default for Options<'_> {
    fn default() -> Self {
        Self { tolerance_v: 1e-9, most_steps: 100, start_v: None }
    }
}

/// The greatest solution, enclosed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solved {
    /// The verified ends; read them with [`Workspace::lower_v`] and [`Workspace::upper_v`].
    pub enclosure: Enclosure,
    /// Newton steps taken.
    pub steps: usize,
}

/// Why there is no solution.
#[derive(Clone, Debug, PartialEq)]
pub enum NoSolution {
    /// Shown by weights for a factor on the loads not above 1.
    Certified {
        /// The weights.
        certificate: NonexistenceCertificate,
        /// The loading margin.
        margin: Margin,
    },
    /// The rectifier drop of a powered node is not below the supply voltage, which no node exceeds.
    DropNotBelowSupply {
        /// The node.
        node: usize,
    },
}

/// What is known when neither a solution nor its absence could be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Undecided {
    /// An enclosure wider than asked for, if one was verified; the voltages are in the workspace.
    pub enclosure: Option<Enclosure>,
    /// The loading margin, if it was looked for.
    pub margin: Option<Margin>,
}

/// The outcome of [`solve()`].
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// There is a solution; the greatest is enclosed.
    Solved(Solved),
    /// There is none.
    NoSolution(NoSolution),
    /// Too close to call in floating-point arithmetic.
    Undecided(Undecided),
}

/// Finds the greatest solution.
///
/// The voltages are left in `workspace`. `Solved` means: the enclosure was verified, and its width is at
/// most `tolerance_v`. The answer does not rest on how it was found.
///
/// # Errors
/// [`LoadError`] when the source or a load is not admissible.
pub fn solve(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    workspace: &mut Workspace,
    options: &Options<'_>,
) -> Result<Outcome, LoadError> {
    source.check()?;
    let nodes = tree.len();
    loads.check(nodes)?;
    if let Some(start) = options.start_v
        && start.len() != nodes
    {
        return Err(LoadError::Length { quantity: "starting voltage in V", entries: start.len(), nodes });
    }
    workspace.voltage_v.resize(nodes, 0.0);
    if loads.is_power_only()
        && let Some(solved) = solve_power_only(tree, source, loads.power_w, workspace, options)
    {
        return Ok(Outcome::Solved(solved));
    }
    Ok(solve_general(tree, source, loads, workspace, options))
}

/// The ordinary case: constant powers, every voltage well above half of the supply. `None` hands over
/// to [`solve_general`].
fn solve_power_only(
    tree: &Tree,
    source: &Source,
    power_w: &[f64],
    workspace: &mut Workspace,
    options: &Options<'_>,
) -> Option<Solved> {
    let nodes = tree.len();
    workspace.pair.clear();
    workspace.pair.resize(nodes, [0.0; 2]);
    let (pair, voltage) = (&mut workspace.pair[..], &mut workspace.voltage_v[..]);
    let half_width_v = 0.45 * options.tolerance_v;
    let mut steps = 1;
    let mut last;
    let mut before_last;
    if let Some(start) = options.start_v {
        voltage.copy_from_slice(start);
        before_last = 1.0;
        let StepResult::Step(step) = step_power_only(tree, source, power_w, pair, voltage) else {
            return None;
        };
        last = step;
    } else {
        before_last = f64::INFINITY;
        let StepResult::Step(step) = first_step_power_only(tree, source, power_w, pair, voltage) else {
            return None;
        };
        last = step;
    }
    let mut failures = 0;
    while steps < options.most_steps {
        // Quadratic convergence: the error after a step is about its square times the ratio seen before.
        let ratio = if before_last.is_finite() { last / before_last / before_last } else { 1.0 };
        let expected = ratio * last * last;
        if expected <= 0.2 * half_width_v || last <= half_width_v {
            if verify_power_only(tree, source, power_w, voltage, half_width_v, pair) {
                let enclosure = Enclosure { width_v: 2.0 * half_width_v, uniform: true };
                return Some(Solved { enclosure, steps });
            }
            pair.fill([0.0; 2]);
            failures += 1;
            if failures > 1 {
                return None;
            }
        }
        let StepResult::Step(step) = step_power_only(tree, source, power_w, pair, voltage) else {
            return None;
        };
        steps += 1;
        before_last = last;
        last = step;
    }
    None
}

/// Every kind of load, and states close to collapse.
fn solve_general(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    workspace: &mut Workspace,
    options: &Options<'_>,
) -> Outcome {
    let nodes = tree.len();
    workspace.general(nodes);
    let blocked = |node: &usize| loads.power(*node) > 0.0 && loads.drop(*node) >= source.voltage_v;
    if let Some(node) = (0..nodes).find(blocked) {
        return Outcome::NoSolution(NoSolution::DropNotBelowSupply { node });
    }
    match options.start_v {
        Some(start) => workspace.voltage_v.copy_from_slice(start),
        None => workspace.voltage_v.fill(source.voltage_v),
    }
    let mut known = None;
    let mut previous = f64::INFINITY;
    let mut stalled = 0;
    for steps in 1..=options.most_steps {
        if !factor(tree, source, loads, 1.0, &workspace.voltage_v, &mut workspace.factor) {
            break;
        }
        let step = solve_tangent(tree, source, &workspace.factor, &mut workspace.voltage_v);
        if !step.is_finite() || !in_domain(loads, &workspace.voltage_v) {
            break;
        }
        let expected = if previous.is_finite() { (step / previous) * (step / previous) * step } else { step };
        if expected <= 0.1 * options.tolerance_v {
            if let Some(enclosure) = enclose(tree, source, loads, workspace, options.tolerance_v, None) {
                return Outcome::Solved(Solved { enclosure, steps });
            }
            stalled += 1;
            if stalled >= 2 || step <= 1e-15 * source.voltage_v {
                let mut sweep = PreciseSweep::new(tree, source);
                polish(tree, source, loads, workspace, &mut sweep);
                known = enclose(tree, source, loads, workspace, options.tolerance_v, Some(&mut sweep))
                    .map(|enclosure| (enclosure, steps));
                break;
            }
        }
        previous = step;
    }
    if let Some((enclosure, steps)) = known {
        if enclosure.width_v <= options.tolerance_v {
            return Outcome::Solved(Solved { enclosure, steps });
        }
        return Outcome::Undecided(Undecided { enclosure: Some(enclosure), margin: None });
    }
    if options.start_v.is_some() {
        // The start may not have been an upper bound.
        return solve_general(tree, source, loads, workspace, &Options { start_v: None, ..*options });
    }
    without_solution(tree, source, loads)
}

fn in_domain(loads: &Loads<'_>, voltage_v: &[f64]) -> bool {
    voltage_v
        .iter()
        .enumerate()
        .all(|(node, &v)| v > 0.0 && (loads.power(node) == 0.0 || v > loads.drop(node)))
}

/// Newton found no way: look for the certificate.
fn without_solution(tree: &Tree, source: &Source, loads: &Loads<'_>) -> Outcome {
    let margin = loading_margin(tree, source, loads);
    if let Margin::Limited { low, high, .. } = &margin {
        if high.load_factor <= 1.0 {
            let certificate = high.clone();
            return Outcome::NoSolution(NoSolution::Certified { certificate, margin });
        }
        // 1 is inside the bracket: the same weights may still do at 1 itself.
        if *low < 1.0 {
            let again = NonexistenceCertificate::new(tree, source, loads, 1.0, high.injected_a.clone());
            if let Some(certificate) = again {
                return Outcome::NoSolution(NoSolution::Certified { certificate, margin });
            }
        }
    }
    Outcome::Undecided(Undecided { enclosure: None, margin: Some(margin) })
}
