//! What a change leaves, told from the one state or call in which a finding was found.

use crate::outcome::{Key, key};
use latchline_assess::rules::codes;
use latchline_assess::{Assessment, Memory};
use latchline_finding::{Argument, ElementId, Finding};
use latchline_network::signal_tree::{CableLengths, SignalNetwork, losses_from_caller};
use latchline_network::witness::{Witnessed, in_state};
use latchline_network::{Device, Layout, StageSource};
use latchline_site::model::Site;
use std::collections::BTreeSet;

/// What is known of the site as it is.
#[derive(Clone, Copy)]
pub(crate) struct Seen<'a> {
    pub assessment: &'a Assessment,
    /// What was found on it.
    pub found: &'a BTreeSet<Key>,
    pub memory: &'a Memory,
}

impl Seen<'_> {
    fn is_found(&self, key: &Key) -> bool {
        self.found.contains(key)
    }
}

/// Findings that the changed site is known to have. The finding itself also stands for another in its place that was not there.
/// What is not among them takes more to know.
pub(crate) fn left_by(known: &Seen<'_>, changed: &Site, finding: &Finding) -> Vec<Key> {
    let left = match finding.code {
        codes::NO_OPERATING_POINT => Some(collapses(known, changed, finding)),
        codes::VOLTAGE_TOO_LOW | codes::THIN_MARGIN => too_low(known, changed, finding),
        codes::SUPPLY_OVERLOADED => is_overloaded(changed, finding),
        codes::SIGNAL_TOO_WEAK => too_weak(known, changed, finding),
        _ => None,
    };
    left.unwrap_or_default()
}

/// The finding itself where the source still has no operating point in a state in which it was found to have none, or where it
/// has one that leaves a device short: of that nothing was said while the bus collapsed.
fn collapses(known: &Seen<'_>, changed: &Site, finding: &Finding) -> Vec<Key> {
    let layout = Layout::new(changed);
    let Some(stage) = stage_of(&layout, finding) else { return Vec::new() };
    let same = |one: &&Finding| one.code == finding.code && one.element == finding.element;
    let mut states = known.assessment.findings.iter().filter(same).filter_map(|one| one.state.as_ref());
    let stays = states.any(|state| match in_state(changed, &layout, stage, state) {
        Some(Witnessed::NoOperatingPoint) => true,
        Some(Witnessed::Solved(seen)) => {
            // What another source's collapse takes down is not said to be short either.
            !is_known_to_collapse(known, &layout, stage, Some(stage))
                && seen.margins_v.iter().any(|(device, margin_v)| {
                    let too_low = (codes::VOLTAGE_TOO_LOW, Some(device.id(changed).clone()));
                    *margin_v < 0.0 && !known.is_found(&too_low)
                })
        }
        None => false,
    });
    if stays { vec![key(finding)] } else { Vec::new() }
}

/// The devices of the same source that have too little in the state in which the device had.
fn too_low(known: &Seen<'_>, changed: &Site, finding: &Finding) -> Option<Vec<Key>> {
    let layout = Layout::new(changed);
    let (element, state) = (finding.element.as_ref()?, finding.state.as_ref()?);
    let station = station(changed, element).map(Device::Station);
    let device =
        station.or_else(|| changed.boxes.iter().position(|one| one.id == *element).map(Device::Box))?;
    let stage = match device {
        Device::Station(index) => layout.station[index]?.stage,
        Device::Box(index) => layout.box_input[index]?.stage,
    };
    let Witnessed::Solved(seen) = in_state(changed, &layout, stage, state)? else { return None };
    // Where the bus was found to collapse, nothing was said of voltages.
    let all = !is_known_to_collapse(known, &layout, stage, None);
    // What was thin is thin still, or worse.
    let enough_v = match finding.code {
        codes::THIN_MARGIN => changed.policy.thin_margin.value.as_volts(),
        _ => 0.0,
    };
    let left = seen.margins_v.iter().filter_map(|(one, margin_v)| {
        if *one == device {
            (*margin_v < enough_v).then(|| key(finding))
        } else {
            (all && *margin_v < 0.0).then(|| (codes::VOLTAGE_TOO_LOW, Some(one.id(changed).clone())))
        }
    });
    Some(left.collect())
}

/// Whether a source, or one that draws from it, was found to collapse; `but` aside.
fn is_known_to_collapse(known: &Seen<'_>, layout: &Layout, stage: usize, but: Option<usize>) -> bool {
    layout
        .with_stages_below(stage)
        .into_iter()
        .filter(|one| Some(*one) != but)
        .any(|one| known.is_found(&(codes::NO_OPERATING_POINT, Some(layout.stages[one].id.clone()))))
}

/// Whether the source still gives more than it is rated for in the state in which it did.
fn is_overloaded(changed: &Site, finding: &Finding) -> Option<Vec<Key>> {
    let layout = Layout::new(changed);
    let stage = stage_of(&layout, finding)?;
    let Witnessed::Solved(seen) = in_state(changed, &layout, stage, finding.state.as_ref()?)? else {
        return None;
    };
    let StageSource::Supply(supply) = layout.stages[stage].source else { return None };
    let model = changed.supply_model(&changed.supplies[supply]);
    let stays = seen.source_current_a > model.rated_current.value.as_amps()
        || model.rated_power.as_ref().is_some_and(|rated| seen.source_power_w > rated.value.as_watts());
    stays.then(|| vec![key(finding)])
}

fn stage_of(layout: &Layout, finding: &Finding) -> Option<usize> {
    let source = finding.element.as_ref()?;
    layout.stages.iter().position(|stage| stage.id == *source)
}

/// Stations that hear less than their budget allows from the caller that was found.
fn too_weak(known: &Seen<'_>, changed: &Site, finding: &Finding) -> Option<Vec<Key>> {
    let Some(Argument::Element(caller)) = finding.argument("caller") else { return None };
    let Some(Argument::Text(band)) = finding.argument("band") else { return None };
    let bands = &changed.family().signal_bands;
    let band = bands.iter().position(|one| one.name == *band)?;
    let caller = station(changed, caller)?;
    let network = SignalNetwork::new(changed, &Layout::new(changed), CableLengths::Longest);
    let losses = losses_from_caller(changed, &network, caller, band, known.memory)?;
    let budget_db = bands[band].budget.value.as_decibels();
    let weak = losses.iter().filter(|(_, loss_db)| *loss_db > budget_db);
    Some(weak.map(|(one, _)| (codes::SIGNAL_TOO_WEAK, Some(changed.stations[*one].id.clone()))).collect())
}

fn station(site: &Site, id: &ElementId) -> Option<usize> {
    site.stations.iter().position(|one| one.id == *id)
}
