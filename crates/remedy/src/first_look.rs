//! What a change leaves, told from the one state or call in which a finding was found.

use crate::bench::Bench;
use crate::outcome::{Key, key};
use latchline_assess::rules::codes;
use latchline_finding::{Argument, ElementId, Finding};
use latchline_network::signal_tree::{SignalNetwork, losses_from_caller};
use latchline_network::witness::{has_no_operating_point, margins_in_state};
use latchline_network::{Device, Layout};
use latchline_site::model::Site;

/// Findings that the changed site is known to have. The finding itself also stands for another in its place that was not there.
/// What is not among them takes more to know.
pub(crate) fn left_by(bench: &Bench<'_>, changed: &Site, finding: &Finding) -> Vec<Key> {
    let left = match finding.code {
        codes::NO_OPERATING_POINT => collapses(bench, changed, finding).then(|| vec![key(finding)]),
        codes::VOLTAGE_TOO_LOW => too_low(bench, changed, finding),
        codes::THIN_MARGIN => {
            is_thin(changed, finding).map(|stays| if stays { vec![key(finding)] } else { Vec::new() })
        }
        codes::SIGNAL_TOO_WEAK => too_weak(bench, changed, finding),
        _ => None,
    };
    left.unwrap_or_default()
}

/// Whether the source still has no operating point in any state in which it was found to have none.
fn collapses(bench: &Bench<'_>, changed: &Site, finding: &Finding) -> bool {
    let Some(source) = &finding.element else { return false };
    let layout = Layout::new(changed);
    let same = |one: &&Finding| one.code == finding.code && one.element == finding.element;
    let mut states = bench.assessment.findings.iter().filter(same).filter_map(|one| one.state.as_ref());
    states.any(|state| has_no_operating_point(changed, &layout, source, state))
}

/// Margins of the device and of those beside it in the state in which it was found. A bus that collapses in another state is no better.
fn margins(changed: &Site, layout: &Layout, finding: &Finding) -> Option<(Device, Vec<(Device, f64)>)> {
    let (element, state) = (finding.element.as_ref()?, finding.state.as_ref()?);
    let station = station(changed, element).map(Device::Station);
    let device =
        station.or_else(|| changed.boxes.iter().position(|one| one.id == *element).map(Device::Box))?;
    Some((device, margins_in_state(changed, layout, device, state)?))
}

/// Devices of the same source that are short in the state in which the device was.
fn too_low(bench: &Bench<'_>, changed: &Site, finding: &Finding) -> Option<Vec<Key>> {
    let layout = Layout::new(changed);
    let (device, margins) = margins(changed, &layout, finding)?;
    let at = match device {
        Device::Station(index) => layout.station[index]?,
        Device::Box(index) => layout.box_input[index]?,
    };
    // Where the bus was found to collapse, nothing was said of voltages.
    let collapse = (codes::NO_OPERATING_POINT, Some(layout.stages[at.stage].id.clone()));
    let all = !bench.is_found(&collapse);
    let id = |device: Device| match device {
        Device::Station(index) => changed.stations[index].id.clone(),
        Device::Box(index) => changed.boxes[index].id.clone(),
    };
    let short = margins.iter().filter(|(one, margin_v)| *margin_v < 0.0 && (all || *one == device));
    Some(short.map(|(one, _)| (codes::VOLTAGE_TOO_LOW, Some(id(*one)))).collect())
}

/// Whether the device still has too little in hand. With still less it is too low, which is worse and was not found before.
fn is_thin(changed: &Site, finding: &Finding) -> Option<bool> {
    let thin_v = changed.policy.thin_margin.value.as_volts();
    let (device, margins) = margins(changed, &Layout::new(changed), finding)?;
    margins.iter().find(|(one, _)| *one == device).map(|(_, margin_v)| *margin_v < thin_v)
}

/// Stations that hear less than their budget allows from the caller that was found.
fn too_weak(bench: &Bench<'_>, changed: &Site, finding: &Finding) -> Option<Vec<Key>> {
    let Some(Argument::Element(caller)) = finding.argument("caller") else { return None };
    let Some(Argument::Text(band)) = finding.argument("band") else { return None };
    let bands = &changed.family().signal_bands;
    let band = bands.iter().position(|one| one.name == *band)?;
    let caller = station(changed, caller)?;
    let network = SignalNetwork::new(changed, &Layout::new(changed));
    let losses = losses_from_caller(changed, &network, caller, band, &bench.memory)?;
    let budget_db = bands[band].budget.value.as_decibels();
    let weak = losses.iter().filter(|(_, loss_db)| *loss_db > budget_db);
    Some(weak.map(|(one, _)| (codes::SIGNAL_TOO_WEAK, Some(changed.stations[*one].id.clone()))).collect())
}

fn station(site: &Site, id: &ElementId) -> Option<usize> {
    site.stations.iter().position(|one| one.id == *id)
}
