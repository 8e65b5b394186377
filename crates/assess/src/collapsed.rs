//! A bus that collapses: the runs that it comes of, and what every device would have if these carried their load.
//!
//! A bus has an operating point as a whole or not at all, so its collapse says nothing of most of its cables. The run that cannot be fed
//! ([`latchline_network::collapse`]) is taken as if it had no resistance, and the bus is looked at again, until it stands: what is left short
//! then is short for another reason.

use crate::existing_cable::ShortApart;
use crate::rules::codes;
use crate::stage::WithSignal;
use latchline_finding::quantity::Length;
use latchline_finding::{Argument, ElementId, Finding};
use latchline_network::collapse::carried;
use latchline_network::{GivenUp, Layout, Memory, SearchOptions, StateSpace, worst_states_with};
use latchline_site::model::{Run, Site};
use std::collections::BTreeSet;

/// Length that stands for none, in metres.
const NO_LENGTH_M: f64 = 1e-3;

/// What a collapse comes of.
pub(crate) struct Collapsed {
    /// The runs that cannot be fed: indices, the first found first.
    pub causes: Vec<usize>,
    /// Supplies or boxes whose bus collapses.
    pub sources: Vec<ElementId>,
    /// Devices that go dark.
    pub dark: BTreeSet<ElementId>,
    /// What is short once the causes carry their load.
    pub short: Vec<ShortApart>,
}

/// Which run a finding of a collapse names.
fn named_run(site: &Site, finding: &Finding) -> Option<usize> {
    let Some(Argument::Element(run)) = finding.argument("run") else { return None };
    site.runs.iter().position(|one| one.id == *run)
}

fn ease(run: &mut Run) {
    for section in &mut run.sections {
        section.length.value = Length::from_metres(NO_LENGTH_M);
    }
    run.measured.loop_resistance = None;
    run.joints.value = 0;
}

/// What the collapses that were found come of; `None` where nothing collapses, or where a collapse comes of no run that could be named.
///
/// # Errors
/// [`GivenUp`] if it is no longer wanted.
pub(crate) fn collapsed(
    context: &WithSignal<'_>,
    findings: &[Finding],
    memory: &Memory,
) -> Result<Option<Collapsed>, GivenUp> {
    let collapses =
        || findings.iter().filter(|one| one.code == codes::NO_OPERATING_POINT && one.is_to_be_mended());
    let named: Option<BTreeSet<usize>> = collapses().map(|one| named_run(context.site, one)).collect();
    let Some(named) = named.filter(|named| !named.is_empty()) else { return Ok(None) };
    let mut causes: Vec<usize> = named.into_iter().collect();
    let mut site = context.site.clone();
    loop {
        causes.iter().for_each(|run| ease(&mut site.runs[*run]));
        let layout = Layout::new(&site);
        let space = StateSpace::new(&site, &layout);
        let found = worst_states_with(&site, &layout, &space, &SearchOptions::default(), memory)?;
        let mut next = None;
        let mut short = Vec::new();
        for device in &found.devices {
            let worst = device.worst();
            match (worst.failing_stage, worst.voltage_v) {
                (Some(stage), _) => {
                    let limit = carried(&layout, &space, worst.phase, stage, &worst.set);
                    next = Some(limit.and_then(|limit| limit.run));
                    break;
                }
                (None, Some(voltage_v)) if voltage_v < worst.limit_v => short.push(ShortApart {
                    device: context.device_id(device.device).clone(),
                    voltage_v,
                    limit_v: worst.limit_v,
                }),
                _ => {}
            }
        }
        match next {
            None => {
                let about = |one: &Finding| one.element.clone();
                let mut sources: Vec<ElementId> = collapses().filter_map(about).collect();
                sources.dedup();
                let dark = collapses().flat_map(|one| match one.argument("devices") {
                    Some(Argument::Elements(devices)) => devices.clone(),
                    _ => Vec::new(),
                });
                return Ok(Some(Collapsed { causes, sources, dark: dark.collect(), short }));
            }
            Some(Some(run)) if !causes.contains(&run) => causes.push(run),
            // What is left of it comes of no run.
            Some(_) => return Ok(None),
        }
    }
}
